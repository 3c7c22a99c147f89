package plots

import (
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

const smallShape vg.Length = 12

// isSmall tells whether a path is no larger than a glyph or a cap.
func isSmall(path vg.Path) bool {
	box := boxOf(path)
	return box.Max.X-box.Min.X < smallShape && box.Max.Y-box.Min.Y < smallShape
}

// box is what a touch may cover, its line included.
func (t touch) box() vg.Rectangle {
	if t.kind == textTouch {
		face := font.DefaultCache.Lookup(t.font, t.font.Size)
		// fonts of other widths may stand in for ours
		wide, high := 1.15*face.Width(t.text), t.font.Size
		if t.turned != 0 {
			reach := max(wide, high)
			return around(t.at, reach, reach)
		}
		return vg.Rectangle{Min: vg.Point{X: t.at.X - 1, Y: t.at.Y - 0.3*high}, Max: vg.Point{X: t.at.X + wide + 1, Y: t.at.Y + high}}
	}
	box := boxOf(t.path)
	reach := t.width // corners reach further than half the line
	return vg.Rectangle{Min: vg.Point{X: box.Min.X - reach - 0.2, Y: box.Min.Y - reach - 0.2}, Max: vg.Point{X: box.Max.X + reach + 0.2, Y: box.Max.Y + reach + 0.2}}
}

func boxOf(path vg.Path) vg.Rectangle {
	x, y := emptySpan(), emptySpan()
	for _, step := range path {
		if step.Type == vg.CloseComp {
			continue
		}
		x.add(float64(step.Pos.X-step.Radius), float64(step.Pos.X+step.Radius))
		y.add(float64(step.Pos.Y-step.Radius), float64(step.Pos.Y+step.Radius))
		for _, c := range step.Control {
			x.add(float64(c.X))
			y.add(float64(c.Y))
		}
	}
	return vg.Rectangle{Min: vg.Point{X: vg.Length(x.low), Y: vg.Length(y.low)}, Max: vg.Point{X: vg.Length(x.high), Y: vg.Length(y.high)}}
}

// anticlockwise turns a polygon round where it needs it: two that turn against each other would leave a hole where they
// overlap. Paths with curves stay, all of them are drawn anticlockwise.
func anticlockwise(path vg.Path) vg.Path {
	if turnOf(path) >= 0 {
		return path
	}
	var corners []vg.Point
	for i, step := range path {
		switch {
		case step.Type == vg.LineComp || step.Type == vg.MoveComp && i == 0:
			corners = append(corners, step.Pos)
		case step.Type != vg.CloseComp || i < len(path)-1:
			return path
		}
	}
	var out vg.Path
	out.Move(corners[0])
	for i := len(corners) - 1; i > 0; i-- {
		out.Line(corners[i])
	}
	out.Close()
	return out
}

// turnOf is twice the area within a path, positive where it turns anticlockwise; a circle counts by its arc.
func turnOf(path vg.Path) float64 {
	area := 0.0
	var first, last vg.Point
	for _, step := range path {
		switch step.Type {
		case vg.MoveComp:
			first, last = step.Pos, step.Pos
		case vg.ArcComp:
			area += float64(step.Radius*step.Radius) * step.Angle
		case vg.LineComp, vg.CurveComp:
			area += float64(last.X*step.Pos.Y - last.Y*step.Pos.X)
			last = step.Pos
		}
	}
	return area + float64(last.X*first.Y-last.Y*first.X)
}
