package plots

import (
	"fmt"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// steps draws the intervals of a configuration after each number of flights, and strokes at the foot for its own flights.
type steps struct {
	series   TimelineSeries
	look     mark
	lane, of int // which of the panel's configurations it is
	decimals int
	unit     string
	none     string  // what a number is that has none
	floor    float64 // below it are the strokes
}

// Plot draws the band from step to step, the intervals over it and the strokes.
func (s steps) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	foot := c.Min.Y + 2 + 7*vg.Length(s.lane)
	for _, own := range s.series.Own {
		x := tx(float64(own))
		c.StrokeLine2(draw.LineStyle{Color: s.look.ink, Width: 2}, x, foot, x, foot+5)
		note(c, vg.Point{X: x, Y: foot + 2.5}, fmt.Sprintf("flight %d was of %s", own, s.series.Name))
	}
	inner := c
	inner.Rectangle.Min.Y = ty(s.floor) // numbers stay above the strokes
	band := Curve{}
	for i, n := range s.series.Flights {
		interval := s.series.Interval[i]
		if !interval.determined() {
			continue
		}
		band.X, band.Y = append(band.X, float64(n)), append(band.Y, interval.Value)
		band.Low, band.High = append(band.Low, interval.Low), append(band.High, interval.High)
	}
	look := s.look
	look.line.Width = 0.9 // the band stays light: it only leads the eye from one number of flights to the next
	above := *p
	above.Y.Min = s.floor
	bandOf{curve: band, look: look}.Plot(inner, &above)
	aside := vg.Length(0)
	if s.of > 1 {
		aside = 2.2 * (2*vg.Length(s.lane) - 1)
	}
	small := s.look
	small.size = 2.6
	for i, n := range s.series.Flights {
		x := tx(float64(n)) + aside
		if s.series.Interval[i].beyond() {
			top := inner.Max.Y
			inner.FillPolygon(s.look.ink, []vg.Point{{X: x, Y: top}, {X: x - 3.4, Y: top - 6}, {X: x + 3.4, Y: top - 6}})
			note(c, vg.Point{X: x, Y: top - 3}, fmt.Sprintf("%s, %s: %s", s.series.Name, flightsUsed(n), s.series.Interval[i].told(s.decimals, s.none)))
			continue
		}
		drawUpright(inner, small, s.series.Interval[i], x, ty)
		if v := s.series.Interval[i].place(); finite(v) && inner.ContainsY(ty(v)) {
			note(c, vg.Point{X: x, Y: ty(v)}, fmt.Sprintf("%s, %s: %s%s", s.series.Name, flightsUsed(n), s.series.Interval[i].told(s.decimals, s.none), s.unit))
		}
	}
}
