package body

import "math"

// PitchSlope is dM/dα over the dynamic pressure by strips, m³ per rad, nose up positive:
// π/2 ∫ w² · flow dx with the width w. A body in free air destabilises: the slope is positive.
//
// flow is d(local angle in the vertical plane)/dα on the body's axis; nil means free air, 1 everywhere.
// It is called many times at any x from nose to tail, and it may jump. The slender limit: no factor for finite
// length is in it (Effect puts it on). For a round body in free air it is twice the volume.
//
// Source: H. Multhopp, Aerodynamics of the Fuselage, NACA TM 1036, 1942 (from memory, derived in the package comment).
func (b Body) PitchSlope(flow Flow) float64 {
	return math.Pi / 2 * b.strips(func(s Station) float64 { return s.Width }, flow)
}

// YawSlope is dN/dβ over the dynamic pressure by strips, m³ per rad, nose right positive:
// −π/2 ∫ h² · flow dx with the height h. Positive sideslip comes from the right and the body turns
// away from it: in free air the slope is negative, which destabilises.
//
// flow is d(local angle in the horizontal plane)/dβ, 1 minus the sidewash slope; nil means 1 everywhere. Otherwise as PitchSlope.
func (b Body) YawSlope(flow Flow) float64 {
	return -math.Pi / 2 * b.strips(func(s Station) float64 { return s.Height }, flow)
}
