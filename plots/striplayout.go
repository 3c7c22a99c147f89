package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes of a strip chart.
const (
	stripHeight   vg.Length = 66 // of a frame
	stripGap      vg.Length = 20 // between frames, with the name of the lower one
	stripMargin   vg.Length = 34 // left of the frames, for numbers
	stripColumn   vg.Length = 1  // width of a column of the drawing
	stripTimeAxis vg.Length = 32
)

// stripLayout is a strip chart laid out at one width.
type stripLayout struct {
	StripChartData
	head        header
	time        axis
	left, right vg.Length
	names       []placedName
	lanes       int
	words       pen
}

func (d StripChartData) layout() layout {
	return func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		s := stripLayout{StripChartData: d, left: edge + stripMargin, right: width - edge - 6, words: newPen(smallSize, false, ink)}
		s.head = header{title: d.Title, note: capital(d.Note), key: d.key()}
		ticks := 10
		if width <= narrowWidth {
			ticks = 6
		}
		s.time = niceAxis("time, s", d.span(), ticks)
		time := d.span()
		s.time.low, s.time.high = time.low, time.high // the frame ends where the recording does
		s.names, s.lanes = placeNames(d.Manoeuvres, s.words, s.x, s.left, s.right)
		headHeight, paintHead := s.head.place(width)
		height := headHeight + s.above() + stripTimeAxis
		for _, p := range d.Panels {
			height += stripGap + p.height()
		}
		return height, func(c draw.Canvas) {
			top := c.Max.Y
			paintHead(c, top)
			s.paint(c, top-headHeight)
		}
	}
}

// above is the height of the lanes above the first panel.
func (s stripLayout) above() vg.Length {
	h := vg.Length(s.lanes)*manoeuvreLane + 4
	if len(s.Findings) > 0 {
		h += findingLane
	}
	return h
}

func (s stripLayout) x(t float64) vg.Length {
	length := s.time.high - s.time.low
	if !(length > 0) {
		return s.left
	}
	return s.left + vg.Length((t-s.time.low)/length)*(s.right-s.left)
}

// key explains the marks that occur.
func (d StripChartData) key() []keyEntry {
	var kept, dropped, loss, note bool
	for _, p := range d.Points {
		kept, dropped = kept || p.Kept, dropped || !p.Kept
	}
	for _, f := range d.Findings {
		loss, note = loss || f.Loss, note || !f.Loss
	}
	key := d.seriesKey()
	box := func(paint func(draw.Canvas, vg.Rectangle)) func(draw.Canvas, vg.Length, vg.Length) {
		return func(c draw.Canvas, x, y vg.Length) {
			paint(c, vg.Rectangle{Min: vg.Point{X: x, Y: y - 5}, Max: vg.Point{X: x + keySample, Y: y + 6}})
		}
	}
	bar := func(loss bool) func(draw.Canvas, vg.Length, vg.Length) {
		return func(c draw.Canvas, x, y vg.Length) {
			paintFindings(c, []StripFinding{{From: 0, To: 1, Loss: loss}}, func(t float64) vg.Length { return x + vg.Length(t)*keySample }, x, x+keySample, y+findingLane/2)
		}
	}
	for _, k := range []struct {
		occurs bool
		words  string
		sample func(draw.Canvas, vg.Length, vg.Length)
	}{{kept, "test point, kept", box(keptBox)}, {dropped, "dropped", box(d.droppedBox())}, {loss, "something is lost here", bar(true)}, {note, "something to know", bar(false)}} {
		if k.occurs {
			key = append(key, keyEntry{words: k.words, sample: k.sample})
		}
	}
	return key
}

// paint draws lanes, panels and the time axis from the top edge y down.
func (s stripLayout) paint(c draw.Canvas, y vg.Length) {
	if !s.light {
		s.speakLanes(c, y)
	}
	if len(s.Findings) > 0 {
		paintFindings(c, s.Findings, s.x, s.left, s.right, y)
		y -= findingLane
	}
	paintNames(c, s.words, s.names, y)
	y -= vg.Length(s.lanes)*manoeuvreLane + 4
	for i, p := range s.Panels {
		y -= stripGap
		if i == 0 && !s.light {
			s.speakPoints(c, vg.Rectangle{Min: vg.Point{X: s.left, Y: y - stripHeight}, Max: vg.Point{X: s.right, Y: y}})
		}
		s.panel(c, p, vg.Rectangle{Min: vg.Point{X: s.left, Y: y - stripHeight}, Max: vg.Point{X: s.right, Y: y}})
		y -= p.height()
		if p.Left != nil {
			s.paintLeft(c, p, vg.Rectangle{Min: vg.Point{X: s.left, Y: y}, Max: vg.Point{X: s.right, Y: y + leftHeight}})
		}
	}
	s.timeAxis(c, y)
}

