package body

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// SlenderFactor is Munk's (k2 − k1) of a prolate spheroid, by which the couple of a round body of the given
// fineness (length over diameter) stays below that of an endlessly long one: 0 for a sphere, 1 in the limit.
//
// With the eccentricity e² = 1 − 1/fineness²
//
//	α0 = 2 (1 − e²)/e³ · (artanh e − e),  β0 = 1 − α0/2,  k1 = α0/(2 − α0),  k2 = β0/(2 − β0)
//
// Below a fineness of 1 there is no slender body, and the factor is 0.
//
// Source: H. Lamb, Hydrodynamics, 6th ed., art. 114 (from memory, checked against EllipsoidFactors); M. M. Munk, NACA Report 184, 1924.
func SlenderFactor(fineness float64) float64 {
	switch {
	case fineness <= 1:
		return 0
	case math.IsInf(fineness, 1):
		return 1
	}
	e2 := (fineness - 1) * (fineness + 1) / (fineness * fineness)
	alpha := 2 * (1 - e2) * excess(e2)
	beta := 1 - alpha/2
	return inertia(beta) - inertia(alpha)
}

// excess is (artanh e − e)/e³ for e² > 0; near a sphere by its series 1/3 + e²/5 + e⁴/7 + …
func excess(e2 float64) float64 {
	if e2 > 0.05 {
		e := math.Sqrt(e2)
		return (math.Atanh(e) - e) / (e * e2)
	}
	sum, power := 0.0, 1.0
	for n := 3; n <= 27; n += 2 {
		sum += power / float64(n)
		power *= e2
	}
	return sum
}

// inertia turns one of Lamb's α0, β0, γ0 into the inertia factor along that axis.
func inertia(a float64) float64 { return a / (2 - a) }

// EllipsoidFactors are the ratios of the couple on an ellipsoid of the given length, width and height [m, above zero]
// to the strip integrals of its width (pitch) and of its height (yaw) in free air.
//
// The couple in pitch over ½ρV² is 2·(k_z − k_x)·Vol and the integral π/2·∫w² dx is 2·Vol·width/height, so that the
// factor is (k_z − k_x)·height/width; in yaw (k_y − k_x)·width/height. Both equal SlenderFactor where width and
// height are equal and tend to 1 for a long body. Lamb's integrals, such as
// α0 = abc ∫ dλ/((a²+λ)·√((a²+λ)(b²+λ)(c²+λ))) from 0 to ∞ with half-axes a, b, c, are Carlson's R_D: α0 = ⅔ abc·R_D(b², c², a²).
//
// Source: H. Lamb, Hydrodynamics, 6th ed., art. 114.
func EllipsoidFactors(length, width, height float64) (pitch, yaw float64) {
	b, c := width/length, height/length // half-axes over the half length
	if !(b > 0 && c > 0) || math.IsInf(b, 1) || math.IsInf(c, 1) {
		return math.NaN(), math.NaN()
	}
	third := 2.0 / 3 * b * c
	x := inertia(third * mathext.EllipticRD(b*b, c*c, 1))
	y := inertia(third * mathext.EllipticRD(c*c, 1, b*b))
	z := inertia(third * mathext.EllipticRD(1, b*b, c*c))
	return (z - x) * c / b, (y - x) * b / c
}
