package prediction

import (
	"fmt"
	"math"

	"wingproof/aero/aerofoil"
	"wingproof/cmd/wingproof/internal/program"
)

// Sections is the section data of a program's aerofoils, made once: what shares a table shares its error.
type Sections struct {
	tables map[string]sectionTable
}

// sectionTable is what is known of one aerofoil.
type sectionTable struct {
	lift, drag *aerofoil.Polar // nil where the aerofoil has none; drag also where a row leaves it empty
}

// SectionsOf makes the polars of a program ready. An error names the aerofoil whose table cannot be used.
func SectionsOf(p *program.Program) (*Sections, error) {
	s := &Sections{tables: map[string]sectionTable{}}
	for _, a := range p.Aerofoils {
		var t sectionTable
		if rows := a.Rows(); len(rows) > 0 {
			polar, err := aerofoil.NewPolar(stated(rows))
			if err != nil {
				return nil, fmt.Errorf("aerofoil %q: %w", a.Name, err)
			}
			t.lift = &polar
			if allDrags(rows) {
				t.drag = &polar
			}
		}
		s.tables[a.Name] = t
	}
	return s, nil
}

// stated puts a drag into the rows that leave it empty, so that their lift can be used; the drag is not looked at then.
func stated(rows []aerofoil.PolarRow) []aerofoil.PolarRow {
	out := make([]aerofoil.PolarRow, len(rows))
	for i, r := range rows {
		if r.ProfileDrag == 0 {
			r.ProfileDrag = 1
		}
		out[i] = r
	}
	return out
}

func allDrags(rows []aerofoil.PolarRow) bool {
	for _, r := range rows {
		if r.ProfileDrag == 0 {
			return false
		}
	}
	return true
}

// has tells whether the maximum lift of an aerofoil is known in a state, and what is missing if not.
func (s *Sections) has(name, state string) (missing string) {
	switch t, known := s.tables[name]; {
	case name == "" || !known:
		return "a station has no aerofoil"
	case t.lift == nil:
		return fmt.Sprintf("aerofoil %q has no polar", name)
	default:
		if _, _, ok := t.lift.Range(state); !ok {
			return fmt.Sprintf("the polar of aerofoil %q has no rows that are %s", name, state)
		}
	}
	return ""
}

// place is where a strip's section lies: between two stations with their aerofoils.
type place struct {
	inner, outer string
	between      float64 // 0 at the inner one
}

// missing says what keeps the maximum lift from being known there.
func (s *Sections) missing(at place, state string) string {
	if at.between < 1 {
		if what := s.has(at.inner, state); what != "" {
			return what
		}
	}
	if at.between > 0 {
		return s.has(at.outer, state)
	}
	return ""
}

// maxLift interpolates between the two aerofoils of a place; inside is false where a table was left.
func (s *Sections) maxLift(at place, reynolds, flap float64, state string) (value float64, inside bool, err error) {
	inside = true
	for _, part := range []struct {
		name  string
		share float64
	}{{at.inner, 1 - at.between}, {at.outer, at.between}} {
		if part.share <= 0 {
			continue
		}
		v, in, err := s.tables[part.name].lift.MaxLift(reynolds, flap, state)
		if err != nil {
			return math.NaN(), false, fmt.Errorf("aerofoil %q: %w", part.name, err)
		}
		value += part.share * v
		inside = inside && in
	}
	return value, inside, nil
}
