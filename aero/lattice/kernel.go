package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

const fourPi = 4 * math.Pi

// horseshoe is the velocity at p from unit circulation along: infinity aft to a, a to b, b to
// infinity aft (legs parallel to x). core4 is the fourth power of the core of the legs; zero is none.
// On a filament itself its own contribution is zero.
//
// Source: Biot and Savart's law for straight filaments, as in Katz & Plotkin, Low-Speed
// Aerodynamics, 2nd ed., section 2.12, in a form without division by the distance from the segment.
func horseshoe(p, a, b r3.Vec, core4 float64) r3.Vec {
	x1, y1, z1 := p.X-a.X, p.Y-a.Y, p.Z-a.Z
	x2, y2, z2 := p.X-b.X, p.Y-b.Y, p.Z-b.Z
	d1, d2 := y1*y1+z1*z1, y2*y2+z2*z2 // squared distances from the legs
	n1, n2 := math.Sqrt(x1*x1+d1), math.Sqrt(x2*x2+d2)
	var v r3.Vec

	product := n1 * n2
	if below := product + x1*x2 + y1*y2 + z1*z2; below > 1e-10*product {
		k := (n1 + n2) / (product * below * fourPi)
		v.X = k * (y1*z2 - z1*y2)
		v.Y = k * (z1*x2 - x1*z2)
		v.Z = k * (x1*y2 - y1*x2)
	}
	if d1 > 1e-16*n1*n1 {
		k := legStrength(x1, n1, d1, core4)
		v.Y += k * z1
		v.Z -= k * y1
	}
	if d2 > 1e-16*n2*n2 {
		k := legStrength(x2, n2, d2, core4)
		v.Y -= k * z2
		v.Z += k * y2
	}
	return v
}

// legStrength is the velocity over distance at squared distance d from a semi-infinite leg of unit circulation
// that starts x ahead of the point, n away.
func legStrength(x, n, d, core4 float64) float64 {
	if core4 > 0 {
		return (n + x) / (fourPi * n * math.Sqrt(d*d+core4))
	}
	if x < 0 { // (1 + x/n)/d without cancellation ahead of the leg
		return 1 / (fourPi * n * (n - x))
	}
	return (n + x) / (fourPi * n * d)
}
