package aero

import "fmt"

// GeometryError is a geometry that cannot be computed.
type GeometryError struct {
	Surface string // name of the lifting surface; empty when the whole airframe is meant
	Station int    // counted from 1; 0 when the whole surface is meant
	What    string // what is wrong
	Right   string // what would be right
}

// Error writes the mistake as one line: place, finding, remedy.
func (e *GeometryError) Error() string {
	switch {
	case e.Surface == "":
		return fmt.Sprintf("airframe: %s; %s", e.What, e.Right)
	case e.Station == 0:
		return fmt.Sprintf("surface %q: %s; %s", e.Surface, e.What, e.Right)
	}
	return fmt.Sprintf("surface %q station %d: %s; %s", e.Surface, e.Station, e.What, e.Right)
}
