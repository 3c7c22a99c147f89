package plots

import (
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// view is one projection: h and v pick the horizontal and vertical coordinate of a position.
type view struct {
	name         string
	across, up   string // axis labels
	h, v         func(Position) float64
	hSpan, vSpan span
	flip         bool // the horizontal coordinate runs to the left: ticks show its negative
	stations     bool // station numbers and surface names belong here
	markAt       bool // marks on the plane of symmetry show here
}

// Room around the box of a view.
const (
	viewLeft   vg.Length = 34
	viewTop    vg.Length = 30
	viewBottom vg.Length = 32
)

// views lays out the three projections with common spans.
func (d ThreeViewData) views() (top, side, front view) {
	x, y, z := emptySpan(), emptySpan(), emptySpan()
	add := func(at Position, mirrored bool) {
		x.add(at[0])
		y.add(at[1])
		z.add(at[2])
		if mirrored {
			y.add(-at[1])
		}
	}
	for _, s := range slices.Concat(d.Surfaces, d.Other) {
		for _, cut := range s.Stations {
			add(cut.LeadingEdge, s.Mirrored)
			add(cut.TrailingEdge, s.Mirrored)
		}
		for _, line := range s.inside() {
			for _, at := range line {
				add(at, s.Mirrored)
			}
		}
	}
	for _, b := range d.Body {
		add(Position{b.X, b.Width / 2, b.Z - b.Height/2}, true)
		add(Position{b.X, b.Width / 2, b.Z + b.Height/2}, true)
	}
	for _, w := range d.Wheels {
		add(Position{w.At[0] - w.Radius, w.At[1], w.At[2] - w.Radius}, false)
		add(Position{w.At[0] + w.Radius, w.At[1], w.At[2] + w.Radius}, false)
	}
	for _, m := range d.Marks {
		add(Position{m.X, 0, m.Z}, false)
	}
	pad := 0.04 * max(x.length(), y.length(), z.length())
	for _, s := range []*span{&x, &y, &z} {
		s.low, s.high = s.low-pad, s.high+pad
	}
	aft := func(p Position) float64 { return p[0] }
	starboard := func(p Position) float64 { return p[1] }
	up := func(p Position) float64 { return p[2] }
	top = view{name: "Top view", across: "x aft of datum, m", up: "y to the right, m", h: aft, v: starboard, hSpan: x, vSpan: y, stations: true, markAt: true}
	side = view{name: "Side view from the left", across: "x aft of datum, m", up: "z above datum, m", h: aft, v: up, hSpan: x, vSpan: z, markAt: true}
	front = view{name: "Front view", across: "y to the right (seen from ahead), m", up: "z above datum, m",
		h: func(p Position) float64 { return -p[1] }, v: up, hSpan: span{-y.high, -y.low}, vSpan: z, flip: true}
	return top, side, front
}

// place arranges the views: side by side where the width allows, stacked on a phone.
func (d ThreeViewData) place(width vg.Length, sizes []size) (vg.Length, func(c draw.Canvas, y vg.Length)) {
	top, side, front := d.views()
	if width <= narrowWidth {
		return d.stacked(width, sizes, top, side, front)
	}
	room := width - 2*edge - 2*viewLeft - gap
	unit := float64(room) / (top.hSpan.length() + front.hSpan.length())
	right := edge + viewLeft + vg.Length(unit*top.hSpan.length()) + gap
	list, paintList := listSizes(sizes, width-edge-right-viewLeft)
	upper := max(top.height(unit), list+12)
	return upper + side.height(unit) + edge, func(c draw.Canvas, y vg.Length) {
		d.paintView(c, top, unit, edge, y)
		paintList(c, right+viewLeft, y-6)
		d.paintView(c, side, unit, edge, y-upper)
		d.paintView(c, front, unit, right, y-upper)
	}
}

func (d ThreeViewData) stacked(width vg.Length, sizes []size, views ...view) (vg.Length, func(c draw.Canvas, y vg.Length)) {
	room := float64(width - 2*edge - viewLeft)
	unit := room / max(views[0].hSpan.length(), views[2].hSpan.length())
	height, paintList := listSizes(sizes, width-2*edge)
	height += edge
	for _, v := range views {
		height += v.height(unit)
	}
	return height, func(c draw.Canvas, y vg.Length) {
		for _, v := range views {
			d.paintView(c, v, unit, edge, y)
			y -= v.height(unit)
		}
		paintList(c, edge, y)
	}
}

// listSizes sets the sizes as a list: a name in bold, its numbers below.
func listSizes(sizes []size, room vg.Length) (vg.Length, func(c draw.Canvas, x, y vg.Length)) {
	bold, plain := newPen(smallSize, true, ink), newPen(smallSize, false, ink)
	warn := newPen(smallSize, true, limitInk)
	height := vg.Length(0)
	texts := make([][]string, len(sizes))
	for i, s := range sizes {
		texts[i] = wrap(plain, s.text, room)
		height += bold.line() + vg.Length(len(texts[i]))*plain.line() + 3
	}
	return height, func(c draw.Canvas, x, y vg.Length) {
		for i, s := range sizes {
			name := bold
			if s.odd {
				name = warn
			}
			y = putLines(c, name, x, y, []string{shorten(name, s.name, room)})
			y = putLines(c, plain, x, y, texts[i]) - 3
		}
	}
}

func (v view) height(unit float64) vg.Length {
	return viewTop + vg.Length(unit*v.vSpan.length()) + viewBottom + 8
}

// board is a view on paper: it maps positions to points and remembers where words stand.
type board struct {
	view
	unit  float64
	box   vg.Rectangle
	taken *[]vg.Rectangle
	edges [][]vg.Point // outlines of the surfaces, which words should not cover
}

func (b board) at(p Position) vg.Point {
	return vg.Point{
		X: b.box.Min.X + vg.Length(b.unit*(b.h(p)-b.hSpan.low)),
		Y: b.box.Min.Y + vg.Length(b.unit*(b.v(p)-b.vSpan.low)),
	}
}

func (d ThreeViewData) paintView(c draw.Canvas, v view, unit float64, x, y vg.Length) {
	b := board{view: v, unit: unit, taken: &[]vg.Rectangle{}}
	b.box.Min = vg.Point{X: x + viewLeft, Y: y - viewTop - vg.Length(unit*v.vSpan.length())}
	b.box.Max = vg.Point{X: b.box.Min.X + vg.Length(unit*v.hSpan.length()), Y: y - viewTop}
	for _, s := range slices.Concat(d.Surfaces, d.Other) {
		b.halves(s, func(point func(Position) vg.Point) { b.edges = append(b.edges, closed(s.edge(), point)) })
	}
	b.paintFrame(c)
	b.paintBody(c, d.Body)
	for _, s := range slices.Concat(slices.DeleteFunc(slices.Clone(d.Surfaces), d.changed), d.Other) {
		b.paintInside(c, s)
	}
	for _, s := range d.Surfaces {
		if d.changed(s) {
			b.paintEdge(c, s, baselineMark().line)
		} else {
			b.paintEdge(c, s, outlineMark().line)
		}
	}
	for _, s := range d.Other {
		b.paintEdge(c, s, changedMark().line)
	}
	for _, w := range d.Wheels {
		at := b.at(w.At)
		circle(c, at.X, at.Y, max(2.5, vg.Length(w.Radius*unit)), 1.2)
	}
	if v.markAt {
		for _, m := range d.Marks {
			at := b.at(Position{m.X, 0, m.Z})
			m.Kind.draw(c, at.X, at.Y)
			*b.taken = append(*b.taken, vg.Rectangle{Min: vg.Point{X: at.X - 5, Y: at.Y - 5}, Max: vg.Point{X: at.X + 5, Y: at.Y + 5}})
		}
	}
	for _, o := range d.oddities() {
		ring(c, limitInk, b.at(o.at), 7)
		if o.mirrored {
			ring(c, limitInk, b.at(Position{o.at[0], -o.at[1], o.at[2]}), 7)
		}
	}
	if v.stations {
		d.letter(c, b)
	}
	d.speak(c, b)
}
