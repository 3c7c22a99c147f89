package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
)

// pixelColumn is what the samples of one column of the drawing come to.
type pixelColumn struct {
	first, low, high, last float64
	lowFirst               bool // the least sample came before the greatest
	any                    bool
}

func (p *pixelColumn) add(v float64) {
	if !p.any {
		*p = pixelColumn{first: v, low: v, high: v, last: v, any: true}
		return
	}
	if v < p.low {
		p.low, p.lowFirst = v, false
	}
	if v > p.high {
		p.high, p.lowFirst = v, true
	}
	p.last = v
}

// points are the corners of the line within the column: its first, least, greatest and last sample, in the order of time.
func (p pixelColumn) points(x vg.Length, y func(float64) vg.Length) []vg.Point {
	inner := []float64{p.high, p.low}
	if p.lowFirst {
		inner = []float64{p.low, p.high}
	}
	var out []vg.Point
	for _, v := range append([]float64{p.first}, append(inner, p.last)...) {
		at := vg.Point{X: x, Y: y(v)}
		if n := len(out); n == 0 || out[n-1] != at {
			out = append(out, at)
		}
	}
	return out
}

// stripLines turns samples into lines on columns of equal width. Where samples are further apart than a column each is drawn at its
// own place; a pause breaks the line.
func stripLines(s StripSeries, x, y func(float64) vg.Length, column vg.Length) [][]vg.Point {
	var lines [][]vg.Point
	var line []vg.Point
	var here pixelColumn
	at := math.MinInt
	flush := func() {
		if here.any {
			line = append(line, here.points(vg.Length(at)*column+column/2, y)...)
		}
		here = pixelColumn{}
	}
	finish := func() {
		flush()
		if len(line) > 0 {
			lines = append(lines, line)
		}
		line = nil
	}
	hole, last := longestStep(s.Time), math.Inf(-1)
	for i, t := range s.Time {
		v := s.Value[i]
		if !finite(v) {
			continue
		}
		if t-last > hole && !math.IsInf(last, -1) {
			finish()
		}
		if k := int(math.Floor(float64(x(t) / column))); k != at {
			flush()
			at = k
		}
		here.add(v)
		last = t
	}
	finish()
	return lines
}

// stripAxis is the vertical axis of a panel: it holds all values but those so far out that the rest would be crushed, one in a
// thousand on either side, or one; clipped tells that there are such.
func stripAxis(p StripPanel, ticks int) (a axis, clipped bool) {
	all, core := emptySpan(), emptySpan()
	for _, s := range p.Series {
		n := 0
		for _, v := range s.Value {
			if finite(v) {
				n++
			}
		}
		if n == 0 {
			continue
		}
		out := max(1, n/1000)
		if n < 20 {
			out = 0
		}
		low, high := outermost{most: out + 1}, outermost{most: out + 1}
		for _, v := range s.Value {
			if finite(v) {
				low.add(v)
				high.add(-v)
			}
		}
		all.add(low.least[0], -high.least[0])
		core.add(low.least[out], -high.least[out])
	}
	if all.empty() {
		return niceAxis("", all, ticks), false
	}
	// a spike counts as far out when it takes three times the room of the rest
	if all.high-all.low > 3*math.Max(core.length(), 1e-9) {
		a = niceAxis("", core, ticks)
		return a, all.low < a.low || all.high > a.high
	}
	return niceAxis("", all, ticks), false
}

// outermost keeps the least of many values in their order, most of them: those in a thousand are found without sorting all.
type outermost struct {
	most  int
	least []float64
}

func (o *outermost) add(v float64) {
	if len(o.least) == o.most {
		if v >= o.least[o.most-1] {
			return
		}
		o.least = o.least[:o.most-1]
	}
	at, _ := slices.BinarySearch(o.least, v)
	o.least = slices.Insert(o.least, at, v)
}
