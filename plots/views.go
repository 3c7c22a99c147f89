package plots

import (
	"cmp"
	"math"
	"slices"
	"strconv"

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
}

func (b board) paintFrame(c draw.Canvas) {
	heading, small := newPen(headSize, true, ink), newPen(smallSize, false, faintInk)
	put(c, heading, b.box.Min.X, b.box.Max.Y+17, left, b.name)
	put(c, small, b.box.Min.X, b.box.Max.Y+5, left, b.up)
	put(c, small, b.box.Min.X, b.box.Min.Y-25, left, b.across)
	across, up := niceAxis("", b.hSpan, max(2, int((b.box.Max.X-b.box.Min.X)/55))), niceAxis("", b.vSpan, max(1, int((b.box.Max.Y-b.box.Min.Y)/24)))
	line := draw.LineStyle{Color: rule, Width: 0.6}
	for _, t := range across.ticks {
		if t.Value < b.hSpan.low || t.Value > b.hSpan.high {
			continue
		}
		at := b.box.Min.X + vg.Length(b.unit*(t.Value-b.hSpan.low))
		c.StrokeLine2(line, at, b.box.Min.Y, at, b.box.Max.Y)
		value := t.Value
		if b.flip {
			value = -value
		}
		put(c, small, at, b.box.Min.Y-12, centre, number(value, across.decimals))
	}
	for _, t := range up.ticks {
		if t.Value < b.vSpan.low || t.Value > b.vSpan.high {
			continue
		}
		at := b.box.Min.Y + vg.Length(b.unit*(t.Value-b.vSpan.low))
		c.StrokeLine2(line, b.box.Min.X, at, b.box.Max.X, at)
		put(c, small, b.box.Min.X-5, at-3.5, right, number(t.Value, up.decimals))
	}
	c.StrokeLines(draw.LineStyle{Color: faintInk, Width: 0.6}, []vg.Point{
		b.box.Min, {X: b.box.Max.X, Y: b.box.Min.Y}, b.box.Max, {X: b.box.Min.X, Y: b.box.Max.Y}, b.box.Min})
}

// inside is what a surface shows within its outline: panels and hinges.
func (o Outline) inside() [][]Position {
	out := slices.Clone(o.Panels)
	for _, h := range o.Hinges {
		out = append(out, h.Line)
	}
	return out
}

// halves calls draw with what puts a surface on paper, and again for its mirror image.
func (b board) halves(s Outline, draw func(point func(Position) vg.Point)) {
	draw(b.at)
	if s.Mirrored {
		draw(func(p Position) vg.Point { return b.at(Position{p[0], -p[1], p[2]}) })
	}
}

// paintEdge draws the outline of a surface.
func (b board) paintEdge(c draw.Canvas, s Outline, line draw.LineStyle) {
	b.halves(s, func(point func(Position) vg.Point) { c.StrokeLines(line, closed(s.edge(), point)) })
}

// paintInside draws panels, stations and hinges of a surface.
func (b board) paintInside(c draw.Canvas, s Outline) {
	b.halves(s, func(point func(Position) vg.Point) {
		if lines := latticeLines(s.Panels); len(lines) > 0 {
			c.SetLineStyle(latticeMark().line)
			c.Stroke(pathOf(lines, point))
		}
		for _, cut := range s.Stations {
			le, te := point(cut.LeadingEdge), point(cut.TrailingEdge)
			c.StrokeLine2(draw.LineStyle{Color: faintInk, Width: 0.7}, le.X, le.Y, te.X, te.Y)
		}
		for _, h := range s.Hinges {
			c.SetLineStyle(hingeMark().line)
			c.Stroke(pathOf([][]Position{h.Line}, point))
		}
	})
}

// edge runs out along the leading edge and back along the trailing edge.
func (o Outline) edge() []Position {
	var out []Position
	for _, cut := range o.Stations {
		out = append(out, cut.LeadingEdge)
	}
	for i := len(o.Stations) - 1; i >= 0; i-- {
		out = append(out, o.Stations[i].TrailingEdge)
	}
	return out
}

