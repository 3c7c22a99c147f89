package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// stripPlaces is how many places of a channel say their numbers.
const stripPlaces = 13

// speakSeries puts points on a channel at even times, at the sample nearest to each.
func (s stripLayout) speakSeries(c draw.Canvas, p StripPanel, series StripSeries, y func(float64) vg.Length) {
	if len(series.Time) == 0 {
		return
	}
	name := p.Name
	if p.Left != nil || len(p.Series) > 1 {
		name += ", " + or(series.Name, "measured")
	}
	values := emptySpan()
	values.add(series.Value...)
	decimals := decimalsFor([]Interval{{values.low, values.low, values.low + values.length()/10}})
	first, last := series.Time[0], series.Time[len(series.Time)-1]
	k := 0
	for place := range stripPlaces {
		wanted := first + (last-first)*float64(place)/(stripPlaces-1)
		for k+1 < len(series.Time) && math.Abs(series.Time[k+1]-wanted) <= math.Abs(series.Time[k]-wanted) {
			k++
		}
		if v := series.Value[k]; finite(v) {
			note(c, vg.Point{X: s.x(series.Time[k]), Y: y(v)}, said(measure(number(v, decimals), p.Unit), name, number(series.Time[k], 2)+" s"))
		}
	}
}

// speakLanes puts points on findings and manoeuvres, above the first frame; y is the upper edge of the lanes.
func (s stripLayout) speakLanes(c draw.Canvas, y vg.Length) {
	if len(s.Findings) > 0 {
		for _, f := range s.Findings {
			what := "something to know"
			if f.Loss {
				what = "something is lost"
			}
			s.speakStretch(c, y-findingLane/2, what, f.From, f.To)
		}
		y -= findingLane
	}
	for _, n := range s.names {
		s.speakStretch(c, y-vg.Length(n.lane+1)*manoeuvreLane+1, n.Name, n.From, n.To)
	}
}

// speakPoints puts points on the upper edge of a frame, at the middle of each test point.
func (s stripLayout) speakPoints(c draw.Canvas, frame vg.Rectangle) {
	for _, p := range s.Points {
		what := "test point, dropped"
		if p.Kept {
			what = "test point, kept"
		}
		s.speakStretch(c, frame.Max.Y-1.2, what, p.From, p.To)
	}
}

// speakStretch puts a point at the middle of a stretch of time.
func (s stripLayout) speakStretch(c draw.Canvas, y vg.Length, what string, from, to float64) {
	if finite(from) && finite(to) {
		x := (s.x(math.Max(from, s.time.low)) + s.x(math.Min(to, s.time.high))) / 2
		note(c, vg.Point{X: x, Y: y}, said(fmt.Sprintf("%s to %s s", number(from, 1), number(to, 1)), what))
	}
}
