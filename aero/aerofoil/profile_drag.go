package aerofoil

import "math"

// ProfileDrag estimates the profile drag coefficient of a section from the friction of both sides and
// Hoerner's form factor:
//
//	cd = 2 · Friction(reynolds, transition) · AerofoilFormHoerner(thickness)
//
// thickness is a fraction of the chord; both sides turn turbulent at the same place. It holds for
// smooth, closed sections near their design lift. The growth of profile drag with lift, laminar separation
// bubbles, roughness, gaps and flaps are not in it. NaN unless the Reynolds number is positive.
//
// ProfileDragDeviation is its standard deviation.
func ProfileDrag(reynolds, thickness float64, transition Transition) float64 {
	return 2 * Friction(reynolds, transition) * AerofoilFormHoerner(thickness)
}

// ProfileDragDeviation is the relative standard deviation of ProfileDrag, for a stated transition: 0.10 from a
// Reynolds number of 1e6 upward, growing with its logarithm to 0.25 at 1e5 and below, where bubbles may
// double the drag. The choice of form factor alone makes 0.06 to 0.12. Where transition is a guess, its effect comes on top.
//
// Common practice, no source.
func ProfileDragDeviation(reynolds float64) float64 {
	decades := math.Min(1, math.Max(0, 6-math.Log10(reynolds)))
	return 0.10 + 0.15*decades
}
