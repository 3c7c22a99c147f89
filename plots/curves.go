package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// curvePanel is a frame with curves and points; the label of its y axis stands above the frame, so that
// nothing is written sideways.
type curvePanel struct {
	title  string
	notes  []string // numbers that belong to the panel, under the title
	loud   []bool   // of each note: bold and in the ink of limits; may be shorter
	x, y   axis
	things []plot.Plotter
	empty  string    // said in the frame instead of data
	height vg.Length // of frame without axis; 0: plotHeight
	margin vg.Length // room right of the frame, for names at the ends of curves
}

const plotHeight vg.Length = 178

func (p curvePanel) tile(width vg.Length) tile {
	heading, small := newPen(headSize, true, ink), newPen(smallSize, false, ink)
	title := wrap(heading, p.title, width)
	notes, lines := p.noteLines(width)
	yLabel := wrap(small, p.y.label, width)
	head := vg.Length(len(title))*heading.line() + vg.Length(lines)*small.line() + vg.Length(len(yLabel))*small.line() + 6
	height := p.height
	if height == 0 {
		height = plotHeight
	}
	return tile{head: head, body: height + axisHeight, paint: func(c draw.Canvas, x, y, body vg.Length) {
		y = putLines(c, heading, x, y, title)
		for i, n := range notes {
			pen := small
			if i < len(p.loud) && p.loud[i] {
				pen = newPen(smallSize, true, limitInk)
			}
			y = putLines(c, pen, x, y, n)
		}
		faint := newPen(smallSize, false, faintInk)
		putLines(c, faint, x, body+vg.Length(len(yLabel))*small.line()+4, yLabel)
		c.Rectangle = vg.Rectangle{Min: vg.Point{X: x, Y: body - height - axisHeight + 6}, Max: vg.Point{X: x + width - p.margin, Y: body}}
		p.x.label = shorten(small, p.x.label, width-p.margin-40)
		frame := frame(p.x, p.y)
		frame.Add(grid{x: p.x.ticks, y: p.y.ticks})
		frame.Add(p.things...)
		if p.empty != "" {
			frame.Add(sentence{p.empty})
		}
		frame.Draw(c)
	}}
}

// noteLines breaks the notes at a width; lines is how many they come to.
func (p curvePanel) noteLines(width vg.Length) (notes [][]string, lines int) {
	for _, n := range p.notes {
		broken := wrap(newPen(smallSize, true, ink), n, width)
		notes, lines = append(notes, broken), lines+len(broken)
	}
	return notes, lines
}

// warn adds a note, a loud one where something is broken.
func (p *curvePanel) warn(loud bool, words string) {
	for len(p.loud) < len(p.notes) {
		p.loud = append(p.loud, false)
	}
	p.notes, p.loud = append(p.notes, words), append(p.loud, loud)
}

// bandOf fills between the bounds of a curve, cut to the frame; an endless bound runs to the edge.
type bandOf struct {
	curve Curve
	look  mark
}

// Plot draws the band.
func (b bandOf) Plot(c draw.Canvas, p *plot.Plot) {
	if b.curve.Low == nil || len(b.curve.X) < 2 {
		return
	}
	tx, ty := p.Transforms(&c)
	y := func(v float64) vg.Length { return ty(math.Max(p.Y.Min, math.Min(p.Y.Max, v))) }
	var low, high []vg.Point
	for i, x := range b.curve.X {
		low = append(low, vg.Point{X: tx(x), Y: y(b.curve.Low[i])})
		high = append(high, vg.Point{X: tx(x), Y: y(b.curve.High[i])})
	}
	outline := append([]vg.Point{}, low...)
	for i := len(high) - 1; i >= 0; i-- {
		outline = append(outline, high[i])
	}
	c.FillPolygon(b.look.band, c.ClipPolygonX(outline))
	if b.look.line.Width < 1 { // what lies beneath stays light
		return
	}
	edge := b.look.line
	edge.Width, edge.Dashes = 0.5, nil
	c.StrokeLines(edge, c.ClipLinesX(low)...)
	c.StrokeLines(edge, c.ClipLinesX(high)...)
}

// lineOf draws a curve, cut to the frame.
type lineOf struct {
	curve Curve
	look  mark
}

// Plot draws the line.
func (l lineOf) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	pts := make([]vg.Point, len(l.curve.X))
	for i := range l.curve.X {
		pts[i] = vg.Point{X: tx(l.curve.X[i]), Y: ty(l.curve.Y[i])}
	}
	if len(pts) > 1 {
		c.StrokeLines(l.look.line, c.ClipLinesXY(pts)...)
	}
}

// pointsOf draws single test points.
type pointsOf struct {
	x, y []float64
	look mark
	size vg.Length
}

// Plot draws the points that lie inside the frame.
func (s pointsOf) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	for i := range s.x {
		at := vg.Point{X: tx(s.x[i]), Y: ty(s.y[i])}
		if c.Contains(at) {
			s.look.glyph.DrawGlyph(&c, draw.GlyphStyle{Color: s.look.ink, Radius: s.size}, at)
		}
	}
}

// uprights draws a vertical interval at each x.
type uprights struct {
	x    []float64
	y    []Interval
	look mark
}

// Plot draws the intervals.
func (u uprights) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	for i, x := range u.x {
		drawUpright(c, u.look, u.y[i], tx(x), ty)
	}
}

// level draws a horizontal limit across the frame; heavy zero lines have no hatching.
type level struct {
	limit Limit
	plain bool
}

// Plot draws the line.
func (l level) Plot(c draw.Canvas, p *plot.Plot) {
	_, ty := p.Transforms(&c)
	y := ty(l.limit.Value)
	if !c.ContainsY(y) {
		return
	}
	if l.plain {
		c.StrokeLine2(draw.LineStyle{Color: faintInk, Width: 1}, c.Min.X, y, c.Max.X, y)
		return
	}
	forbidden := vg.Point{Y: 1}
	if l.limit.AtLeast {
		forbidden.Y = -1
	}
	hatchedLine(c, vg.Point{X: c.Min.X, Y: y}, vg.Point{X: c.Max.X, Y: y}, forbidden)
}

// sentence says something in the middle of an otherwise empty frame.
type sentence struct{ words string }

// Plot writes the sentence.
func (s sentence) Plot(c draw.Canvas, _ *plot.Plot) {
	words := newPen(bodySize, false, ink)
	lines := wrap(words, s.words, c.Max.X-c.Min.X-16)
	y := c.Center().Y + words.line()*vg.Length(len(lines))/2 - bodySize
	for _, line := range lines {
		putHaloed(c, words, c.Min.X+8, y, line)
		y -= words.line()
	}
}

// paintTiles is the common body of the figures made of small multiples under one header.
func paintTiles(head header, most int, panels []curvePanel) layout {
	return func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		top, paintHead := head.place(width)
		columns := columnsFor(width, len(panels), most)
		tiles := make([]tile, len(panels))
		for i, p := range panels {
			tiles[i] = p.tile(tileWidth(width, columns))
		}
		height, paint := tileGrid(tiles, width, columns)
		return top + height, func(c draw.Canvas) {
			paintHead(c, c.Max.Y)
			paint(c, c.Max.Y-top)
		}
	}
}
