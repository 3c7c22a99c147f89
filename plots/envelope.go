package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// EnvelopeData is mass against CG at full size, with what bounds the CG. Masses are in kg, stations in m aft of datum.
type EnvelopeData struct {
	Title         string // empty: "Mass and centre of gravity at full size"
	Note          string
	Configuration string // that the limits belong to

	MeanChord            float64 // m; 0: no second axis in percent
	MeanChordLeadingEdge float64 // m aft of datum

	Loadings  []EnvelopeLoading
	Burns     []EnvelopeBurn
	Limits    []EnvelopeLimit
	GrossMass float64 // 0: not stated
	RowMass   float64 // at which the limits of the rows hold, kg
	Rows      []EnvelopeRow
}

// EnvelopeLoading is one loading with its stated error; an interval that is its own value has none.
type EnvelopeLoading struct {
	Name     string
	CG, Mass Interval
}

// EnvelopeBurn is how mass and CG move while the fuel of a loading burns, full first.
type EnvelopeBurn struct {
	Loading  string
	CG, Mass []float64
}

// EnvelopeLimit is where a limit is reached: the CG may not lie behind (Aft), or ahead of, CG[i] at Mass[i].
type EnvelopeLimit struct {
	Name     string
	Aft      bool
	CG, Mass []float64
}

// EnvelopeRow is what else stands on the axis of one configuration: its neutral point, where its own limits are reached (NaN: nowhere), and
// the CGs that its flights had, at full size.
type EnvelopeRow struct {
	Configuration string
	NeutralPoint  Interval
	Forward, Aft  float64
	Flown         []float64
}

// Envelope draws mass against CG: loadings with their errors, fuel that burns, the limits of one configuration hatched on the side that is not
// allowed, and below, on the same axis, neutral point, limits and CGs flown of every configuration.
//
// It returns ErrNoData without loadings.
func Envelope(d EnvelopeData) (Figure, error) {
	title := or(d.Title, "Mass and centre of gravity at full size")
	if err := d.check(); err != nil {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, err)
	}
	head := header{title: title, note: d.Note, key: d.key()}
	return compose(title, d.words(), func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		top, paintHead := head.place(width)
		e := newEnvelope(d, width)
		return top + e.height() + edge, func(c draw.Canvas) {
			paintHead(c, c.Max.Y)
			e.paint(c, c.Max.Y-top)
		}
	})
}

func (d EnvelopeData) check() error {
	if len(d.Loadings) == 0 {
		return ErrNoData
	}
	for _, l := range d.Loadings {
		for _, i := range []Interval{l.CG, l.Mass} {
			if err := i.check(); err != nil || !i.determined() {
				return fmt.Errorf("loading %q: %w", l.Name, orError(err, "a mass and a CG are needed"))
			}
		}
	}
	for _, b := range d.Burns {
		if err := checkSeries("fuel of "+b.Loading, b.CG, b.Mass); err != nil {
			return err
		}
	}
	for _, l := range d.Limits {
		if err := checkSeries("limit "+l.Name, l.CG, l.Mass); err != nil {
			return err
		}
	}
	for _, r := range d.Rows {
		if err := r.NeutralPoint.check(); err != nil {
			return fmt.Errorf("neutral point of %s: %w", r.Configuration, err)
		}
		if err := checkSeries("CGs flown with "+r.Configuration, r.Flown); err != nil {
			return err
		}
	}
	return nil
}

func orError(err error, words string) error {
	if err != nil {
		return err
	}
	return fmt.Errorf("%s", words)
}

// Looks of what only this figure has.
func loadingMark() mark { return markOf(hoop{}, ink, measuredBand, 1.1) }

func burnLine() draw.LineStyle {
	return draw.LineStyle{Color: fourthInk, Width: 1.3, Dashes: []vg.Length{2, 2.5}}
}

// hoop is an open circle with a white heart.
type hoop struct{}

// DrawGlyph draws the circle.
func (hoop) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, p vg.Point) {
	disc{}.DrawGlyph(c, draw.GlyphStyle{Color: s.Color, Radius: 1.25 * s.Radius}, p)
	disc{}.DrawGlyph(c, draw.GlyphStyle{Color: paper, Radius: 0.75 * s.Radius}, p)
}

