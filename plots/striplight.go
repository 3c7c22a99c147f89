package plots

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// paintPoints marks the test points over one frame.
func (s stripLayout) paintPoints(c draw.Canvas, frame vg.Rectangle) {
	if !s.Light {
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
	framedBoxes(c, dropped)
	keptBoxes(c, kept)
}

// droppedBox is how a dropped stretch looks.
func (d StripChartData) droppedBox() func(draw.Canvas, vg.Rectangle) {
	if d.Light {
		return func(c draw.Canvas, b vg.Rectangle) { framedBoxes(c, []vg.Rectangle{b}) }
	}
	return droppedBox
}

// framedBoxes are empty boxes with broken frames, all of them one stroke.
func framedBoxes(c draw.Canvas, boxes []vg.Rectangle) {
	var sides, tops vg.Path
	for _, b := range boxes {
		addLine(&sides, b.Min, vg.Point{X: b.Min.X, Y: b.Max.Y})
		addLine(&sides, vg.Point{X: b.Max.X, Y: b.Min.Y}, b.Max)
		addLine(&tops, vg.Point{X: b.Min.X, Y: b.Max.Y - 0.6}, vg.Point{X: b.Max.X, Y: b.Max.Y - 0.6})
	}
	strokeAll(c, draw.LineStyle{Color: faintInk, Width: 0.5, Dashes: []vg.Length{2, 2}}, sides)
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
