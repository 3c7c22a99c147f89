package plots

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// StallOrderData shows for one case (loading, surface state, scale) which surface lets go first: section lift
// against section maximum along foreplane and wing, and the total lift of both against angle of attack.
//
// The margin is the angle at which the first wing station reaches its maximum minus the angle at which the
// foreplane's total lift stops rising: positive when the foreplane lets go first and the nose drops by itself.
type StallOrderData struct {
	Case      string   // such as "full size, aft CG, clean"; heads the figure
	Alpha     float64  // rad; the angle of attack of the two section frames: the wing's first station at its maximum
	Margin    Interval // rad; a Value NaN with one finite bound says "by more than"
	Foreplane StallSurface
	Wing      StallSurface
}

// StallSurface is a foreplane or a wing near its stall.
type StallSurface struct {
	Name        string    // empty: "foreplane" or "wing"
	Station     []float64 // m from the plane of symmetry, rising
	SectionLift []float64 // section lift coefficient at the angle of the figure
	Maximum     []float64 // greatest section lift coefficient at each station's Reynolds number and deflection
	Critical    *CriticalStation
	Lift        Curve    // angle of attack [rad] in X, total lift coefficient on the wing's reference area in Y
	Event       Interval // rad; foreplane: total lift stops rising; wing: first station at its maximum
}

// CriticalStation is the station of a surface that reaches its maximum first.
type CriticalStation struct {
	Station float64 // m from the plane of symmetry, within the stations of the surface
	Alpha   float64 // rad; the angle at which it reaches its maximum
}

// StallOrder draws the two section frames on one scale, the maximum as a limit, the critical stations ringed,
// and below them lift against angle of attack with both events. The title says the margin in degrees and words.
//
// It returns ErrNoData without stations, and an error when data are broken or when the margin is not the
// difference of the two events.
func StallOrder(d StallOrderData) (Figure, error) {
	title := stallTitle(d.Case, d.Margin)
	d.Foreplane.Name, d.Wing.Name = or(d.Foreplane.Name, "foreplane"), or(d.Wing.Name, "wing")
	if err := d.check(); err != nil {
		return Figure{}, fmt.Errorf("plots: stall order, %s: %w", d.Case, err)
	}
	head := header{title: title, note: d.note(), key: []keyEntry{
		lineKey("section lift", sectionMark(), false),
		limitKey("section maximum, hatched side not reached"),
		ringKey("station that reaches its maximum first"),
	}}
	rows := []panelRow{{panels: d.sections(), shares: []float64{0.42, 0.58}}}
	if len(d.Foreplane.Lift.X)+len(d.Wing.Lift.X) > 0 {
		rows = append(rows, panelRow{panels: []curvePanel{d.lifts()}, shares: []float64{1}})
	}
	return compose(title, d.words(), paintRows(head, rows))
}

func sectionMark() mark { return markOf(disc{}, ink, measuredBand, 1.6) }

func ringKey(words string) keyEntry {
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		ring(c, ink, vg.Point{X: x + keySample/2, Y: y}, 5)
	}}
}

func (d StallOrderData) check() error {
	if !finite(d.Alpha) {
		return fmt.Errorf("angle of attack %g; want a finite number of radians", d.Alpha)
	}
	if err := d.Margin.check(); err != nil {
		return fmt.Errorf("margin: %w", err)
	}
	for _, s := range []StallSurface{d.Foreplane, d.Wing} {
		if err := s.check(); err != nil {
			return fmt.Errorf("%s: %w", s.Name, err)
		}
	}
	difference := d.Wing.Event.Value - d.Foreplane.Event.Value
	if d.Margin.determined() && !(math.Abs(difference-d.Margin.Value)*degrees <= 0.05) {
		return fmt.Errorf("margin %s°, but the events lie %s° apart (wing %s°, foreplane %s°); want the wing's angle minus the foreplane's",
			number(d.Margin.Value*degrees, 2), number(difference*degrees, 2), number(d.Wing.Event.Value*degrees, 2), number(d.Foreplane.Event.Value*degrees, 2))
	}
	return nil
}

