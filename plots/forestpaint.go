package plots

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func (f forest) paintUpperAxis(c draw.Canvas, tx func(float64) vg.Length, y vg.Length) {
	faint := newPen(smallSize, false, faintInk)
	for _, t := range f.axis.ticks {
		half := faint.width(t.Label) / 2
		putHaloed(c, faint, tx(t.Value)-half, y-9, t.Label)
	}
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
	if strip := f.upperAxis(); strip > 0 {
		f.paintUpperAxis(c, tx, y)
		y -= strip
	}
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
	note(c, vg.Point{X: x, Y: y + 2}, said(measure(l.words(f.decimals), f.unit), f.quantity))
}

// withSample writes words over the lines of the frame, and the sample behind them where there is room.
func (f forest) withSample(c draw.Canvas, p pen, x, y vg.Length, words, sample string) {
	words = shorten(p, words, f.width)
	putHaloed(c, p, x, y, words)
	faint := newPen(smallSize, false, faintInk)
	if from := x + p.width(words) + 7; sample != "" && from+faint.width(sample) <= x+f.width {
		putHaloed(c, faint, from, y, sample)
	}
}

// note lets interval k of a row say its number.
func (f forest) note(c draw.Canvas, at vg.Point, r Row, k int, i Interval) {
	names, samples := r.origins()
	words := names[k] + " " + measure(f.say(r, i), f.unit)
	if samples[k] != "" {
		words += ", " + samples[k]
	}
	note(c, at, said(words, f.quantity, r.Group, r.Label))
}

func (f forest) paintRow(c draw.Canvas, tx func(float64) vg.Length, y vg.Length, r Row, group *string) vg.Length {
	start := c.Min.X - f.gutter
	if r.Group != *group {
		*group = r.Group
		f.withSample(c, newPen(headSize, true, ink), start, y-groupLine+6, r.Group, f.groupSample(r.Group))
		y -= groupLine
	}
	label, small, faint := newPen(bodySize, false, ink), newPen(smallSize, false, ink), newPen(smallSize, false, faintInk)
	looks, intervals := r.marks()
	block := f.block(r)
	switch sample := f.sampleOf(r); {
	case f.above && r.Label != "":
		f.withSample(c, label, start, y-labelLine+4, r.Label, sample)
		y -= labelLine
	case sample != "":
		put(c, label, start, y-block/2+2, left, shorten(label, r.Label, f.gutter-6))
		put(c, faint, start, y-block/2-9.5, left, sample)
	default:
		put(c, label, start, y-block/2-4, left, shorten(label, r.Label, f.gutter-6))
	}
	if len(intervals) == 0 {
		put(c, small, c.Min.X+6, y-block/2-3.5, left, "no data")
	}
	first := y - (block-markLine*vg.Length(len(intervals)))/2
	for k, i := range intervals {
		at := first - markLine*(vg.Length(k)+0.5)
		if f.zero != nil && f.zero.bars && i.determined() {
			f.paintBar(c, looks[k], tx(0), tx(i.Value), at)
		}
		drawInterval(c, looks[k], lay(i, tx, c), at)
		small.style.Color = looks[k].ink
		put(c, small, c.Max.X+f.numbers, at-3.5, right, f.say(r, i))
		f.note(c, vg.Point{X: lay(i, tx, c).middle(), Y: at}, r, k, i)
	}
	return y - block - rowGap
}
