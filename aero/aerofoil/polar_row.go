package aerofoil

import (
	"fmt"
	"math"
)

// States of a section's surface in a polar.
const (
	Clean        = "clean"        // as built, free transition
	Contaminated = "contaminated" // rain, insects, dirt: turbulent from the leading edge
)

// PolarRow is one row of a table of section data, measured or computed.
type PolarRow struct {
	Reynolds    float64 // of the chord
	Flap        float64 // rad, trailing edge down positive
	State       string  // Clean or Contaminated
	MaxLift     float64 // maximum lift coefficient of the section
	ProfileDrag float64 // profile drag coefficient near the lift at which the section is used
	Source      string  // where the row comes from
}

// TableError is a mistake in a table of section data.
type TableError struct {
	Row   int    // counted from 1; 0 when the whole table is meant
	Field string // "reynolds", "flap", "state", "max_lift" or "profile_drag"; empty when the row is meant
	What  string // what is wrong
	Right string // what would be right
}

// Error writes the mistake as one line: place, finding, remedy.
func (e *TableError) Error() string {
	if e.Row == 0 {
		return fmt.Sprintf("polar: %s; %s", e.What, e.Right)
	}
	return fmt.Sprintf("polar row %d: %s; %s", e.Row, e.What, e.Right)
}

// check reports the mistakes of one row by itself.
func (r PolarRow) check(row int) []error {
	var found []error
	add := func(field, what, right string) { found = append(found, &TableError{row, field, what, right}) }
	for _, v := range []struct {
		field, words, right string
		value               float64
	}{
		{"reynolds", "the Reynolds number", "give that of the chord, such as 500000", r.Reynolds},
		{"max_lift", "the maximum lift", "give the section's maximum lift coefficient, such as 1.4", r.MaxLift},
		{"profile_drag", "the profile drag", "give the section's drag coefficient, such as 0.008", r.ProfileDrag},
	} {
		switch {
		case math.IsNaN(v.value) || math.IsInf(v.value, 0):
			add(v.field, v.words+" is not a number", v.right)
		case v.value <= 0:
			add(v.field, fmt.Sprintf("%s is %.4g and must be positive", v.words, v.value), v.right)
		}
	}
	switch {
	case math.IsNaN(r.Flap) || math.IsInf(r.Flap, 0):
		add("flap", "the flap deflection is not a number", "give an angle, 0 for none")
	case math.Abs(r.Flap) > math.Pi/2:
		add("flap", fmt.Sprintf("a flap deflection of %.4g rad is more than a right angle", r.Flap), "were degrees taken for radians?")
	}
	if r.State != Clean && r.State != Contaminated {
		add("state", fmt.Sprintf("the state is %q", r.State), "write clean or contaminated")
	}
	return found
}
