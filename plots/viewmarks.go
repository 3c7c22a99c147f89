package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func (k MarkKind) words() string {
	if k == NeutralPoint {
		return "neutral point"
	}
	return "centre of gravity"
}

// draw paints the quartered circle of a centre of gravity or the open diamond of a neutral point.
func (k MarkKind) draw(c draw.Canvas, x, y vg.Length) {
	if k == NeutralPoint {
		diamond{}.DrawGlyph(&c, draw.GlyphStyle{Color: anchoredInk, Radius: 4}, vg.Point{X: x, Y: y})
		return
	}
	const r = 4.5
	disc{}.DrawGlyph(&c, draw.GlyphStyle{Color: paper, Radius: r}, vg.Point{X: x, Y: y})
	for _, start := range []float64{0, math.Pi} {
		var path vg.Path
		path.Move(vg.Point{X: x, Y: y})
		path.Line(vg.Point{X: x + r*vg.Length(math.Cos(start)), Y: y})
		path.Arc(vg.Point{X: x, Y: y}, r, start, math.Pi/2)
		path.Close()
		c.SetColor(ink)
		c.Fill(path)
	}
	circle(c, x, y, r, 1)
}

func circle(c draw.Canvas, x, y, radius, width vg.Length) {
	var path vg.Path
	path.Move(vg.Point{X: x + radius, Y: y})
	path.Arc(vg.Point{X: x, Y: y}, radius, 0, 2*math.Pi)
	path.Close()
	c.SetLineStyle(draw.LineStyle{Color: ink, Width: width})
	c.Stroke(path)
}
