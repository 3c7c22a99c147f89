package plots

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// contrastBlock is one limit laid out at a width.
type contrastBlock struct {
	limit    ContrastLimit
	baseline string
	width    vg.Length
	gutter   vg.Length // for the levels at the left; 0: they stand above their lines
	numbers  vg.Length // at the right
	heading  []string
	axis     axis

	first, last bool // the words for both sides of the line stand above the first, the scale below the last
}

const (
	contrastScale vg.Length = 34 // height of the scale below the last block
	contrastSides vg.Length = 18 // of the words for both sides
)

// newContrastBlock gives all blocks of a figure the same gutter and room for numbers, so that the lines of no difference stand in one line.
func newContrastBlock(d ContrastsData, l ContrastLimit, width vg.Length) contrastBlock {
	b := contrastBlock{limit: l, baseline: d.Baseline, width: width}
	body, small := newPen(bodySize, false, ink), newPen(smallSize, false, ink)
	for _, one := range d.Limits {
		for _, level := range one.Levels {
			b.gutter = max(b.gutter, body.width(clean(level.Level))+10)
			b.numbers = max(b.numbers, small.width(clean(one.say(level)))+10)
		}
	}
	if b.gutter > 0.2*width || width-2*edge-b.gutter-b.numbers < 200 {
		b.gutter, b.numbers = 0, 0
	}
	b.axis = d.axis(width - 2*edge - b.gutter - b.numbers)
	b.heading = wrap(small, l.heading(d.Baseline), width-2*edge)
	return b
}

func (b contrastBlock) above() bool { return b.gutter == 0 }

func (b contrastBlock) rowHeight() vg.Length {
	if b.above() {
		return markLine + labelLine + 4 // a bar keeps off the words of the level below
	}
	return markLine + 3
}

func (b contrastBlock) height() vg.Length {
	title, small := newPen(headSize, true, ink), newPen(smallSize, false, ink)
	h := 6 + title.line() + vg.Length(len(b.heading))*small.line() + 3 + vg.Length(len(b.limit.Levels))*b.rowHeight() + 4
	if b.first {
		h += contrastSides
	}
	if b.last {
		h += contrastScale
	}
	return h
}

// paint draws the block downwards from y.
func (b contrastBlock) paint(c draw.Canvas, y vg.Length) {
	left, right := c.Min.X+edge, c.Max.X-edge
	inner := c
	inner.Min.X, inner.Max.X = left+b.gutter, right-b.numbers
	tx := b.scale(inner)
	if b.first {
		b.paintSides(inner, tx(0), y)
		y -= contrastSides
	}
	y = putLines(c, newPen(headSize, true, ink), left, y-6, []string{shorten(newPen(headSize, true, ink), capital(b.limit.Name), right-left)})
	y = putLines(c, newPen(smallSize, false, faintInk), left, y, b.heading)
	y -= 3
	inner.Min.Y, inner.Max.Y = y-vg.Length(len(b.limit.Levels))*b.rowHeight(), y
	b.paintLines(inner, tx)
	if b.last {
		b.paintScale(inner, tx)
	}
	for i, level := range b.limit.Levels {
		b.paintLevel(inner, tx, y-vg.Length(i)*b.rowHeight(), level)
	}
}

// paintSides writes what both sides of the line mean, above the first block.
func (b contrastBlock) paintSides(c draw.Canvas, middle, y vg.Length) {
	words := newPen(smallSize, true, ink)
	put(c, words, middle-8, y-12, right, shorten(words, "← costs room", middle-8-c.Min.X))
	put(c, words, middle+8, y-12, left, shorten(words, "gains room →", c.Max.X-middle-8))
}

// scale puts shares of the room on the canvas.
func (b contrastBlock) scale(c draw.Canvas) func(float64) vg.Length {
	return func(v float64) vg.Length {
		return c.Min.X + (c.Max.X-c.Min.X)*vg.Length((v-b.axis.low)/(b.axis.high-b.axis.low))
	}
}

// paintLines draws the grid, the line of no difference and the limit.
func (b contrastBlock) paintLines(c draw.Canvas, tx func(float64) vg.Length) {
	grid{x: b.axis.ticks}.along(c, tx)
	c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1.2}, tx(0), c.Min.Y, tx(0), c.Max.Y)
	if b.limit.Words != "" {
		return // without room there is no place for the limit
	}
	at := tx(b.limit.atLimit())
	hatchedPath(c, []vg.Point{{X: at, Y: c.Min.Y}, {X: at, Y: c.Max.Y}}, vg.Point{X: -1})
	note(c, vg.Point{X: at, Y: (c.Min.Y + c.Max.Y) / 2}, b.limit.Name+": limit, "+b.limit.Bound.bound()+unitAfter(b.limit.Unit))
}

