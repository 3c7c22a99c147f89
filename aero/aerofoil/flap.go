package aerofoil

import "math"

// Flap is the effect of an ideal plain flap, per radian of deflection, trailing edge down positive.
type Flap struct {
	Effectiveness float64 // τ: angle of attack of equal lift per deflection
	Lift          float64 // ∂cl/∂η, 1/rad
	Moment        float64 // ∂cm about the quarter chord/∂η, 1/rad
}

// PlainFlap is the thin-aerofoil value for a hinge at a fraction of the chord aft of the leading edge,
// limited to 0 … 1. Real flaps (gap, boundary layer) reach 70 to 90 % of it; common practice, no source.
//
// With φ = arccos(1 − 2·hinge) measured from the leading edge: ∂cl/∂η = 2 (π − φ + sin φ) and
// ∂cm/∂η = −½ sin φ (1 − cos φ).
//
// Source: E. L. Houghton & P. W. Carpenter, Aerodynamics for Engineering Students, eqs (4.49) to (4.57).
func PlainFlap(hinge float64) Flap {
	phi := math.Acos(1 - 2*math.Min(math.Max(hinge, 0), 1))
	lift := 2 * (math.Pi - phi + math.Sin(phi))
	return Flap{lift / (2 * math.Pi), lift, -math.Sin(phi) * (1 - math.Cos(phi)) / 2}
}
