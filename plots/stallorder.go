package plots

import (
	"errors"
	"fmt"
	"math"
	"strings"

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

// stallTitle heads a case with its finding.
func stallTitle(name string, margin Interval) string {
	if clean(name) == "" {
		return capital(stallWords(margin.scaled(degrees)))
	}
	return capital(name) + ": " + stallWords(margin.scaled(degrees))
}

// stallWords says a margin [degrees] in words; a margin whose interval holds both orders is not certain.
func stallWords(m Interval) string {
	switch {
	case !m.determined() && m.Low >= 0 && finite(m.Low):
		return "foreplane lets go first by more than " + number(m.Low, 1) + "°"
	case !m.determined() && m.High <= 0 && finite(m.High):
		return "WING FIRST by more than " + number(-m.High, 1) + "°"
	case !m.determined():
		return "which surface lets go first is not determined"
	}
	words := "foreplane lets go first"
	if m.Value < 0 {
		words = "WING FIRST"
	}
	by := " by " + number(math.Abs(m.Value), 1) + "°"
	if math.Abs(m.Value) < 0.05 {
		by = " by less than 0.1°"
	}
	if m.Low < 0 && m.High > 0 {
		return words + by + ", not certain"
	}
	return words + by
}

func sectionMark() mark { return markOf(disc{}, ink, measuredBand, 1.6) }

func ringKey(words string) keyEntry {
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		ring(c, ink, vg.Point{X: x + keySample/2, Y: y}, 5)
	}}
}

func (d StallOrderData) note() string {
	margin := "Margin " + marginWords(d.Margin.scaled(degrees))
	if d.Margin.determined() {
		margin += " degrees, 95 % interval"
	}
	return margin + ". Computed section by section: the real break is three-dimensional, and deep stall is not judged here."
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
		p.things = append(p.things, pick{at, ink})
		t.keep = []spot{at}
		t.items = append(t.items, tag{words: number(c.Station, 2) + " m first, at " + number(c.Alpha*degrees, 1) + "°", spots: []spot{at}, ink: ink, bold: true})
	}
	t.items = append(t.items,
		tag{words: "maximum", spots: curveSpots(most, 0.3), ink: limitInk},
		tag{words: "section lift", spots: curveSpots(lift, 0.7), ink: ink})
	p.things = append(p.things, t)
	return p
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
			event := s.Event.scaled(degrees)
			at := spot{event.Value, between(lift, event.Value)}
			p.things = append(p.things, passage{event.Value, draw.LineStyle{Color: look.ink, Width: 0.8, Dashes: []vg.Length{1, 2}}}, across{event, at.y, look})
			t.keep = append(t.keep, at)
			t.items = append(t.items, tag{words: eventWords(i) + " at " + number(event.Value, 1) + "°", spots: []spot{at}, ink: look.ink, bold: true})
		}
		t.items = append(t.items, tag{words: s.Name, spots: curveSpots(lift, 0.3), ink: look.ink})
	}
	p.things = append(p.things, t)
	return p
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

// words says the finding, the events and the critical stations.
func (d StallOrderData) words() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s; margin %s. ", capital(stallWords(d.Margin.scaled(degrees))), marginWords(d.Margin.scaled(degrees))+" degrees")
	for i, s := range []StallSurface{d.Foreplane, d.Wing} {
		fmt.Fprintf(&b, "%s: %s at %s degrees", capital(s.Name), []string{"total lift stops rising", "first station at its maximum"}[i], marginWords(s.Event.scaled(degrees)))
		if c := s.Critical; c != nil {
			fmt.Fprintf(&b, ", the station at %s m reaches its maximum first, at %s degrees", number(c.Station, 2), number(c.Alpha*degrees, 1))
		}
		b.WriteString(". ")
	}
	return strings.TrimSpace(b.String())
}
