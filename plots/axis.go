package plots

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// span collects the range of what an axis must hold.
type span struct{ low, high float64 }

func emptySpan() span { return span{math.Inf(1), math.Inf(-1)} }

// add widens the span; numbers that are not finite are passed over.
func (s *span) add(values ...float64) {
	for _, v := range values {
		if finite(v) {
			s.low, s.high = min(s.low, v), max(s.high, v)
		}
	}
}

func (s span) empty() bool { return s.low > s.high }

// length is the extent, or a tenth of the value when there is only one, so that an axis has room.
func (s span) length() float64 {
	if d := s.high - s.low; d > 0 {
		return d
	}
	return math.Max(0.1*math.Abs(s.high), 1e-6)
}

// reach widens the span by intervals, each by no more than the length that values and limits have or three
// times what the middling interval needs, so that one very wide interval does not crush the others; what lies
// beyond is drawn as an arrow.
func (s *span) reach(intervals []Interval) {
	core := *s
	room := math.Max(core.length(), 3*core.middling(intervals))
	for _, i := range intervals {
		if finite(i.Low) {
			s.add(math.Max(i.Low, core.low-room))
		}
		if finite(i.High) {
			s.add(math.Min(i.High, core.high+room))
		}
	}
}

// middling is the lower median of how far the bounded intervals run beyond the span.
func (s span) middling(intervals []Interval) float64 {
	var beyond []float64
	for _, i := range intervals {
		if i.Bounded() {
			beyond = append(beyond, math.Max(0, math.Max(s.low-i.Low, i.High-s.high)))
		}
	}
	if len(beyond) == 0 {
		return 0
	}
	slices.Sort(beyond)
	return beyond[(len(beyond)-1)/2]
}

// axis is a labelled range with its ticks.
type axis struct {
	label     string
	low, high float64
	ticks     []plot.Tick
	decimals  int
}

// niceAxis lays about n ticks on 1, 2 or 5 times a power of ten around the span.
func niceAxis(label string, s span, n int) axis {
	if s.empty() {
		s = span{0, 1}
	}
	step := niceStep(s.length() / float64(n))
	first, last := math.Floor(s.low/step+1e-9), math.Ceil(s.high/step-1e-9)
	if first == last {
		first, last = first-1, last+1
	}
	a := axis{label: clean(label), low: first * step, high: last * step}
	a.decimals = int(math.Max(0, math.Ceil(-math.Log10(step)-1e-9)))
	for k := first; k <= last; k++ {
		a.ticks = append(a.ticks, plot.Tick{Value: k * step, Label: number(k*step, a.decimals)})
	}
	return a
}

func niceStep(raw float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, m := range []float64{1, 2, 5} {
		if raw <= m*power*(1+1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// frame returns an empty plot with the two axes; a y axis without ticks is hidden.
func frame(x, y axis) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	p.X.Min, p.X.Max = x.low, x.high
	p.Y.Min, p.Y.Max = y.low, y.high
	p.X.Tick.Marker, p.Y.Tick.Marker = plot.ConstantTicks(x.ticks), plot.ConstantTicks(y.ticks)
	p.X.Label.Text = x.label
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		label, tick := newPen(smallSize, false, ink).style, newPen(smallSize, false, faintInk).style
		label.XAlign, label.YAlign = a.Label.TextStyle.XAlign, a.Label.TextStyle.YAlign
		tick.XAlign, tick.YAlign = a.Tick.Label.XAlign, a.Tick.Label.YAlign
		a.Label.TextStyle, a.Tick.Label = label, tick
		a.LineStyle = draw.LineStyle{Color: faintInk, Width: 0.8}
		a.Tick.LineStyle = draw.LineStyle{Color: color.Transparent, Width: 0.8} // the grid draws them, clear of the numbers
		a.Tick.Length = 5
		a.Label.Padding = 3
		a.Padding = 0
	}
	if len(y.ticks) == 0 {
		p.HideY()
	}
	return p
}

const tickLength vg.Length = 3

// grid draws faint lines at the ticks, and the ticks themselves.
type grid struct{ x, y []plot.Tick }

// Plot draws the lines across the data area.
func (g grid) Plot(c draw.Canvas, p *plot.Plot) {
	style, tick := draw.LineStyle{Color: rule, Width: 0.6}, draw.LineStyle{Color: faintInk, Width: 0.8}
	tx, ty := p.Transforms(&c)
	for _, t := range g.x {
		c.StrokeLine2(style, tx(t.Value), c.Min.Y, tx(t.Value), c.Max.Y)
		c.StrokeLine2(tick, tx(t.Value), c.Min.Y, tx(t.Value), c.Min.Y-tickLength)
	}
	for _, t := range g.y {
		c.StrokeLine2(style, c.Min.X, ty(t.Value), c.Max.X, ty(t.Value))
		c.StrokeLine2(tick, c.Min.X, ty(t.Value), c.Min.X-tickLength, ty(t.Value))
	}
}

// axisHeight is what the horizontal axis takes below the data.
const axisHeight vg.Length = 42
