package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Row is one line of judged numbers: what was measured, what theory predicts and what follows for full
// size. A nil interval is not drawn.
type Row struct {
	Group     string // rows of one group stand under one heading; may be empty
	Label     string
	Measured  *Interval
	Predicted *Interval
	Anchored  *Interval
}

func (r Row) intervals() []Interval {
	var out []Interval
	for _, i := range []*Interval{r.Measured, r.Predicted, r.Anchored} {
		if i != nil {
			out = append(out, *i)
		}
	}
	return out
}

func (r Row) check() error {
	for _, i := range r.intervals() {
		if err := i.check(); err != nil {
			return fmt.Errorf("%s, %s: %w", r.Group, r.Label, err)
		}
	}
	return nil
}

// best is the interval that a reader should judge by: anchored, else measured, else predicted.
func (r Row) best() (Interval, string, bool) {
	switch {
	case r.Anchored != nil:
		return *r.Anchored, "anchored", true
	case r.Measured != nil:
		return *r.Measured, "measured", true
	case r.Predicted != nil:
		return *r.Predicted, "predicted", true
	}
	return Interval{}, "", false
}

// marks pairs the intervals with their looks, in drawing order.
func (r Row) marks() (looks []mark, intervals []Interval) {
	add := func(m mark, i *Interval) {
		if i != nil {
			looks, intervals = append(looks, m), append(intervals, *i)
		}
	}
	add(measuredMark(), r.Measured)
	add(predictedMark(), r.Predicted)
	add(anchoredMark(), r.Anchored)
	return looks, intervals
}

// forest is a block of rows over one axis, with the numbers printed at the right.
type forest struct {
	rows     []Row
	limits   []Limit
	axis     axis
	decimals int
	width    vg.Length
	gutter   vg.Length // room at the left, for labels where they stand beside their rows
	above    bool      // labels stand above their rows
	numbers  vg.Length // room for the numbers at the right
	zero     *zeroLine // nil: zero is a number like others
}

const (
	markLine  vg.Length = 13
	rowGap    vg.Length = 7
	groupLine vg.Length = 19
	labelLine vg.Length = 14
	limitLine vg.Length = 14
)

// newForest measures labels and numbers and lays the axis; zero nil draws no line of no difference.
func newForest(rows []Row, limits []Limit, label string, width vg.Length, zero *zeroLine) forest {
	f := forest{rows: rows, limits: limits, width: width, zero: zero}
	var intervals []Interval
	for _, r := range rows {
		intervals = append(intervals, r.intervals()...)
	}
	f.decimals = decimalsFor(intervals)
	small, body := newPen(smallSize, false, ink), newPen(bodySize, false, ink)
	longest := vg.Length(0)
	for _, r := range rows {
		longest = max(longest, body.width(clean(r.Label)))
		for _, i := range r.intervals() {
			f.numbers = max(f.numbers, small.width(f.say(r, i))+10)
		}
	}
	f.gutter, f.above = longest+10, false
	if f.gutter > width*0.28 || width-f.numbers-f.gutter < 160 {
		f.gutter, f.above = 12, true
	}
	room := width - f.gutter - f.numbers
	f.axis = niceAxis(label, f.reach(intervals), max(2, int(room/45)))
	return f
}

// say writes an interval of a row at the right.
func (f forest) say(r Row, i Interval) string {
	if f.zero != nil {
		return f.zero.say(r, i)
	}
	return i.words(f.decimals)
}

// reach is what the axis must hold: values, limits and as much of the intervals as leaves the others legible.
func (f forest) reach(intervals []Interval) span {
	s := emptySpan()
	for _, i := range intervals {
		s.add(i.Value)
	}
	for _, l := range f.limits {
		s.add(l.Value)
	}
	if f.zero != nil {
		s.add(0)
	}
	if s.empty() {
		for _, i := range intervals {
			s.add(i.Low, i.High)
		}
	}
	s.reach(intervals)
	for _, l := range f.limits {
		s.add(l.Value-0.02*s.length(), l.Value+0.02*s.length()) // a limit never stands on the frame
	}
	if f.zero != nil {
		s = f.zero.room(s)
	}
	return s
}

// zeroHeight is the strip of words about the zero line.
func (f forest) zeroHeight() vg.Length {
	if f.zero == nil {
		return 0
	}
	return zeroStrip
}

