package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

const fourPi = 4 * math.Pi

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

// A horseshoe of unit circulation runs from infinity aft to its inboard node, along the bound segment to its outboard node and
// back to infinity, the legs parallel to x. On a filament itself its own contribution is zero.
//
// Source: Biot and Savart's law for straight filaments, as in Katz & Plotkin, Low-Speed
// Aerodynamics, 2nd ed., section 2.12, in a form without division by the distance from the segment.

// node is an end of a bound segment as seen from a point: where the point lies from it, how far, and what the leg that runs aft
// from it does there. Neighbouring strips share their nodes, so that each leg is worked out once.
type node struct {
	x, y, z, distance float64
	legY, legZ        float64 // velocity per unit circulation running aft
}

// look fills the nodes of a row of corners as seen from a point.
func look(nodes []node, p r3.Vec, corners []r3.Vec, core4 float64) {
	nodes = nodes[:len(corners)]
	for k := range corners {
		q, n := &corners[k], &nodes[k]
		x, y, z := p.X-q.X, p.Y-q.Y, p.Z-q.Z
		d := y*y + z*z
		r := math.Sqrt(x*x + d)
		strength := 0.0
		if d > 1e-16*r*r {
			strength = legStrength(x, r, d, core4)
		}
		n.x, n.y, n.z, n.distance = x, y, z, r
		n.legY, n.legZ = -strength*z, strength*y
	}
}

// between gives the velocities of a strip's horseshoes with their nodes as seen from the point. side is 1, or −1 for those
// of their mirror images, seen from the mirrored point.
func (v velocities) between(inner, outer []node, side float64) {
	vx, vy, vz, outer := v.x[:len(inner)], v.y[:len(inner)], v.z[:len(inner)], outer[:len(inner)]
	for i := range inner {
		a, b := &inner[i], &outer[i]
		x, y, z := 0.0, b.legY-a.legY, b.legZ-a.legZ
		product := a.distance * b.distance
		if below := product + a.x*b.x + a.y*b.y + a.z*b.z; below > 1e-10*product {
			k := (a.distance + b.distance) / (product * below * fourPi)
			x = k * (a.y*b.z - a.z*b.y)
			y += k * (a.z*b.x - a.x*b.z)
			z += k * (a.x*b.y - a.y*b.x)
		}
		vx[i], vy[i], vz[i] = x, side*y, z
	}
}
