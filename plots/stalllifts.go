package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// lifts is the frame of total lift against angle of attack with both events.
func (d StallOrderData) lifts() curvePanel {
	x, y := emptySpan(), emptySpan()
	y.add(0)
	var events []Interval
	for _, s := range []StallSurface{d.Foreplane, d.Wing} {
		x.add(times(s.Lift.X, degrees)...)
		x.add(s.Event.Value * degrees)
		y.add(s.Lift.Y...)
		if s.Event.determined() {
			events = append(events, s.Event.scaled(degrees))
		}
	}
	x.reach(events)
	y.add(y.high + 0.1*y.length())
	p := curvePanel{title: "Lift of both surfaces", height: 150, x: niceAxis("angle of attack, degrees", x, 10),
		y: niceAxis("lift coefficient on the wing's area, pure number", y, 5)}
	t := tags{}
	if d.Margin.determined() {
		from, to := d.Foreplane.Event.Value*degrees, d.Wing.Event.Value*degrees
		p.things = append(p.things, strip{from, to})
		t.items = append(t.items, tag{words: "margin " + number(d.Margin.Value*degrees, 1) + "°", ink: ink, bold: true, aside: 1,
			spots: []spot{{math.Max(from, to), p.y.low + 0.08*(p.y.high-p.y.low)}, {math.Min(from, to), p.y.low + 0.08*(p.y.high-p.y.low)}}})
	}
	for i, s := range []StallSurface{d.Foreplane, d.Wing} {
		lift, look := s.Lift.scaled(degrees, 1), liftMark(i)
		if len(lift.X) == 0 {
			continue
		}
		t.avoid = append(t.avoid, lift)
		p.things = append(p.things, bandOf{lift, look}, lineOf{lift, look})
		if s.Event.determined() {
			p.things = append(p.things, s.event(i, lift, &t)...)
		}
		p.things = append(p.things, spokenCurve(lift, func(x float64, y Interval) string {
			return said("lift coefficient "+computed(y, 3), s.Name, number(x, 1)+"°")
		}))
		t.items = append(t.items, tag{words: s.Name, spots: curveSpots(lift, 0.3), ink: look.ink})
	}
	p.things = append(p.things, t)
	return p
}

// event marks the event of surface i (0: foreplane) on its lift curve, in degrees.
func (s StallSurface) event(i int, lift Curve, t *tags) []plot.Plotter {
	event, look := s.Event.scaled(degrees), liftMark(i)
	at := spot{event.Value, between(lift, event.Value)}
	t.keep = append(t.keep, at)
	t.items = append(t.items, tag{words: eventWords(i) + " at " + number(event.Value, 1) + "°", spots: []spot{at}, ink: look.ink, bold: true})
	return []plot.Plotter{
		passage{event.Value, draw.LineStyle{Color: look.ink, Width: 0.8, Dashes: []vg.Length{1, 2}}},
		across{event, at.y, look},
		spoken{[]float64{at.x}, []float64{at.y}, func(int) string { return said(eventWords(i)+" at "+measure(event.words(1), "°"), s.Name) }},
	}
}

// strip shades a frame between two places; where the first lies behind the second it is dark.
type strip struct{ from, to float64 }

// Plot fills the strip.
func (s strip) Plot(c draw.Canvas, p *plot.Plot) {
	tx, _ := p.Transforms(&c)
	from, to := max(tx(s.from), c.Min.X), min(tx(s.to), c.Max.X)
	fill := measuredBand
	if s.to < s.from {
		fill = limitFill
	}
	c.FillPolygon(fill, []vg.Point{{X: from, Y: c.Min.Y}, {X: to, Y: c.Min.Y}, {X: to, Y: c.Max.Y}, {X: from, Y: c.Max.Y}})
}

func eventWords(i int) string {
	if i == 0 {
		return "lift stops rising"
	}
	return "first station at its maximum"
}

// liftMark tells foreplane (open diamond, dashed) from wing (filled circle, solid).
func liftMark(i int) mark {
	if i == 0 {
		return seriesMark(1)
	}
	return seriesMark(0)
}

// across draws a level interval in a frame.
type across struct {
	i    Interval
	y    float64
	look mark
}

// Plot draws the interval; ends beyond the frame are arrows.
func (a across) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	look := a.look
	look.line.Dashes = nil
	drawInterval(c, look, lay(a.i, tx, c), ty(a.y))
}
