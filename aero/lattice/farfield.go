package lattice

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r3"
)

// farField returns induced drag over ½ρV² as a quadratic form in the basis states and lift over ½ρV²
// as a linear one, both from the trace of the wake far behind.
//
// D = −½ρ ∫ Γ v_n ds over the whole trace, with v_n the normal velocity that the wake's own vortex sheet induces there
// (M. M. Munk, The Minimum Induced Drag of Aerofoils, NACA Report 121, 1923).
func (m *model) farField(cumulated [][]float64) (drag [][]float64, lift []float64) {
	g, states := m.grid, len(cumulated)
	strips := len(g.strips)
	gamma := make([][]float64, states) // by state and strip
	last := len(g.chord.vortex) - 1
	lift = make([]float64, states)
	for i := range gamma {
		gamma[i] = make([]float64, strips)
		for k := range g.strips {
			st := &g.strips[k]
			gamma[i][k] = cumulated[i][st.first+last]
			if !m.controls.antisymmetric(i) {
				lift[i] += 2 * st.copies * gamma[i][k] * st.traceSide.Z * st.traceWidth()
			}
		}
	}
	normal := make([][]float64, states) // velocity along the normal, by state and strip
	for i := range normal {
		normal[i] = make([]float64, strips)
	}
	for r := range m.grid.parts {
		for c := range m.grid.parts {
			m.addTrace(normal, gamma, r, c)
		}
	}
	drag = make([][]float64, states)
	for i := range drag {
		drag[i] = make([]float64, states)
		for j := range drag[i] {
			if m.controls.antisymmetric(i) != m.controls.antisymmetric(j) {
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

// trace is traceWash between all strips of two parts: own and image by row, a strip of the first part each.
type trace struct{ own, image [][]float64 }

func (g *grid) traceOf(r, c part) *trace {
	t := &trace{make([][]float64, r.last-r.first), make([][]float64, r.last-r.first)}
	forRows(r.last-r.first, func(k int) {
		own, image := make([]float64, c.last-c.first), make([]float64, c.last-c.first)
		for j := range own {
			own[j], image[j] = g.traceWash(r.first+k, c.first+j)
		}
		t.own[k], t.image[k] = own, image
	})
	return t
}

// addTrace adds what the circulation gamma (by state and strip) on part c does at the trace of part r.
func (m *model) addTrace(normal, gamma [][]float64, r, c int) {
	parts := m.grid.parts
	one, other := parts[r], parts[c]
	t := m.trace(r, c)
	for i := range normal {
		sign := 1.0
		if m.controls.antisymmetric(i) {
			sign = -1
		}
		from := gamma[i][other.first:other.last]
		for k := range t.own {
			normal[i][one.first+k] += floats.Dot(t.own[k], from) + sign*floats.Dot(t.image[k], from)
		}
	}
}

// trace is that between two parts, worked out once.
func (m *model) trace(r, c int) *trace {
	one, other := m.grid.parts[r], m.grid.parts[c]
	return m.poolOf(one, other).traces.get(string(one.key[:])+string(other.key[:]), func() *trace { return m.grid.traceOf(one, other) })
}

// allTraces are the traces between all parts.
func (m *model) allTraces() [][]*trace {
	out := make([][]*trace, len(m.grid.parts))
	for r := range out {
		for c := range m.grid.parts {
			out[r] = append(out[r], m.trace(r, c))
		}
	}
	return out
}

// traceWash is that of the grid, as kept.
func (s *Solution) traceWash(k, m int) (own, image float64) {
	at, from := s.grid.strips[k].part, s.grid.strips[m].part
	t := s.traces[at][from]
	row, column := k-s.grid.parts[at].first, m-s.grid.parts[from].first
	return t.own[row][column], t.image[row][column]
}

// poolOf is where a value belongs that depends on two parts.
func (m *model) poolOf(one, other part) *pool {
	if m.family.uses(m.blocks[m.blockOf(one)].key, m.blocks[m.blockOf(other)].key) {
		return &m.family.pool
	}
	return &m.own
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
		depth := g.field.depth * g.field.tall
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
