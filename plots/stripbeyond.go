package plots

import (
	"fmt"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// beyondWords says how far the samples go that lie outside the frame.
func beyondWords(p StripPanel, a axis, clipped bool) string {
	if !clipped {
		return ""
	}
	all := emptySpan()
	for _, series := range p.Series {
		all.add(series.Value...)
	}
	switch {
	case all.low >= a.low:
		return fmt.Sprintf("single values up to %s", number(all.high, 1))
	case all.high <= a.high:
		return fmt.Sprintf("single values down to %s", number(all.low, 1))
	}
	return fmt.Sprintf("single values from %s to %s", number(all.low, 1), number(all.high, 1))
}

// beyond marks samples outside the frame with a filled arrowhead at its edge, one a column.
func (s stripLayout) beyond(c draw.Canvas, series StripSeries, a axis, frame vg.Rectangle) {
	last := [2]vg.Length{-10, -10}
	for i, v := range series.Value {
		if !finite(v) || v >= a.low && v <= a.high {
			continue
		}
		edge, way, side := frame.Max.Y, vg.Length(1), 0
		if v < a.low {
			edge, way, side = frame.Min.Y, -1, 1
		}
		x := s.x(series.Time[i])
		if x-last[side] < 3 {
			continue
		}
		last[side] = x
		c.FillPolygon(limitInk, []vg.Point{{X: x, Y: edge + 4*way}, {X: x - 3, Y: edge - 2*way}, {X: x + 3, Y: edge - 2*way}})
	}
}
