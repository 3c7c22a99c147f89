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
func (p *Program) Airframe(levels map[string]string) (aero.Airframe, []string, error) {
	airframe, found, err := aero.Join(aero.Airframe{Surfaces: p.Surfaces})
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
			if airframe, err = e.apply(airframe); err != nil {
				return aero.Airframe{}, nil, fmt.Errorf("level %s of choice %s: %w", level.Name, c.Name, err)
			}
		}
	}
	if err := aero.CheckSurfaces(airframe.Surfaces); err != nil {
		return aero.Airframe{}, nil, err
	}
	if airframe, found, err = aero.Join(airframe); err != nil {
		return aero.Airframe{}, nil, err
	}
	var warnings []string
	for _, w := range found {
		warnings = append(warnings, w.String())
	}
	airframe.Reference, warnings = p.Declared.over(reference, warnings)
	return airframe, warnings, nil
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

// apply makes the changes of one edit in a fixed order: other stations, then size, then angles, then place.
func (e Edit) apply(a aero.Airframe) (aero.Airframe, error) {
	var err error
	if e.Stations != nil {
		if a, err = a.ReplaceStations(e.Surface, e.Stations); err != nil {
			return a, err
		}
	}
	for _, step := range []struct {
		value *float64
		apply func(surface string, value float64) (aero.Airframe, error)
	}{
		{e.Span, func(s string, v float64) (aero.Airframe, error) { return a.SetSpan(s, v) }},
		{e.Height, func(s string, v float64) (aero.Airframe, error) { return a.SetHeight(s, v) }},
		{e.ChordScale, func(s string, v float64) (aero.Airframe, error) { return a.ScaleChord(s, v) }},
		{e.Cant, func(s string, v float64) (aero.Airframe, error) { return a.SetCant(s, v) }},
		{e.Toe, func(s string, v float64) (aero.Airframe, error) { return a.SetToe(s, v) }},
		{e.Incidence, func(s string, v float64) (aero.Airframe, error) { return a.SetIncidence(s, v) }},
		{e.MoveX, func(s string, v float64) (aero.Airframe, error) { return a.Shift(s, v, 0) }},
		{e.MoveZ, func(s string, v float64) (aero.Airframe, error) { return a.Shift(s, 0, v) }},
	} {
		if step.value == nil {
			continue
		}
		if a, err = step.apply(e.Surface, *step.value); err != nil {
			return a, err
		}
	}
	return a, nil
}
