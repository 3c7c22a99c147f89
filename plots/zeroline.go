package plots

import (
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// zeroLine is the line of no difference in a forest, with words for both sides.
type zeroLine struct {
	less, more string
	bars       bool // draw a bar from the line to each value
	say        func(Row, Interval) string
}

const zeroStrip vg.Length = 16 // height of the words above the rows

// room gives both sides of the line some width.
func (z zeroLine) room(s span) span {
	if s.high == s.low {
		s.add(-1, 1)
	}
	s.add(-0.12*s.length(), 0.12*s.length())
	return s
}

// paintZero draws the line and the words for its sides above the rows.
func (f forest) paintZero(c draw.Canvas, x vg.Length) {
	c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1.2}, x, c.Min.Y, x, c.Max.Y)
	words := newPen(smallSize, true, ink)
	from, to := c.Min.X-f.gutter, c.Max.X+f.numbers
	side := func(long string, room vg.Length, arrow func(string) string) string {
		if words.width(arrow(clean(long))) > room {
			long, _, _ = strings.Cut(clean(long), " ")
		}
		return shorten(words, arrow(long), room)
	}
	less := side(f.zero.less, x-5-from, func(s string) string { return "← " + s })
	more := side(f.zero.more, to-x-5, func(s string) string { return s + " →" })
	put(c, words, x-5, c.Max.Y-zeroStrip+5, right, less)
	put(c, words, x+5, c.Max.Y-zeroStrip+5, left, more)
}

// paintBar draws a bar from the zero line to a value; on the side of less it is darker and has an outline.
func (f forest) paintBar(c draw.Canvas, m mark, zero, at, y vg.Length) {
	const half = markLine/2 - 1.5
	at = min(max(at, c.Min.X), c.Max.X)
	bar := []vg.Point{{X: zero, Y: y - half}, {X: at, Y: y - half}, {X: at, Y: y + half}, {X: zero, Y: y + half}}
	if at >= zero {
		c.FillPolygon(m.band, bar)
		return
	}
	c.FillPolygon(limitFill, bar)
	c.StrokeLines(draw.LineStyle{Color: limitInk, Width: 1.4}, append(bar, bar[0]))
}
