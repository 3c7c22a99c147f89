package aerofoil

import "math"

// AerofoilFormHoerner is profile drag over friction of both sides for a section of a thickness, fraction of
// the chord: 1 + 2 t + 60 t⁴, for sections with their greatest thickness near 30 % of the chord.
//
// Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965, chapter VI; from memory.
func AerofoilFormHoerner(thickness float64) float64 {
	return 1 + 2*thickness + 60*math.Pow(thickness, 4)
}

// AerofoilFormTorenbeek is the same ratio as 1 + 2.7 t + 100 t⁴, 6 to 12 % above Hoerner's between thicknesses of 9 and 18 %.
//
// Source: E. Torenbeek, Synthesis of Subsonic Airplane Design, 1982, appendix F; from memory.
func AerofoilFormTorenbeek(thickness float64) float64 {
	return 1 + 2.7*thickness + 100*math.Pow(thickness, 4)
}

// AerofoilFormRaymer is the same ratio with the place of the greatest thickness (fraction of the chord),
// the Mach number and the sweep of the line through that place (rad):
//
//	(1 + 0.6/place t + 100 t⁴) · 1.34 M^0.18 cos^0.28 sweep
//
// The formula was made for transports: it falls to zero at rest, so that a Mach number below 0.2, where
// its last factor is 1.003, counts as 0.2.
//
// Source: D. P. Raymer, Aircraft Design: A Conceptual Approach, component build-up; from memory.
func AerofoilFormRaymer(thickness, place, mach, sweep float64) float64 {
	speed := 1.34 * math.Pow(math.Max(mach, 0.2), 0.18) * math.Pow(math.Cos(sweep), 0.28)
	return (1 + 0.6/place*thickness + 100*math.Pow(thickness, 4)) * speed
}

// BodyFormHoerner is profile drag over friction of the wetted area for a streamline body of a fineness
// (length over diameter): 1 + 1.5/f^1.5 + 7/f³.
//
// Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965, chapter VI; from memory.
func BodyFormHoerner(fineness float64) float64 {
	return 1 + 1.5/math.Pow(fineness, 1.5) + 7/math.Pow(fineness, 3)
}

// BodyFormRaymer is the same ratio for a fuselage with a canopy: 1 + 60/f³ + f/400. It lies far above
// Hoerner's for short bodies (50 % at f = 4).
//
// Source: D. P. Raymer, Aircraft Design: A Conceptual Approach, component build-up; from memory.
func BodyFormRaymer(fineness float64) float64 {
	return 1 + 60/math.Pow(fineness, 3) + fineness/400
}
