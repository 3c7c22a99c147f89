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
				lift[i] += 2 * st.copies * gamma[i][k] * st.traceSide.Z * st.traceWidth()
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
				drag[i][j] -= st.copies * st.traceWidth() / 2 * (gamma[i][k]*normal[j][k] + gamma[j][k]*normal[i][k])
			}
		}
	}
	return drag, lift
}

// traceWash is the normal velocity far behind strip k from the trace of strip m, per unit circulation, and from its mirror
// image of equal strength, with the ground's images where there is ground.
//
// Traces of one group have their legs in the same places, and the strip middles stay between them. Those of another
// group may cross anywhere; where they pass close the sheet itself acts, averaged over the strip that feels it.
func (g *grid) traceWash(k, m int) (own, image float64) {
	at, from := &g.strips[k], &g.strips[m]
	wash := func(through func(r3.Vec) r3.Vec) r3.Vec {
		if !g.traces[at.part][from.part] {
			p := through(at.traceMid)
			return r3.Sub(lineVortex(p, from.sheetEdge[1]), lineVortex(p, from.sheetEdge[0]))
		}
		var v r3.Vec
		for i, t := range averagePoints {
			p := through(r3.Add(r3.Scale(1-t, at.sheetEdge[0]), r3.Scale(t, at.sheetEdge[1])))
			p.X = farBehind
			v = r3.Add(v, r3.Scale(averageWeights[i], from.sheetVelocity(p)))
		}
		return v
	}
	side := at.traceSide
	own = r3.Dot(wash(func(p r3.Vec) r3.Vec { return p }), side)
	if from.copies == 2 {
		image = r3.Dot(mirrored(wash(leftOf)), side)
	}
	if g.field.grounded() {
		depth := g.field.depth
		deep := func(p r3.Vec) r3.Vec { p.Z = 2*depth - p.Z; return p }
		flip := func(v r3.Vec) r3.Vec { v.Z = -v.Z; return v }
		own += r3.Dot(flip(wash(deep)), side)
		if from.copies == 2 {
			image += r3.Dot(flip(mirrored(wash(func(p r3.Vec) r3.Vec { return leftOf(deep(p)) }))), side)
		}
	}
	return own, image
}

// farBehind is a distance, m, at which a wake's beginning is no longer felt.
const farBehind = 1e9

// traceWidth is the width of the strip's trace, m.
func (s *strip) traceWidth() float64 {
	return math.Hypot(s.sheetEdge[1].Y-s.sheetEdge[0].Y, s.sheetEdge[1].Z-s.sheetEdge[0].Z)
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
