package plots

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func (b board) paintFrame(c draw.Canvas) {
	heading, small := newPen(headSize, true, ink), newPen(smallSize, false, faintInk)
	put(c, heading, b.box.Min.X, b.box.Max.Y+17, left, b.name)
	put(c, small, b.box.Min.X, b.box.Max.Y+5, left, b.up)
	put(c, small, b.box.Min.X, b.box.Min.Y-25, left, b.across)
	across, up := niceAxis("", b.hSpan, max(2, int((b.box.Max.X-b.box.Min.X)/50))), niceAxis("", b.vSpan, max(1, int((b.box.Max.Y-b.box.Min.Y)/24)))
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