// panel draws one frame with its name above it.
func (s stripLayout) panel(c draw.Canvas, p StripPanel, frame vg.Rectangle) {
	a, clipped := stripAxis(p, 3)
	y := func(v float64) vg.Length {
		v = math.Max(a.low, math.Min(a.high, v))
		return frame.Min.Y + vg.Length((v-a.low)/(a.high-a.low))*(frame.Max.Y-frame.Min.Y)
	}
	s.panelHead(c, p, frame, beyondWords(p, a, clipped))
	rules := draw.LineStyle{Color: rule, Width: 0.6}
	faint := newPen(smallSize, false, faintInk)
	for _, t := range a.ticks {
		c.StrokeLine2(rules, frame.Min.X, y(t.Value), frame.Max.X, y(t.Value))
		put(c, faint, frame.Min.X-4, y(t.Value)-3.5, right, t.Label)
	}
	for _, t := range s.time.ticks {
		if at := s.x(t.Value); at >= frame.Min.X-0.01 && at <= frame.Max.X+0.01 {
			c.StrokeLine2(rules, at, frame.Min.Y, at, frame.Max.Y)
		}
	}
	s.paintPoints(c, frame)
	for i := len(p.Series) - 1; i >= 0; i-- {
		for _, line := range stripLines(p.Series[i], s.x, y, stripColumn) {
			if s.light {
				line = lightened(line)
			}
			if len(line) == 1 { // a single sample between two pauses, or several of one column that are alike
				line = append(line, vg.Point{X: line[0].X + 1, Y: line[0].Y})
			}
			c.StrokeLines(stripStyle(i), line)
		}
		s.beyond(c, p.Series[i], a, frame)
		if !s.light {
			s.speakSeries(c, p, p.Series[i], y)
		}
	}
	border := draw.LineStyle{Color: faintInk, Width: 0.8}
	c.StrokeLine2(border, frame.Min.X, frame.Min.Y, frame.Min.X, frame.Max.Y)
	c.StrokeLine2(border, frame.Min.X, frame.Min.Y, frame.Max.X, frame.Min.Y)
}

// stripStyle tells the two series of a panel apart by width and hue; the key above the panel shows both. Dashes would break up in a trace
// that goes up and down within a column.
func stripStyle(i int) draw.LineStyle {
	if i == 0 {
		return draw.LineStyle{Color: ink, Width: 0.8}
	}
	return draw.LineStyle{Color: predictedInk, Width: 1.7}
}

// panelHead writes the name and unit, a sample of each line where there are two, and what lies beyond the frame.
func (s stripLayout) panelHead(c draw.Canvas, p StripPanel, frame vg.Rectangle, beyond string) {
	unit := ", " + clean(p.Unit)
	if p.Unit == "" {
		unit = ", pure number"
	}
	x, y := frame.Min.X, frame.Max.Y+5
	room := frame.Max.X - x
	heading := newPen(smallSize, true, ink)
	name := shorten(heading, p.Name+unit, room)
	put(c, heading, x, y, left, name)
	x += heading.width(name) + 10
	if len(p.Series) == 2 && !s.sameNames() {
		for i, series := range p.Series {
			words := shorten(s.words, series.Name, max(0, frame.Max.X-x-28))
			if x+28 > frame.Max.X {
				break
			}
			c.StrokeLine2(stripStyle(i), x, y+3.5, x+18, y+3.5)
			put(c, s.words, x+21, y, left, words)
			x += 21 + s.words.width(words) + 10
		}
	}
	if w := s.words.width(beyond); x+w <= frame.Max.X {
		put(c, s.words, frame.Max.X, y, right, beyond)
	}
}

// timeAxis writes the numbers of the time axis below the last frame.
func (s stripLayout) timeAxis(c draw.Canvas, y vg.Length) {
	faint := newPen(smallSize, false, faintInk)
	line := draw.LineStyle{Color: faintInk, Width: 0.8}
	for _, t := range s.time.ticks {
		at := s.x(t.Value)
		if at < s.left-0.01 || at > s.right+0.01 {
			continue
		}
		c.StrokeLine2(line, at, y, at, y-3)
		half := faint.width(t.Label) / 2
		put(c, faint, min(at, s.right+6-half), y-13, centre, t.Label)
	}
	put(c, s.words, (s.left+s.right)/2, y-26, centre, s.time.label)
}
