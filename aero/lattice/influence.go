package lattice

import (
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/spatial/r3"
)

// influence is what the panels of one block do at the control points of another, per unit circulation and with a mirror
// image of equal (0) or opposite (1) strength: rows are control points, columns panels.
type influence struct {
	normal [2]blas64.General // velocity along the normal
	along  [2]blas64.General // velocity along x, at the rows that controls turn
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
		out.along[side] = newGeneral(len(out.hinged), c.panels)
	}
	for i, p := range r.parts {
		forRows(g.panelCount(p), func(k int) {
			row := r.starts[i] + k
			turned, ok := rowOf[row]
			if !ok {
				turned = -1
			}
			for j, q := range c.parts {
				g.fillRow(out, p, q, k, row, turned, c.starts[j])
			}
		})
	}
	return out
}

// fillRow fills the row of control point k of part p with the panels of part q.
//
// A single surface on the plane of symmetry carries nothing in symmetric flow: its equations read "no circulation" there.
func (g *grid) fillRow(out *influence, p, q part, k, row, turned, start int) {
	at := g.firstPanel(p) + k
	control := &g.panels[at]
	s := &g.strips[control.strip]
	normal := normalAt(s.normal, control.turn)
	low, high := g.widthAt(s, control.control.X-s.at.X)
	point := receiver{at: control.control, low: low, high: high, group: control.group}
	even := out.normal[0].Data[row*out.normal[0].Stride+start:]
	odd := out.normal[1].Data[row*out.normal[1].Stride+start:]
	silent := control.central || g.strips[q.first].copies == 1
	g.inflow(q, &point, g.close(p, q), func(column int, own, image r3.Vec) {
		a, b := r3.Dot(own, normal), r3.Dot(image, normal)
		even[column], odd[column] = a+b, a-b
		if silent {
			even[column] = 0
		}
		if turned >= 0 {
			out.along[0].Data[turned*out.along[0].Stride+start+column] = own.X + image.X
			out.along[1].Data[turned*out.along[1].Stride+start+column] = own.X - image.X
		}
	})
	if control.central && p.first == q.first {
		even[k] = 1
	}
}

// inflow visits the velocity at a receiver of every panel of a part and of its mirror image.
func (g *grid) inflow(c part, at *receiver, close bool, visit func(column int, own, image r3.Vec)) {
	n := len(g.chord.vortex)
	bends := g.field.bends(close)
	column := 0
	for i := c.first; i < c.last; i++ {
		s := &g.strips[i]
		core := 0.0
		if s.group != at.group {
			core = s.core
		}
		var ownWake, imageWake r3.Vec
		if bends {
			ownWake, imageWake = g.field.wake(s, at, close)
		}
		for k := s.first; k < s.first+n; k++ {
			own, image := g.field.panel(&g.panels[k], at.at, core)
			if bends {
				own, image = r3.Add(own, ownWake), r3.Add(image, imageWake)
			}
			visit(column, own, image)
			column++
		}
	}
}

// widthAt is the inboard and the outboard end of a strip's width, dx behind the leading edge at its control station.
func (g *grid) widthAt(s *strip, dx float64) (low, high r3.Vec) {
	f := dx / s.chord
	return aft(s.a, f*s.chordA), aft(s.b, f*s.chordB)
}
