package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// stretch is a horizontal interval in canvas coordinates; low and high tell whether the ends are bounds
// (caps) or go on (arrows).
type stretch struct {
	from, to, at vg.Length
	low, high    bool
	hasValue     bool
}

// lay puts an interval on a horizontal axis that reaches from min to max of the canvas.
func lay(i Interval, x func(float64) vg.Length, c draw.Canvas) stretch {
	s := stretch{from: c.Min.X, to: c.Max.X}
	if finite(i.Low) && x(i.Low) >= c.Min.X-0.01 {
		s.from, s.low = x(i.Low), true
	}
	if finite(i.High) && x(i.High) <= c.Max.X+0.01 {
		s.to, s.high = x(i.High), true
	}
	if i.determined() && x(i.Value) >= c.Min.X-0.01 && x(i.Value) <= c.Max.X+0.01 {
		s.at, s.hasValue = x(i.Value), true
	}
	return s
}

// drawInterval draws a horizontal interval at height y.
func drawInterval(c draw.Canvas, m mark, s stretch, y vg.Length) {
	line := m.line
	c.StrokeLine2(line, s.from, y, s.to, y)
	line.Dashes = nil
	end := func(x vg.Length, bound bool, outward vg.Length) {
		if bound {
			line.Width = 1.2
			c.StrokeLine2(line, x, y-3.6, x, y+3.6)
			return
		}
		c.FillPolygon(m.ink, []vg.Point{{X: x, Y: y}, {X: x - 6*outward, Y: y - 3.4}, {X: x - 6*outward, Y: y + 3.4}})
	}
	end(s.from, s.low, -1)
	end(s.to, s.high, 1)
	if s.hasValue {
		m.glyph.DrawGlyph(&c, draw.GlyphStyle{Color: m.ink, Radius: m.within(s.to-s.from, s.low && s.high)}, vg.Point{X: s.at, Y: y})
	}
}

// within is the radius of the glyph of an interval: smaller where it would cover the caps. An interval of no length has
// no caps to cover.
func (m mark) within(length vg.Length, bounded bool) vg.Length {
	if !bounded || length < 0.5 {
		return m.size
	}
	return min(m.size, max(1.8, length/2-1.6))
}

// drawUpright draws a vertical interval at x, cut to the canvas; an end that is cut gets no cap.
func drawUpright(c draw.Canvas, m mark, i Interval, x vg.Length, y func(float64) vg.Length) {
	line := m.line
	line.Dashes = nil
	line.Width = 1
	from, to := c.Min.Y, c.Max.Y
	if finite(i.Low) && y(i.Low) >= c.Min.Y {
		from = y(i.Low)
		c.StrokeLine2(line, x-2.5, from, x+2.5, from)
	}
	if finite(i.High) && y(i.High) <= c.Max.Y {
		to = y(i.High)
		c.StrokeLine2(line, x-2.5, to, x+2.5, to)
	}
	if to > from {
		c.StrokeLine2(line, x, from, x, to)
	}
	if i.determined() && c.ContainsY(y(i.Value)) {
		m.glyph.DrawGlyph(&c, draw.GlyphStyle{Color: m.ink, Radius: m.within(to-from, from > c.Min.Y && to < c.Max.Y)}, vg.Point{X: x, Y: y(i.Value)})
	}
}

// hatchedLine draws a limit from a to b with short strokes towards the side that is not allowed.
func hatchedLine(c draw.Canvas, a, b, forbidden vg.Point) {
	hatchedPath(c, []vg.Point{a, b}, forbidden)
}

// hatchedPath draws a limit along a path with strokes at even distances towards the side that is not allowed.
func hatchedPath(c draw.Canvas, path []vg.Point, forbidden vg.Point) {
	c.StrokeLines(draw.LineStyle{Color: limitInk, Width: 1.3}, path)
	next, total := vg.Length(3), pathLength(path)
	start := vg.Length(0)
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		length := distance(a, b)
		for ; length > 0 && next <= start+length && next < total-1; next += 6 {
			along := vg.Point{X: (b.X - a.X) / length, Y: (b.Y - a.Y) / length}
			d := next - start
			foot := vg.Point{X: a.X + d*along.X, Y: a.Y + d*along.Y}
			tip := vg.Point{X: foot.X + 4*forbidden.X - 3*along.X, Y: foot.Y + 4*forbidden.Y - 3*along.Y}
			c.StrokeLine2(draw.LineStyle{Color: limitInk, Width: 0.8}, foot.X, foot.Y, tip.X, tip.Y)
		}
		start += length
	}
}

func distance(a, b vg.Point) vg.Length {
	return vg.Length(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)))
}

func pathLength(path []vg.Point) vg.Length {
	total := vg.Length(0)
	for i := 1; i < len(path); i++ {
		total += distance(path[i-1], path[i])
	}
	return total
}

// ring draws an open circle that points something out.
func ring(c draw.Canvas, ink color.Color, at vg.Point, radius vg.Length) {
	var path vg.Path
	path.Move(vg.Point{X: at.X + radius, Y: at.Y})
	path.Arc(at, radius, 0, 2*math.Pi)
	path.Close()
	c.SetLineStyle(draw.LineStyle{Color: ink, Width: 1.6})
	c.Stroke(path)
}
