package program

import (
	"fmt"
	"math"

	"wingproof/aero"
)

// declaredTolerance is how far a declared reference quantity may lie from the computed one before a
// warning says so, relative (of the mean aerodynamic chord for its leading edge). Common practice, no source.
const declaredTolerance = 0.01

// Airframe builds the geometry of one combination of levels: the baseline surfaces, joined, with the
// edits of every level in the order of the choices. The levels must name one level for each choice.
//
// Reference quantities are computed from the baseline's main wing, so that coefficients of all
// configurations compare; what the program declares replaces them. Warnings tell of edges that do not meet
// and of declared values that lie more than 1 % from the computed ones.
//
// An error is a level that is not there, an edit that leads nowhere, or a geometry that no computation can
// use: whatever aero.CheckSurfaces finds, and strake and wing that overlap or part.
func (p *Program) Airframe(levels map[string]string) (aero.Airframe, []string, error) {
	return p.AirframeWith(levels, nil)
}

// AirframeWith is Airframe with further edits behind those of the levels, such as one size of a sweep.
func (p *Program) AirframeWith(levels map[string]string, extra []Edit) (aero.Airframe, []string, error) {
	airframe, _, err := aero.Join(aero.Airframe{Surfaces: p.Surfaces})
	if err != nil {
		return aero.Airframe{}, nil, err
	}
	reference, err := aero.ReferenceOf(airframe.Surfaces)
	if err != nil {
		return aero.Airframe{}, nil, err
	}
	for _, c := range p.Choices {
		level, err := c.level(levels[c.Name])
		if err != nil {
			return aero.Airframe{}, nil, err
		}
		for _, e := range level.Edits {
			if airframe, err = e.Apply(airframe); err != nil {
				return aero.Airframe{}, nil, fmt.Errorf("level %s of choice %s: %w", level.Name, c.Name, err)
			}
		}
	}
	for _, e := range extra {
		if airframe, err = e.Apply(airframe); err != nil {
			return aero.Airframe{}, nil, err
		}
	}
	airframe, warnings, err := soundly(airframe)
	if err != nil {
		return aero.Airframe{}, nil, err
	}
	airframe.Reference, warnings = p.Declared.over(reference, warnings)
	return airframe, warnings, nil
}

// soundly joins the edited surfaces and refuses what cannot be computed. The reference quantities are computed once more
// only to see whether strake and wing still meet.
func soundly(a aero.Airframe) (aero.Airframe, []string, error) {
	if err := aero.CheckSurfaces(a.Surfaces); err != nil {
		return aero.Airframe{}, nil, err
	}
	a, found, err := aero.Join(a)
	if err != nil {
		return aero.Airframe{}, nil, err
	}
	if err := aero.CheckSurfaces(a.Surfaces); err != nil {
		return aero.Airframe{}, nil, err
	}
	if _, err := aero.ReferenceOf(a.Surfaces); err != nil {
		return aero.Airframe{}, nil, err
	}
	var warnings []string
	for _, w := range found {
		warnings = append(warnings, w.String())
	}
	return a, warnings, nil
}

func (c Choice) level(name string) (Level, error) {
	for _, level := range c.Levels {
		if level.Name == name {
			return level, nil
		}
	}
	return Level{}, fmt.Errorf("choice %s has no level %s; name %s", c.Name, quoted(name), oneOf(c.levelNames()))
}

// over replaces computed reference quantities by declared ones and warns where they differ.
func (d DeclaredReference) over(r aero.Reference, warnings []string) (aero.Reference, []string) {
	replace := func(name string, declared float64, computed *float64, scale float64) {
		if declared == 0 {
			return
		}
		if off := math.Abs(declared-*computed) / scale; off > declaredTolerance {
			warnings = append(warnings, fmt.Sprintf("[reference] %s is declared as %.4g and the geometry gives %.4g (%.1f %% apart); the declared value is used",
				name, declared, *computed, 100*off))
		}
		*computed = declared
	}
	chord := r.MeanChord
	replace("area_m2", d.Area, &r.Area, r.Area)
	replace("span_m", d.Span, &r.Span, r.Span)
	replace("mean_aerodynamic_chord_m", d.MeanChord, &r.MeanChord, chord)
	replace("mean_aerodynamic_chord_leading_edge_x_m", d.MeanChordLeadingEdge, &r.MeanChordLeadingEdge, chord)
	return r, warnings
}
