package lattice

import (
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r3"
)

// influence is what the panels of one block do at the control points of another, per unit circulation and with a mirror
// image of equal (0) or opposite (1) strength: rows are control points, columns panels.
type influence struct {
	normal [2]blas64.General // velocity along the normal
	along  blas64.General    // velocity along x in symmetric flow, at the rows that controls turn
	hinged []int             // those rows
}

// influenceOf fills the influence of block c on block r.
func (g *grid) influenceOf(r, c *block) *influence {
	out := &influence{}
	rowOf := make(map[int]int)
	for i, p := range r.parts {
		for k := range g.panelCount(p) {
			if len(g.strips[g.panels[g.firstPanel(p)+k].strip].hinges) > 0 {
				rowOf[r.starts[i]+k] = len(out.hinged)
				out.hinged = append(out.hinged, r.starts[i]+k)
			}
		}
	}
	for side := range 2 {
		out.normal[side] = newGeneral(r.panels, c.panels)
	}
	out.along = newGeneral(len(out.hinged), c.panels)
	for i, p := range r.parts {
		forEach(g.panelCount(p), g.newSight, func(see *sight, k int) {
			row := r.starts[i] + k
			turned, ok := rowOf[row]
			if !ok {
				turned = -1
			}
			for j, q := range c.parts {
				g.fillRow(out, see, p, q, k, row, turned, c.starts[j])
			}
		})
	}
	return out
}

// fillRow fills the row of control point k of part p with the panels of part q.
//
// A single surface on the plane of symmetry carries nothing in symmetric flow: its equations read "no circulation" there.
func (g *grid) fillRow(out *influence, see *sight, p, q part, k, row, turned, start int) {
	at := g.firstPanel(p) + k
	control := &g.panels[at]
	s := &g.strips[control.strip]
	normal := normalAt(s.normal, control.turn)
	low, high := g.widthAt(s, control.control.X-s.at.X)
	point := receiver{at: control.control, low: low, high: high, group: control.group}
	even := out.normal[0].Data[row*out.normal[0].Stride+start:]
	odd := out.normal[1].Data[row*out.normal[1].Stride+start:]
	silent := control.central || g.strips[q.first].copies == 1
	g.inflow(see, q, &point, g.close(p, q))
	own, image := see.own, see.image
	even, odd = even[:len(own.x)], odd[:len(own.x)]
	for column := range even {
		a := own.x[column]*normal.X + own.y[column]*normal.Y + own.z[column]*normal.Z
		b := image.x[column]*normal.X + image.y[column]*normal.Y + image.z[column]*normal.Z
		even[column], odd[column] = a+b, a-b
	}
	if turned >= 0 {
		floats.AddTo(out.along.Data[turned*out.along.Stride+start:][:len(own.x)], own.x, image.x)
	}
	if silent {
		clear(even)
	}
	if control.central && p.first == q.first {
		even[k] = 1
	}
}

// sight is the working space of inflow.
type sight struct {
	own, image   velocities // of the panels of a part, and of their mirror images of equal strength
	deep         velocities // of one strip in the ground
	inner, outer [4][]node  // by view and chordwise place: nodes at the edges of a strip
	spare        washes     // storage for velocities that nobody keeps
}

// velocities are those of a row of panels at one point.
type velocities struct{ x, y, z []float64 }

func newVelocities(n int) velocities {
	return velocities{make([]float64, n), make([]float64, n), make([]float64, n)}
}

func (v velocities) slice(from, to int) velocities {
	return velocities{v.x[from:to], v.y[from:to], v.z[from:to]}
}

func (v velocities) at(k int) r3.Vec { return r3.Vec{X: v.x[k], Y: v.y[k], Z: v.z[k]} }

// add adds the same velocity to all.
func (v velocities) add(u r3.Vec) {
	floats.AddConst(u.X, v.x)
	floats.AddConst(u.Y, v.y)
	floats.AddConst(u.Z, v.z)
}

func (g *grid) newSight() *sight {
	n := len(g.chord.vortex)
	s := &sight{own: newVelocities(len(g.panels)), image: newVelocities(len(g.panels)), deep: newVelocities(n)}
	for i := range s.inner {
		s.inner[i], s.outer[i] = make([]node, n), make([]node, n)
	}
	return s
}

// inflow looks from a receiver at every panel of a part; see.own and see.image then hold what each does there.
func (g *grid) inflow(see *sight, c part, at *receiver, close bool) {
	n := len(g.chord.vortex)
	bends := g.field.bends(close)
	views, count := g.field.views(at.at)
	see.own, see.image = see.own.slice(0, g.panelCount(c)), see.image.slice(0, g.panelCount(c))
	column := 0
	for i := c.first; i < c.last; i++ {
		s := &g.strips[i]
		cores := s.cores(s.group != at.group)
		for v := range count {
			if i > c.first && s.chain == g.strips[i-1].chain {
				see.inner[v], see.outer[v] = see.outer[v], see.inner[v]
			} else {
				look(see.inner[v], views[v], s.from, cores[0])
			}
			look(see.outer[v], views[v], s.to, cores[1])
		}
		own, image := see.own.slice(column, column+n), see.image.slice(column, column+n)
		column += n
		g.field.gather(see, own, image, count == 4, s.copies == 1)
		if bends {
			u, v := g.field.wake(s, at, close)
			own.add(u)
			image.add(v)
		}
	}
}

// widthAt is the inboard and the outboard end of a strip's width, dx behind the leading edge at its control station.
func (g *grid) widthAt(s *strip, dx float64) (low, high r3.Vec) {
	f := dx / s.chord
	return aft(s.a, f*s.chordA), aft(s.b, f*s.chordB)
}
