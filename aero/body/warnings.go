package body

import (
	"fmt"

	"wingproof/aero"
)

// Bounds of what slender-body theory is asked to do; common practice, no source.
const (
	leastFineness = 4   // length over equivalent diameter
	openEnd       = 0.1 // area of an end face over the greatest section
)

// Warnings reports what makes the correction doubtful: a stout body, or an end face that is not nearly a point
// (its force, which works at that end, is left out). None is an error. Surface in each warning is "body".
func (b Body) Warnings() []aero.Warning {
	if len(b.Stations) == 0 {
		return nil
	}
	var found []aero.Warning
	if f := b.Fineness(); f < leastFineness {
		found = append(found, aero.Warning{Surface: "body",
			What:  fmt.Sprintf("its fineness is %.2g, and slender-body theory wants %d or more", f, leastFineness),
			Right: "take the correction for an order of magnitude"})
	}
	largest := 0.0
	for _, s := range b.Stations {
		largest = max(largest, s.Width*s.Height)
	}
	for _, i := range []int{0, len(b.Stations) - 1} {
		s := b.Stations[i]
		if share := s.Width * s.Height / largest; share > openEnd {
			found = append(found, aero.Warning{Surface: "body", Station: i + 1,
				What:  fmt.Sprintf("the body ends with a face of %.0f %% of its greatest section, counted as closed", 100*share),
				Right: "add the nose or tail (a spinner too) as further stations, down to a point"})
		}
	}
	return found
}
