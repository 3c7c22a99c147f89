package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// farField returns induced drag over ½ρV² as a quadratic form in the basis states and lift over ½ρV²
// as a linear one, both from the trace of the wake far behind.
//
// D = −½ρ ∫ Γ v_n ds over the whole trace, with v_n the normal velocity that the wake's own vortex sheet induces there
// (M. M. Munk, The Minimum Induced Drag of Aerofoils, NACA Report 121, 1923).
func (s *Solution) farField() (drag [][]float64, lift []float64) {
	g, states := s.grid, len(s.circulation)
	strips := len(g.strips)
	gamma := make([][]float64, states) // by state and strip
	last := len(g.chord.vortex) - 1
	lift = make([]float64, states)
	for i := range gamma {
		gamma[i] = make([]float64, strips)
		for k := range g.strips {
			st := &g.strips[k]
			gamma[i][k] = s.cumulated[i][st.first+last]
			if !s.controls.antisymmetric(i) {
				lift[i] += 2 * st.copies * gamma[i][k] * st.normal.Z * st.width
			}
		}
	}
	normal := make([][]float64, states) // velocity along the normal, by state and strip
	for i := range normal {
		normal[i] = make([]float64, strips)
	}
	for k := range g.strips {
		for m := range g.strips {
			own, image := g.traceWash(k, m)
			for i := range normal {
				sign := 1.0
				if s.controls.antisymmetric(i) {
					sign = -1
				}
				normal[i][k] += gamma[i][m] * (own + sign*image)
			}
		}
	}
	drag = make([][]float64, states)
	for i := range drag {
		drag[i] = make([]float64, states)
		for j := range drag[i] {
			if s.controls.antisymmetric(i) != s.controls.antisymmetric(j) {
				continue
			}
			for k := range g.strips {
				st := &g.strips[k]
				drag[i][j] -= st.copies * st.width / 2 * (gamma[i][k]*normal[j][k] + gamma[j][k]*normal[i][k])
			}
		}
	}
	return drag, lift
}

// traceWash is the normal velocity far behind strip k from the two legs of strip m, per unit
// circulation, and from their mirror image of equal strength. No core is needed: where traces pass close their
// edges are lined up, and strip middles stay between them.
func (g *grid) traceWash(k, m int) (own, image float64) {
	at, from := &g.strips[k], &g.strips[m]
	wash := func(p r3.Vec) r3.Vec { return r3.Sub(lineVortex(p, from.b), lineVortex(p, from.a)) }
	own = r3.Dot(wash(at.at), at.normal)
	if from.copies == 2 {
		v := wash(r3.Vec{Y: -at.at.Y, Z: at.at.Z})
		image = v.Z*at.normal.Z - v.Y*at.normal.Y
	}
	return own, image
}

// lineVortex is the velocity at p from a vortex of unit circulation along +x through q; none on itself.
func lineVortex(p, q r3.Vec) r3.Vec {
	y, z := p.Y-q.Y, p.Z-q.Z
	d := 2 * math.Pi * (y*y + z*z)
	if d == 0 {
		return r3.Vec{}
	}
	return r3.Vec{Y: -z / d, Z: y / d}
}