// height of the block with its axis and the strip of limit names.
func (f forest) height() vg.Length {
	h := vg.Length(len(f.limits))*limitLine + axisHeight + 4 + f.zeroHeight()
	group := ""
	for _, r := range f.rows {
		h += f.rowHeight(r, &group)
	}
	return h
}

func (f forest) rowHeight(r Row, group *string) vg.Length {
	h := markLine*vg.Length(math.Max(1, float64(len(r.intervals())))) + rowGap
	if r.Group != *group {
		h += groupLine
		*group = r.Group
	}
	if f.above && r.Label != "" {
		h += labelLine
	}
	return h
}

// paint draws the block with its left upper corner at x, y.
func (f forest) paint(c draw.Canvas, x, y vg.Length) {
	strip := vg.Length(len(f.limits)) * limitLine
	c.Rectangle = vg.Rectangle{Min: vg.Point{X: x + f.gutter, Y: y - f.height()}, Max: vg.Point{X: x + f.width - f.numbers, Y: y - strip}}
	words := newPen(smallSize, false, ink)
	label := shorten(words, f.axis.label, f.width)
	from := min(max((c.Min.X+c.Max.X-words.width(label))/2, x), x+f.width-words.width(label))
	put(c, words, from, c.Min.Y+2.5, left, label)
	f.axis.label = "" // written here, since words wider than the frame would make the frame narrower
	c.Rectangle.Min.Y += words.style.Height(label) + words.style.FontExtents().Descent + 3
	p := frame(f.axis, axis{low: 0, high: 1})
	p.Add(grid{x: f.axis.ticks}, f)
	p.Draw(c)
}

// Plot draws rows and limits on the data area.
func (f forest) Plot(c draw.Canvas, p *plot.Plot) {
	tx, _ := p.Transforms(&c)
	for i, l := range f.limits {
		f.paintLimit(c, tx(l.Value), c.Max.Y+limitLine*vg.Length(len(f.limits)-1-i), l)
	}
	if f.zero != nil {
		f.paintZero(c, tx(0))
	}
	y, group := c.Max.Y-4-f.zeroHeight(), ""
	for _, r := range f.rows {
		y = f.paintRow(c, tx, y, r, &group)
	}
}

func (f forest) paintLimit(c draw.Canvas, x, y vg.Length, l Limit) {
	words := newPen(smallSize, true, limitInk)
	forbidden := vg.Point{X: 1}
	if l.AtLeast {
		forbidden.X = -1
	}
	hatchedLine(c, vg.Point{X: x, Y: c.Min.Y}, vg.Point{X: x, Y: y + 2}, forbidden)
	from, to := c.Min.X-f.gutter, c.Max.X+f.numbers
	s := shorten(words, l.words(f.decimals), to-from)
	at := min(max(x-words.width(s)/2, from), to-words.width(s))
	putHaloed(c, words, at, y+4, s)
}

func (f forest) paintRow(c draw.Canvas, tx func(float64) vg.Length, y vg.Length, r Row, group *string) vg.Length {
	start := c.Min.X - f.gutter
	if r.Group != *group {
		*group = r.Group
		heading := newPen(headSize, true, ink)
		putHaloed(c, heading, start, y-groupLine+6, shorten(heading, r.Group, f.width))
		y -= groupLine
	}
	label := newPen(bodySize, false, ink)
	looks, intervals := r.marks()
	block := markLine * vg.Length(max(1, len(intervals)))
	if f.above && r.Label != "" {
		putHaloed(c, label, start, y-labelLine+4, shorten(label, r.Label, f.width))
		y -= labelLine
	} else {
		put(c, label, start, y-block/2-4, left, shorten(label, r.Label, f.gutter-6))
	}
	small := newPen(smallSize, false, ink)
	if len(intervals) == 0 {
		put(c, small, c.Min.X+6, y-markLine/2-3.5, left, "no data")
	}
	for k, i := range intervals {
		at := y - markLine*(vg.Length(k)+0.5)
		if f.zero != nil && f.zero.bars && i.determined() {
			f.paintBar(c, looks[k], tx(0), tx(i.Value), at)
		}
		drawInterval(c, looks[k], lay(i, tx, c), at)
		small.style.Color = looks[k].ink
		put(c, small, c.Max.X+f.numbers, at-3.5, right, f.say(r, i))
	}
	return y - block - rowGap
}
