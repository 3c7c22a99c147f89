package lattice

import (
	"gonum.org/v1/gonum/blas/blas64"
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
	for column, v := range see.velocity {
		a, b := r3.Dot(v.own, normal), r3.Dot(v.image, normal)
		even[column], odd[column] = a+b, a-b
		if turned >= 0 {
			out.along.Data[turned*out.along.Stride+start+column] = v.own.X + v.image.X
		}
	}
	if silent {
		clear(even[:len(see.velocity)])
	}
	if control.central && p.first == q.first {
		even[k] = 1
	}
}

// sight is the working space of inflow.
type sight struct {
	velocity     []pair
	inner, outer [4][]node // by view and chordwise place: nodes at the edges of a strip
	spare        washes    // storage for velocities that nobody keeps
}

// pair is what a panel and its mirror image of equal strength do.
type pair struct{ own, image r3.Vec }

func (g *grid) newSight() *sight {
	s := &sight{velocity: make([]pair, 0, len(g.panels))}
	for i := range s.inner {
		s.inner[i], s.outer[i] = make([]node, len(g.chord.vortex)), make([]node, len(g.chord.vortex))
	}
	return s
}

// inflow looks from a receiver at every panel of a part; see.velocity then holds what each does there.
func (g *grid) inflow(see *sight, c part, at *receiver, close bool) {
	n := len(g.chord.vortex)
	bends := g.field.bends(close)
	views, count := g.field.views(at.at)
	see.velocity = see.velocity[:g.panelCount(c)]
	column := 0
	for i := c.first; i < c.last; i++ {
		s := &g.strips[i]
		cores := s.cores(s.group != at.group)
		panels := g.panels[s.first : s.first+n]
		for v := range count {
			p := &views[v]
			if i > c.first && s.chain == g.strips[i-1].chain {
				see.inner[v], see.outer[v] = see.outer[v], see.inner[v]
			} else {
				for k := range panels {
					see.inner[v][k].look(p.X, p.Y, p.Z, panels[k].from, cores[0])
				}
			}
			for k := range panels {
				see.outer[v][k].look(p.X, p.Y, p.Z, panels[k].to, cores[1])
			}
		}
		var wake pair
		if bends {
			wake.own, wake.image = g.field.wake(s, at, close)
		}
		to := see.velocity[column : column+n]
		column += n
		if count == 2 && !bends && g.field.stretch == 1 && s.copies == 2 {
			see.plain(to)
			continue
		}
		for k := range panels {
			var v [4]r3.Vec
			for i := range count {
				v[i] = between(&see.inner[i][k], &see.outer[i][k])
			}
			own, image := g.field.gather(&v, count, s.copies == 1)
			if bends {
				own, image = r3.Add(own, wake.own), r3.Add(image, wake.image)
			}
			to[k] = pair{own, image}
		}
	}
}

// plain is the usual case, without detours: free incompressible air and wakes along the body.
func (s *sight) plain(to []pair) {
	inner, outer := s.inner[0][:len(to)], s.outer[0][:len(to)]
	innerLeft, outerLeft := s.inner[1][:len(to)], s.outer[1][:len(to)]
	for k := range to {
		image := between(&innerLeft[k], &outerLeft[k])
		image.Y = -image.Y
		to[k] = pair{between(&inner[k], &outer[k]), image}
	}
}

// widthAt is the inboard and the outboard end of a strip's width, dx behind the leading edge at its control station.
func (g *grid) widthAt(s *strip, dx float64) (low, high r3.Vec) {
	f := dx / s.chord
	return aft(s.a, f*s.chordA), aft(s.b, f*s.chordB)
}