func (s StallSurface) check() error {
	if len(s.Station) == 0 {
		return ErrNoData
	}
	if err := checkSeries("stations, section lift and maximum", s.Station, s.SectionLift, s.Maximum); err != nil {
		return err
	}
	if err := checkRising("station", s.Station); err != nil {
		return err
	}
	if c := s.Critical; c != nil {
		first, last := s.Station[0], s.Station[len(s.Station)-1]
		if !finite(c.Alpha) || !(c.Station >= first && c.Station <= last) {
			return fmt.Errorf("critical station %g m at %g rad; want a station between %g and %g m and a finite angle", c.Station, c.Alpha, first, last)
		}
	}
	if err := s.Event.check(); err != nil {
		return fmt.Errorf("event: %w", err)
	}
	if err := s.Lift.check("lift curve"); err != nil {
		return err
	}
	if err := checkRising("lift curve: angle", s.Lift.X); err != nil {
		return err
	}
	if len(s.Lift.X) > 0 && s.Event.determined() && (s.Event.Value < s.Lift.X[0]-1e-9 || s.Event.Value > s.Lift.X[len(s.Lift.X)-1]+1e-9) {
		return errors.New("the event lies outside the lift curve; want a curve that reaches it")
	}
	return nil
}

// sections are the frames of section lift against section maximum, on one scale of lift.
func (d StallOrderData) sections() []curvePanel {
	y := emptySpan()
	y.add(0)
	for _, s := range []StallSurface{d.Foreplane, d.Wing} {
		y.add(s.SectionLift...)
		y.add(s.Maximum...)
	}
	y.add(y.high + 0.12*y.length())
	var out []curvePanel
	for _, s := range []StallSurface{d.Foreplane, d.Wing} {
		out = append(out, s.sections(d.Alpha, niceAxis("section lift coefficient cl, pure number", y, 6)))
	}
	return out
}

func (s StallSurface) sections(alpha float64, y axis) curvePanel {
	x := emptySpan()
	x.add(0)
	x.add(s.Station...)
	lift, most := Curve{X: s.Station, Y: s.SectionLift}, Curve{X: s.Station, Y: s.Maximum}
	p := curvePanel{title: capital(s.Name) + " at " + number(alpha*degrees, 1) + "°", x: niceAxis("distance from the plane of symmetry, m", x, 5), y: y}
	p.things = []plot.Plotter{ceiling{most}, lineOf{lift, sectionMark()}}
	if len(s.Station) == 1 {
		p.things = append(p.things, pointsOf{lift.X, lift.Y, sectionMark(), 2.4}, pointsOf{most.X, most.Y, markOf(block{}, limitInk, measuredBand, 1), 2.4})
	}
	t := tags{avoid: []Curve{lift, most}}
	if c := s.Critical; c != nil {
		at := spot{c.Station, between(lift, c.Station)}
		p.things = append(p.things, pick{at, ink}, spoken{[]float64{at.x}, []float64{at.y}, func(int) string {
			return said("reaches its maximum first, at "+number(c.Alpha*degrees, 1)+"°", s.Name, "station "+number(c.Station, 2)+" m")
		}})
		t.keep = []spot{at}
		t.items = append(t.items, tag{words: number(c.Station, 2) + " m first, at " + number(c.Alpha*degrees, 1) + "°", spots: []spot{at}, ink: ink, bold: true})
	}
	t.items = append(t.items,
		tag{words: "maximum", spots: curveSpots(most, 0.3), ink: limitInk},
		tag{words: "section lift", spots: curveSpots(lift, 0.7), ink: ink})
	p.things = append(p.things, t, spokenCurve(lift, s.said("section lift coefficient", alpha)), spokenCurve(most, s.said("section maximum", alpha)))
	return p
}

func (s StallSurface) said(quantity string, alpha float64) func(float64, Interval) string {
	return func(x float64, y Interval) string {
		return said(quantity+" "+computed(y, 2), s.Name+" at "+number(alpha*degrees, 1)+"°", "station "+number(x, 2)+" m")
	}
}

// between reads a curve with rising X at x by straight lines.
func between(c Curve, x float64) float64 {
	for i := 1; i < len(c.X); i++ {
		if x <= c.X[i] {
			f := (x - c.X[i-1]) / (c.X[i] - c.X[i-1])
			return c.Y[i-1] + math.Max(0, f)*(c.Y[i]-c.Y[i-1])
		}
	}
	return c.Y[len(c.Y)-1]
}

// ceiling draws a limit that changes along the frame; above it is not allowed.
type ceiling struct{ curve Curve }

// Plot draws the hatched curve, cut to the frame.
func (l ceiling) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	var pts []vg.Point
	for i := range l.curve.X {
		pts = append(pts, vg.Point{X: tx(l.curve.X[i]), Y: ty(l.curve.Y[i])})
	}
	if len(pts) < 2 {
		return
	}
	for _, line := range c.ClipLinesXY(pts) {
		hatchedPath(c, line, vg.Point{Y: 1})
	}
}
