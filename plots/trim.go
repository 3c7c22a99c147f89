package plots

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// TrimCrossingData shows where the trim slope dδe/dCL crosses zero: the neutral point.
type TrimCrossingData struct {
	Title                string  // empty: "Where the trim slope crosses zero"
	MeanChord            float64 // m, full size; 0 leaves percentages out
	MeanChordLeadingEdge float64 // m aft of datum
	Panels               []TrimPanel
}

// TrimPanel is one configuration. CG is in full-size metres aft of datum, Slope (one a CG) in radians per
// unit lift coefficient, Line holds CG in X and slope in Y.
type TrimPanel struct {
	Configuration string
	CG            []float64
	Slope         []Interval
	Sample        Sample // what the slopes rest on
	Line          Curve
	NeutralPoint  Interval // m aft of datum; NotDetermined where the set is unbounded
	Predicted     *float64 // neutral point of the lattice, m aft of datum
}

// TrimCrossing draws dδe/dCL at each CG with its interval and the line through them, and marks on the
// zero line the neutral point with its interval. A foreplane needs more nose-up elevator for more lift when
// stable, so the slope is positive ahead of the neutral point and falls through zero at it.
//
// A panel without slopes says so; no panels at all is ErrNoData.
func TrimCrossing(d TrimCrossingData) (Figure, error) {
	title := or(d.Title, "Where the trim slope crosses zero")
	if len(d.Panels) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	x, y := emptySpan(), emptySpan()
	y.add(0)
	var slopes, points []Interval
	for _, p := range d.Panels {
		if err := p.check(); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, p.Configuration, err)
		}
		x.add(p.CG...)
		x.add(p.NeutralPoint.Value)
		if p.Predicted != nil {
			x.add(*p.Predicted)
		}
		points = append(points, p.NeutralPoint)
		for _, s := range p.Slope {
			y.add(s.Value * degrees)
			slopes = append(slopes, s.scaled(degrees))
		}
	}
	x.reach(points)
	x.add(x.low-0.06*x.length(), x.high+0.06*x.length())
	y.reach(slopes)
	y.add(-0.12 * y.length()) // room below zero for the neutral point
	var panels []curvePanel
	var alt strings.Builder
	for _, p := range d.Panels {
		panels = append(panels, p.panel(d, x, y))
		fmt.Fprintf(&alt, "%s: %s. ", p.Configuration, strings.Join(p.notes(d), "; "))
	}
	key := []keyEntry{
		pointAndBar("measured at one CG, 95 % interval"),
		lineKey("fit with 95 % band", fitMark(), true),
		intervalKey("neutral point, 95 % interval", anchoredMark()),
		{words: "neutral point by theory", sample: func(c draw.Canvas, x, y vg.Length) {
			predictedMark().glyph.DrawGlyph(&c, draw.GlyphStyle{Color: predictedInk, Radius: 3.4}, vg.Point{X: x + keySample/2, Y: y})
		}},
	}
	head := header{title: title, note: "Above zero the aircraft is stable at that centre of gravity; where the line meets zero lies the neutral point.", key: key}
	return compose(title, alt.String(), paintTiles(head, 2, panels))
}

func pointAndBar(words string) keyEntry {
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		drawUpright(c, measuredMark(), Interval{Value: 0, Low: -1, High: 1}, x+keySample/2, func(v float64) vg.Length { return y + 6*vg.Length(v) })
	}}
}

func (p TrimPanel) check() error {
	if err := checkSeries("CG", p.CG); err != nil {
		return err
	}
	if len(p.CG) != len(p.Slope) {
		return fmt.Errorf("%d CG positions and %d slopes; want one slope a CG", len(p.CG), len(p.Slope))
	}
	for i, s := range p.Slope {
		if err := s.check(); err != nil {
			return fmt.Errorf("slope %d: %w", i+1, err)
		}
	}
	if p.Predicted != nil && !finite(*p.Predicted) {
		return fmt.Errorf("predicted neutral point is %g; want a finite number", *p.Predicted)
	}
	if err := p.NeutralPoint.check(); err != nil {
		return fmt.Errorf("neutral point: %w", err)
	}
	return p.Line.check("line")
}