// paintBody draws the fuselage for orientation: from the front only its largest section, as an ellipse.
func (b board) paintBody(c draw.Canvas, body []BodySection) {
	if len(body) == 0 {
		return
	}
	var outline []vg.Point
	switch {
	case b.flip:
		largest := slices.MaxFunc(body, func(p, q BodySection) int { return cmp.Compare(p.Width*p.Height, q.Width*q.Height) })
		for k := range 48 {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 48)
			outline = append(outline, b.at(Position{largest.X, largest.Width / 2 * cos, largest.Z + largest.Height/2*sin}))
		}
	default:
		for _, s := range body {
			outline = append(outline, b.at(Position{s.X, s.Width / 2, s.Z + s.Height/2}))
		}
		for _, s := range slices.Backward(body) {
			outline = append(outline, b.at(Position{s.X, -s.Width / 2, s.Z - s.Height/2}))
		}
	}
	c.FillPolygon(bodyFill, outline)
	c.StrokeLines(draw.LineStyle{Color: faintInk, Width: 0.5}, append(outline, outline[0]))
}

func closed(polygon []Position, point func(Position) vg.Point) []vg.Point {
	var out []vg.Point
	for _, p := range polygon {
		out = append(out, point(p))
	}
	if len(out) > 0 {
		out = append(out, out[0])
	}
	return out
}

// letter writes surface names on the left half and station names on the right half, where free.
func (d ThreeViewData) letter(c draw.Canvas, b board) {
	names, numbers := newPen(smallSize, true, ink), newPen(9, false, faintInk)
	for _, s := range d.Surfaces {
		sign := 1.0
		if s.Mirrored {
			sign = -1
		}
		b.nameSurface(c, names, s, sign)
	}
	for _, m := range d.Marks {
		at := b.at(Position{m.X, 0, m.Z})
		b.write(c, newPen(9, false, ink), vg.Point{X: at.X, Y: at.Y - 11}, m.Name)
	}
	for _, s := range d.Surfaces {
		for i, cut := range s.Stations {
			at := b.at(cut.LeadingEdge)
			b.write(c, numbers, vg.Point{X: at.X - 8, Y: at.Y}, or(cut.Name, strconv.Itoa(i+1)))
		}
	}
}

// nameSurface writes the name in the middle of a surface that has room for it, else beside it.
func (b board) nameSurface(c draw.Canvas, p pen, s Outline, sign float64) {
	x, y := emptySpan(), emptySpan()
	for _, cut := range s.Stations {
		for _, at := range []Position{cut.LeadingEdge, cut.TrailingEdge} {
			point := b.at(Position{at[0], sign * at[1], at[2]})
			x.add(float64(point.X))
			y.add(float64(point.Y))
		}
	}
	middle := vg.Point{X: vg.Length(x.low+x.high) / 2, Y: vg.Length(y.low+y.high) / 2}
	half := float64(p.width(shorten(p, s.Name, 90))) / 2
	if x.high-x.low < 2*half+8 || y.high-y.low < 16 {
		*b.taken = append(*b.taken, vg.Rectangle{Min: vg.Point{X: vg.Length(x.low), Y: vg.Length(y.low)}, Max: vg.Point{X: vg.Length(x.high), Y: vg.Length(y.high)}})
		middle.X = vg.Length(x.high + half + 6)
		if middle.X+vg.Length(half) > b.box.Max.X {
			middle.X = vg.Length(x.low - half - 6)
		}
	}
	b.write(c, p, middle, s.Name)
}

// write sets a word centred near a point, at the first of several places where nothing stands yet; where
// none is free the word is left out, and the list of sizes still names the surface.
func (b board) write(c draw.Canvas, p pen, at vg.Point, word string) {
	word = shorten(p, word, 90)
	size := p.style.Font.Size
	half := p.width(word) / 2
	for _, step := range []vg.Point{{}, {Y: -12}, {Y: 12}, {X: -half - 8}, {X: half + 8}, {X: half + 8, Y: 12}, {X: half + 8, Y: -12}, {Y: -24}, {Y: 24}, {X: -half - 8, Y: -12}, {X: -half - 8, Y: 12}} {
		x := min(max(at.X+step.X, b.box.Min.X+half+2), b.box.Max.X-half-2)
		y := min(max(at.Y+step.Y, b.box.Min.Y+size/2+2), b.box.Max.Y-size/2-2)
		r := vg.Rectangle{Min: vg.Point{X: x - half - 1, Y: y - size/2}, Max: vg.Point{X: x + half + 1, Y: y + size/2}}
		if !b.free(r) {
			continue
		}
		*b.taken = append(*b.taken, r)
		c.FillPolygon(halo, []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}})
		put(c, p, x, y-size*0.36, centre, word)
		return
	}
}

func (b board) free(r vg.Rectangle) bool {
	for _, t := range *b.taken {
		if r.Min.X < t.Max.X && t.Min.X < r.Max.X && r.Min.Y < t.Max.Y && t.Min.Y < r.Max.Y {
			return false
		}
	}
	return true
}
