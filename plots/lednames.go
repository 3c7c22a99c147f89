package plots

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// ledName is the name of a place that stands in a crowd: it is written aside, and a thin line leads there.
type ledName struct {
	words string
	x, y  Interval
	bold  bool
}

// ledNames are the names of a frame, in one column: to the right of all places where there is room, else below them.
type ledNames []ledName

const ledLine vg.Length = 13

// Plot writes the column and the lines that lead to the places.
func (l ledNames) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	at := map[int]vg.Point{}
	var inside []int
	room := 0.9 * (c.Max.X - c.Min.X)
	widest, rightmost, lowest := vg.Length(0), c.Min.X, c.Max.Y
	for i, n := range l {
		at[i] = vg.Point{X: tx(n.x.Value), Y: ty(n.y.Value)}
		if !c.Contains(at[i]) {
			continue
		}
		inside = append(inside, i)
		pen := newPen(smallSize, n.bold, ink)
		widest = max(widest, pen.width(shorten(pen, n.words, room)))
		rightmost, lowest = max(rightmost, end(tx, n.x.High, at[i].X, c.Max.X)), min(lowest, end(ty, n.y.Low, at[i].Y, c.Min.Y))
	}
	x := rightmost + 16
	beside := x+widest <= c.Max.X
	if !beside {
		x = c.Max.X - widest - 3
	}
	slices.SortStableFunc(inside, func(a, b int) int {
		if beside { // the highest place on top
			return cmp.Or(cmp.Compare(at[b].Y, at[a].Y), cmp.Compare(at[b].X, at[a].X))
		}
		return cmp.Or(cmp.Compare(at[b].X, at[a].X), cmp.Compare(at[b].Y, at[a].Y)) // the one furthest to the right, so that no lines cross
	})
	for k, y := range l.heights(inside, at, beside, lowest, c) {
		n := l[inside[k]]
		c.StrokeLine2(draw.LineStyle{Color: faintInk, Width: 0.6}, at[inside[k]].X, at[inside[k]].Y, x-3, y)
		pen := newPen(smallSize, n.bold, ink)
		putHaloed(c, pen, x, y-3.5, shorten(pen, n.words, room))
	}
}

// heights are those of the names, downwards: beside their places, or from below the lowest end on; never closer than a line.
func (l ledNames) heights(order []int, at map[int]vg.Point, beside bool, lowest vg.Length, c draw.Canvas) []vg.Length {
	out := make([]vg.Length, len(order))
	next := c.Max.Y - 8
	if !beside {
		next = lowest - 16
	}
	if beside && len(order) > 0 { // the column stands about the middle of its places
		middle := vg.Length(0)
		for _, i := range order {
			middle += at[i].Y / vg.Length(len(order))
		}
		next = min(next, max(middle+ledLine*vg.Length(len(order)-1)/2, at[order[0]].Y))
	}
	next = max(next, c.Min.Y+8+ledLine*vg.Length(len(order)-1))
	for k, i := range order {
		if beside {
			below := ledLine * vg.Length(len(order)-1-k)
			next = max(min(next, at[i].Y), min(next, c.Min.Y+8+below))
			out[k] = next
			next -= ledLine
			continue
		}
		out[k] = next
		next -= ledLine
	}
	return out
}

// end is where an interval ends on the canvas: at its bound, or at the edge.
func end(t func(float64) vg.Length, bound float64, from, edge vg.Length) vg.Length {
	if !finite(bound) {
		return edge
	}
	to := t(bound)
	if (edge >= from) == (to > edge) {
		return edge
	}
	return to
}