// notes gives the neutral point in metres and in percent of the mean aerodynamic chord.
func (p TrimPanel) notes(d TrimCrossingData) []string {
	if len(p.CG) == 0 {
		return []string{"neutral point not determined: no trim slopes measured"}
	}
	out := []string{"neutral point " + p.NeutralPoint.words(3)}
	sample := p.Sample.words()
	if p.NeutralPoint.determined() {
		out[0] += " m aft of datum"
		if d.MeanChord > 0 {
			percent := func(x float64) float64 { return 100 * (x - d.MeanChordLeadingEdge) / d.MeanChord }
			i := Interval{percent(p.NeutralPoint.Value), percent(p.NeutralPoint.Low), percent(p.NeutralPoint.High)}
			out = append(out, "that is "+i.words(1)+" % of the mean chord")
		}
	}
	if p.Predicted != nil {
		theory := "theory " + number(*p.Predicted, 3) + " m" + p.behind()
		out = append(out, theory)
	}
	if sample != "" {
		out = append(out, sample)
	}
	return out
}

// behind says how far theory lies from the flights.
func (p TrimPanel) behind() string {
	if !p.NeutralPoint.determined() {
		return ""
	}
	d := *p.Predicted - p.NeutralPoint.Value
	way := "aft"
	if d < 0 {
		way = "forward"
	}
	return ", " + number(math.Abs(d), 3) + " m farther " + way
}

func (p TrimPanel) panel(d TrimCrossingData, x, y span) curvePanel {
	out := curvePanel{
		title: p.Configuration, notes: p.notes(d),
		x: niceAxis("centre of gravity, m aft of datum (full size)", x, 5),
		y: niceAxis("elevator per unit lift coefficient dδe/dCL, degrees", y, 6),
	}
	line := p.Line.scaled(1, degrees)
	slopes := make([]Interval, len(p.Slope))
	for i, s := range p.Slope {
		slopes[i] = s.scaled(degrees)
	}
	out.things = []plot.Plotter{
		bandOf{line, fitMark()},
		level{plain: true},
		lineOf{line, fitMark()},
		uprights{p.CG, slopes, measuredMark()},
		crossing{&p.NeutralPoint, p.Predicted},
		spokenCurve(line, func(x float64, y Interval) string {
			return said(measure("fit "+y.words(1), slopeUnit), p.Configuration, "CG "+number(x, 3)+" m")
		}),
		spokenUprights{p.CG, slopes, func(i int) string {
			return said(measure("measured "+slopes[i].words(1), slopeUnit), p.Configuration, "CG "+number(p.CG[i], 3)+" m")
		}},
		spokenCrossing{p},
	}
	if len(p.CG) == 0 {
		out.empty = "no trim slopes measured"
		out.things = []plot.Plotter{level{plain: true}, crossing{nil, p.Predicted}, spokenCrossing{p}}
	}
	return out
}

const slopeUnit = "° per unit lift coefficient"

// spokenCrossing lets the neutral points say their numbers.
type spokenCrossing struct{ TrimPanel }

// Plot keeps a point at each neutral point.
func (s spokenCrossing) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	if len(s.CG) > 0 {
		note(c, vg.Point{X: lay(s.NeutralPoint, tx, c).middle(), Y: ty(0)}, said("neutral point by flights "+measure(s.NeutralPoint.words(3), "m aft of datum"), s.Configuration))
	}
	if s.Predicted != nil {
		note(c, vg.Point{X: tx(*s.Predicted), Y: ty(0)}, said("neutral point by theory "+number(*s.Predicted, 3)+" m aft of datum", s.Configuration))
	}
}

// crossing marks the neutral point with its interval on the zero line.
type crossing struct {
	at        *Interval // nil draws none
	predicted *float64
}

// Plot draws the mark; an interval without ends runs to the frame as arrows.
func (n crossing) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	if n.at != nil {
		drawInterval(c, anchoredMark(), lay(*n.at, tx, c), ty(0))
	}
	if n.predicted != nil && !math.IsNaN(*n.predicted) {
		predictedMark().glyph.DrawGlyph(&c, draw.GlyphStyle{Color: predictedInk, Radius: 3.4}, vg.Point{X: tx(*n.predicted), Y: ty(0)})
	}
}
