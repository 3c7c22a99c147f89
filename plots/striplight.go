package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// StripDrawing is the wide layout of StripChart alone, as SVG in a third of its bytes, for a page that is one of many: dropped stretches
// have a broken bar along the top and no hatching, lines keep to half a unit, and no place says its numbers. Its label is the title
// alone; alt says in words what it shows.
func StripDrawing(d StripChartData) (svg []byte, alt string, err error) {
	if d, err = d.ready(); err != nil {
		return nil, "", err
	}
	d.light = true
	return paintOn(d.layout(), wideWidth).svg(d.Title, ""), clean(d.alt()), nil
}

// lightStep is what the lines of a light chart are rounded to, and how far what hardly moves is left out: less than the width of a line.
const lightStep vg.Length = 0.5

// lightened is a line of a strip chart in fewer corners: each column of the drawing is one upright stroke over all its samples, entered at
// the end that lies nearer, and columns that stay within a step of the last one are passed over.
func lightened(line []vg.Point) []vg.Point {
	var out []vg.Point
	for i, k := 0, 0; i < len(line); i = k {
		y := emptySpan()
		for k = i; k < len(line) && line[k].X == line[i].X; k++ {
			y.add(float64(line[k].Y))
		}
		n := len(out)
		from, to := inLightSteps(y.low), inLightSteps(y.high)
		switch {
		case n == 0:
		case y.low >= float64(out[n-1].Y-lightStep) && y.high <= float64(out[n-1].Y+lightStep) && k < len(line):
			continue
		default:
			last := out[n-1].Y
			if before := line[i-1].X; before > out[n-1].X {
				out = append(out, vg.Point{X: before, Y: last}) // the end of what was passed over
			}
			if to-last < last-from {
				from, to = to, from
			}
		}
		out = append(out, vg.Point{X: line[i].X, Y: from})
		if to != from {
			out = append(out, vg.Point{X: line[i].X, Y: to})
		}
	}
	return out
}

func inLightSteps(y float64) vg.Length {
	return lightStep * vg.Length(math.Round(y/float64(lightStep)))
}

// paintPoints marks the test points over one frame.
func (s stripLayout) paintPoints(c draw.Canvas, frame vg.Rectangle) {
	if !s.light {
		paintPoints(c, s.Points, s.x, frame)
		return
	}
	var kept, dropped []vg.Rectangle
	for _, p := range s.Points {
		from, to := max(frame.Min.X, min(frame.Max.X, s.x(p.From))), max(frame.Min.X, min(frame.Max.X, s.x(p.To)))
		box := vg.Rectangle{Min: vg.Point{X: from, Y: frame.Min.Y}, Max: vg.Point{X: to, Y: frame.Max.Y}}
		switch {
		case to <= from:
		case p.Kept:
			kept = append(kept, box)
		default:
			dropped = append(dropped, box)
		}
	}
	barredBoxes(c, dropped)
	keptBoxes(c, kept)
}

// droppedBox is how a dropped stretch looks.
func (d StripChartData) droppedBox() func(draw.Canvas, vg.Rectangle) {
	if d.light {
		return func(c draw.Canvas, b vg.Rectangle) { barredBoxes(c, []vg.Rectangle{b}) }
	}
	return droppedBox
}

// barredBoxes are boxes of which only a broken bar along the top is drawn, all of them one stroke.
func barredBoxes(c draw.Canvas, boxes []vg.Rectangle) {
	var tops vg.Path
	for _, b := range boxes {
		addLine(&tops, vg.Point{X: b.Min.X, Y: b.Max.Y - 0.6}, vg.Point{X: b.Max.X, Y: b.Max.Y - 0.6})
	}
	strokeAll(c, draw.LineStyle{Color: faintInk, Width: 1.2, Dashes: []vg.Length{2, 2}}, tops)
}

// keptBoxes look as those of keptBox do; boxes are one fill, edges and bars one stroke each.
func keptBoxes(c draw.Canvas, boxes []vg.Rectangle) {
	var fill, edges, bars vg.Path
	for _, b := range boxes {
		for i, corner := range corners(b) {
			if i == 0 {
				fill.Move(corner)
				continue
			}
			fill.Line(corner)
		}
		fill.Close()
		addLine(&edges, b.Min, vg.Point{X: b.Min.X, Y: b.Max.Y})
		addLine(&edges, vg.Point{X: b.Max.X, Y: b.Min.Y}, b.Max)
		addLine(&bars, vg.Point{X: b.Min.X, Y: b.Max.Y - 1.2}, vg.Point{X: b.Max.X, Y: b.Max.Y - 1.2})
	}
	if len(fill) > 0 {
		c.SetColor(anchoredBand)
		c.Fill(fill)
	}
	strokeAll(c, draw.LineStyle{Color: anchoredInk, Width: 0.7}, edges)
	strokeAll(c, draw.LineStyle{Color: anchoredInk, Width: 2.4}, bars)
}

func addLine(path *vg.Path, from, to vg.Point) {
	path.Move(from)
	path.Line(to)
}

// strokeAll strokes a path in one go.
func strokeAll(c draw.Canvas, style draw.LineStyle, path vg.Path) {
	if len(path) == 0 {
		return
	}
	c.SetLineStyle(style)
	c.Stroke(path)
}