// paintScale draws the scale that all blocks share.
func (b contrastBlock) paintScale(c draw.Canvas, tx func(float64) vg.Length) {
	faint, line := newPen(smallSize, false, faintInk), draw.LineStyle{Color: faintInk, Width: 0.8}
	c.StrokeLine2(line, c.Min.X, c.Min.Y, c.Max.X, c.Min.Y)
	for _, t := range b.axis.ticks {
		c.StrokeLine2(line, tx(t.Value), c.Min.Y, tx(t.Value), c.Min.Y-4)
		half := faint.width(t.Label) / 2
		put(c, faint, min(max(tx(t.Value), c.Min.X+half-edge+1), c.Max.X+edge-half-1), c.Min.Y-14, centre, t.Label)
	}
	words := newPen(smallSize, false, ink)
	label := shorten(words, b.axis.label, b.width-2*edge)
	from := min(max((c.Min.X+c.Max.X-words.width(label))/2, c.Min.X-b.gutter), c.Max.X+b.numbers-words.width(label))
	put(c, words, from, c.Min.Y-28, left, label)
}

// arrowAt says that all of an interval lies beyond an edge.
func arrowAt(c draw.Canvas, m mark, x, outward, y vg.Length) {
	c.FillPolygon(m.ink, []vg.Point{{X: x, Y: y}, {X: x - 8*outward, Y: y - 4.5}, {X: x - 8*outward, Y: y + 4.5}})
}

// along draws the upright lines of a grid where a scale puts them.
func (g grid) along(c draw.Canvas, tx func(float64) vg.Length) {
	for _, t := range g.x {
		c.StrokeLine2(draw.LineStyle{Color: rule, Width: 0.6}, tx(t.Value), c.Min.Y, tx(t.Value), c.Max.Y)
	}
}

// paintLevel draws one level with its name and its number, downwards from y.
func (b contrastBlock) paintLevel(c draw.Canvas, tx func(float64) vg.Length, y vg.Length, level ContrastLevel) {
	name, small := newPen(bodySize, false, ink), newPen(smallSize, false, ink)
	small.style.Color = anchoredMark().ink
	say := b.limit.say(level)
	if b.above() {
		words := clean(level.Level) + "  "
		room := c.Max.X - c.Min.X
		head := shorten(name, words, 0.45*room)
		putHaloed(c, name, c.Min.X, y-labelLine+4, head)
		say = shorten(small, say, room-name.width(head)-6)
		putHaloed(c, small, c.Max.X-small.width(say), y-labelLine+4, say)
		y -= labelLine
	} else {
		put(c, name, c.Min.X-b.gutter, y-markLine/2-4, left, shorten(name, level.Level, b.gutter-6))
		put(c, small, c.Max.X+b.numbers, y-markLine/2-3.5, right, say)
	}
	at := y - markLine/2
	if level.inWords(b.limit) {
		b.paintWords(c, at, level)
		return
	}
	gains := b.limit.share(level.Difference)
	if gains.determined() {
		forest{}.paintBar(c, anchoredMark(), tx(0), tx(gains.Value), at)
	}
	switch {
	case gains.Low > b.axis.high:
		arrowAt(c, anchoredMark(), c.Max.X, 1, at)
	case gains.High < b.axis.low:
		arrowAt(c, anchoredMark(), c.Min.X, -1, at)
	default:
		drawInterval(c, anchoredMark(), lay(gains, tx, c), at)
	}
	if gains.determined() {
		note(c, vg.Point{X: min(max(tx(gains.Value), c.Min.X), c.Max.X), Y: at}, level.Level+", "+b.limit.Name+": "+b.limit.told(level))
	}
}

// paintWords writes a level that has no bar.
func (b contrastBlock) paintWords(c draw.Canvas, at vg.Length, level ContrastLevel) {
	small := newPen(smallSize, false, ink)
	small.style.Color = anchoredMark().ink
	putHaloed(c, small, c.Min.X+4, at-3.5, shorten(small, b.limit.told(level), c.Max.X-c.Min.X-8))
	note(c, vg.Point{X: (c.Min.X + c.Max.X) / 2, Y: at}, level.Level+", "+b.limit.Name+": "+b.limit.told(level))
}
