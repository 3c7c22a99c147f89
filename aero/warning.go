package aero

import "fmt"

// Warning is a doubt about a geometry that can still be computed.
type Warning struct {
	Surface string // name of the lifting surface
	Station int    // counted from 1; 0 when the whole surface is meant
	What    string // what was found
	Right   string // what would be right
}

// String writes the warning as one line: place, finding, remedy.
func (w Warning) String() string {
	if w.Station == 0 {
		return fmt.Sprintf("surface %q: %s; %s", w.Surface, w.What, w.Right)
	}
	return fmt.Sprintf("surface %q station %d: %s; %s", w.Surface, w.Station, w.What, w.Right)
}
