package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes of the low frame that holds what a fit leaves.
const (
	leftHeight vg.Length = 28
	leftGap    vg.Length = 9 // below the frame that it belongs to
)

// height of the frames of a panel, without the gap above them.
func (p StripPanel) height() vg.Length {
	if p.Left == nil {
		return stripHeight
	}
	return stripHeight + leftGap + leftHeight
}

// paintLeft draws what a fit leaves about a line of zero, on a scale of its own that reaches as far to either side.
func (s stripLayout) paintLeft(c draw.Canvas, p StripPanel, frame vg.Rectangle) {
	reach := leftReach(p.Left.Value)
	middle := (frame.Min.Y + frame.Max.Y) / 2
	y := func(v float64) vg.Length { return middle + vg.Length(v/reach)*leftHeight/2 }
	rules := draw.LineStyle{Color: rule, Width: 0.6}
	for _, t := range s.time.ticks {
		if at := s.x(t.Value); at >= frame.Min.X-0.01 && at <= frame.Max.X+0.01 {
			c.StrokeLine2(rules, at, frame.Min.Y, at, frame.Max.Y)
		}
	}
	zero := draw.LineStyle{Color: faintInk, Width: 0.7}
	c.StrokeLine2(zero, frame.Min.X, middle, frame.Max.X, middle)
	c.StrokeLine2(zero, frame.Min.X, frame.Min.Y, frame.Min.X, frame.Max.Y)
	faint := newPen(smallSize, false, faintInk)
	decimals := 0
	if reach < 1 {
		decimals = int(math.Ceil(-math.Log10(reach)))
	}
	put(c, faint, frame.Min.X-4, frame.Max.Y-7, right, number(reach, decimals))
	put(c, faint, frame.Min.X-4, frame.Min.Y, right, number(-reach, decimals))
	for _, line := range stripLines(*p.Left, s.x, y, stripColumn) {
		if len(line) > 1 {
			c.StrokeLines(leftStyle(), line)
		}
	}
	s.speakSeries(c, p, *p.Left, y)
}

// leftReach is the largest magnitude, rounded up to 1, 2 or 5 times a power of ten.
func leftReach(values []float64) float64 {
	most := 0.0
	for _, v := range values {
		if finite(v) {
			most = math.Max(most, math.Abs(v))
		}
	}
	if most == 0 {
		return 1
	}
	ten := math.Pow(10, math.Floor(math.Log10(most)))
	for _, step := range []float64{1, 2, 5} {
		if most <= step*ten {
			return step * ten
		}
	}
	return 10 * ten
}

// sameNames tells whether every panel of two series names them alike, as measured and fitted histories do: the key above all panels
// then explains them once.
func (d StripChartData) sameNames() bool {
	var first []StripSeries
	panels := 0
	for _, p := range d.Panels {
		if len(p.Series) < 2 {
			continue
		}
		if panels++; panels == 1 {
			first = p.Series
		}
		if p.Series[0].Name != first[0].Name || p.Series[1].Name != first[1].Name {
			return false
		}
	}
	return panels > 1
}

// seriesKey explains the lines where every panel holds the same two, and what is left below them.
func (d StripChartData) seriesKey() []keyEntry {
	var key []keyEntry
	line := func(words string, style draw.LineStyle) {
		key = append(key, keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) { c.StrokeLine2(style, x, y, x+keySample, y) }})
	}
	if d.sameNames() {
		for _, p := range d.Panels {
			if len(p.Series) == 2 {
				line(p.Series[0].Name, stripStyle(0))
				line(p.Series[1].Name, stripStyle(1))
				break
			}
		}
	}
	for _, p := range d.Panels {
		if p.Left != nil {
			line(or(p.Left.Name, "what is left"), leftStyle())
			break
		}
	}
	return key
}

func leftStyle() draw.LineStyle { return draw.LineStyle{Color: anchoredInk, Width: 0.8} }