func (d EnvelopeData) key() []keyEntry {
	key := []keyEntry{intervalKey("loading, 95 % interval", loadingMark())}
	if len(d.Burns) > 0 {
		key = append(key, keyEntry{words: "its fuel burning to empty tanks", sample: func(c draw.Canvas, x, y vg.Length) {
			c.StrokeLine2(burnLine(), x, y, x+keySample, y)
		}})
	}
	if len(d.Limits) > 0 {
		key = append(key, limitKey("limit holds with 95 % up to here, hatched side not allowed"))
	}
	if len(d.Rows) > 0 {
		key = append(key, intervalKey("neutral point", anchoredMark()))
	}
	for _, r := range d.Rows {
		if len(r.Flown) > 0 {
			key = append(key, pointKey("CG flown with the model", measuredMark()))
			break
		}
	}
	return key
}

// envelope is the figure laid out at a width: an upper frame over mass, a lower one with a row for each configuration, on one axis.
type envelope struct {
	data  EnvelopeData
	width vg.Length
	x, y  axis
}

const (
	envelopeGutter vg.Length = 40  // for the masses at the left
	envelopeHeight vg.Length = 250 // of the upper frame
	envelopeTop    vg.Length = 38  // for its labels and the axis in percent
	envelopeRow    vg.Length = 27  // of a configuration: its name and its line
)

func newEnvelope(d EnvelopeData, width vg.Length) envelope {
	x, y := emptySpan(), emptySpan()
	for _, l := range d.Loadings {
		x.add(l.CG.Low, l.CG.High, l.CG.Value)
		y.add(l.Mass.Low, l.Mass.High, l.Mass.Value)
	}
	for _, b := range d.Burns {
		x.add(b.CG...)
		y.add(b.Mass...)
	}
	if d.GrossMass > 0 {
		y.add(d.GrossMass)
	}
	y.add(y.low-0.05*y.length(), y.high+0.05*y.length())
	core := x
	for _, l := range d.Limits { // limits that lie far off are told in words
		for i, m := range l.Mass {
			if m >= y.low && m <= y.high && math.Abs(l.CG[i]-(core.low+core.high)/2) < 1.4*core.length() {
				x.add(l.CG[i])
			}
		}
	}
	for _, r := range d.Rows {
		x.add(r.NeutralPoint.Value, r.NeutralPoint.Low, r.NeutralPoint.High)
		x.add(r.Flown...)
	}
	x.add(x.low-0.03*x.length(), x.high+0.03*x.length())
	inside := width - 2*edge - envelopeGutter
	return envelope{data: d, width: width, x: exact(niceAxis("centre of gravity, m aft of datum", x, max(3, int(inside/60))), x),
		y: niceAxis("mass, kg", y, 6)}
}

// exact cuts an axis to a span, with the ticks inside.
func exact(a axis, s span) axis {
	a.low, a.high = s.low, s.high
	var ticks []plot.Tick
	for _, t := range a.ticks {
		if t.Value >= s.low && t.Value <= s.high {
			ticks = append(ticks, t)
		}
	}
	a.ticks = ticks
	return a
}

func (e envelope) height() vg.Length {
	h := envelopeTop + envelopeHeight + axisHeight
	if n := len(e.data.Rows); n > 0 {
		h += 16 + vg.Length(n)*envelopeRow
	}
	return h
}

// paint draws both frames downwards from y.
func (e envelope) paint(c draw.Canvas, y vg.Length) {
	left, right := c.Min.X+edge+envelopeGutter, c.Max.X-edge
	upper := c
	upper.Rectangle = vg.Rectangle{Min: vg.Point{X: left, Y: y - envelopeTop - envelopeHeight}, Max: vg.Point{X: right, Y: y - envelopeTop}}
	e.paintUpper(upper)
	lower := c
	lower.Rectangle = vg.Rectangle{Min: vg.Point{X: left, Y: y - e.height()}, Max: vg.Point{X: right, Y: upper.Min.Y}}
	e.paintLower(lower)
}
