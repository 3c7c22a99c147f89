package plots

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// SweepData is one quantity against a size that changes continuously, a line for each level of a second choice.
type SweepData struct {
	Title    string // empty: "QUANTITY against SIZE"
	Quantity string // plain words, such as "span efficiency"
	Unit     string // of the quantity; "-" for a pure number
	Size     string // such as "winglet height"
	SizeUnit string // such as "m"
	Lines    []SweepLine
	Limit    *Limit
	Baseline *SweepBaseline
}

// SweepLine is one level: size in X, rising, and quantity in Y, both in the units of the figure; Low and High
// hold the error of the discretisation.
type SweepLine struct {
	Level string
	Curve Curve
}

// SweepBaseline is where the baseline stands.
type SweepBaseline struct {
	Name        string // empty: "baseline"
	Size, Value float64
}

// Sweep draws a line with its band for each level, named at its end, the limit and the baseline.
//
// It returns ErrNoData without lines or with a line that has no points, and an error that says where when
// numbers are broken or sizes do not rise.
func Sweep(d SweepData) (Figure, error) {
	title := or(d.Title, capital(d.Quantity)+" against "+d.Size)
	if err := d.check(); err != nil {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, err)
	}
	head := header{title: title}
	for _, l := range d.Lines {
		if l.Curve.Low != nil {
			head.key = []keyEntry{lineKey("computed, with the error of the discretisation", seriesMark(0), true)}
		}
	}
	if d.Baseline != nil {
		head.key = append(head.key, ringKey(or(d.Baseline.Name, "baseline")))
	}
	if d.Limit != nil {
		head.key = append(head.key, limitKey("limit, hatched side not allowed"))
	}
	return compose(title, d.words(), func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		row := panelRow{panels: []curvePanel{d.panel(width)}, shares: []float64{1}}
		return paintRows(head, []panelRow{row})(width)
	})
}

func (d SweepData) check() error {
	if len(d.Lines) == 0 {
		return ErrNoData
	}
	for _, l := range d.Lines {
		if len(l.Curve.X) == 0 {
			return fmt.Errorf("%s: %w", l.Level, ErrNoData)
		}
		if err := l.Curve.check(l.Level); err != nil {
			return err
		}
		if err := checkRising(l.Level+": size", l.Curve.X); err != nil {
			return err
		}
	}
	if b := d.Baseline; b != nil {
		if err := checkSeries("baseline", []float64{b.Size, b.Value}); err != nil {
			return err
		}
	}
	if d.Limit != nil && !finite(d.Limit.Value) {
		return fmt.Errorf("limit %q is %g; want a finite number", d.Limit.Name, d.Limit.Value)
	}
	return nil
}

func (d SweepData) spans() (x, y span) {
	x, y = emptySpan(), emptySpan()
	var bands []Interval
	for _, l := range d.Lines {
		x.add(l.Curve.X...)
		y.add(l.Curve.Y...)
		for i := range l.Curve.Low {
			bands = append(bands, Interval{l.Curve.Y[i], l.Curve.Low[i], l.Curve.High[i]})
		}
	}
	if d.Baseline != nil {
		x.add(d.Baseline.Size)
		y.add(d.Baseline.Value)
	}
	if d.Limit != nil {
		y.add(d.Limit.Value)
	}
	y.reach(bands)
	if d.Limit != nil { // its words and its hatching never stand on the frame
		y.add(d.Limit.Value-0.08*y.length(), d.Limit.Value+0.08*y.length())
	}
	return x, y
}

func (d SweepData) panel(width vg.Length) curvePanel {
	x, y := d.spans()
	words := newPen(smallSize, true, ink)
	p := curvePanel{
		x:      niceAxis(withUnit(d.Size, d.SizeUnit), x, max(5, int(width/90))),
		y:      niceAxis(withUnit(d.Quantity, d.Unit), y, 6),
		height: max(plotHeight+30, vg.Length(len(d.Lines))*(words.line()+1)),
	}
	names := endNames{}
	t := tags{}
	if d.Limit != nil {
		p.things = append(p.things, level{limit: *d.Limit}, spokenLevel{measure(d.Limit.words(d.decimals()), d.Unit), d.Limit.Value})
		decimals := decimalsFor([]Interval{{d.Limit.Value, y.low, y.high}})
		t.items = append(t.items, tag{words: d.Limit.words(max(p.y.decimals, decimals)), ink: limitInk, bold: true, spots: limitSpots(p.x, d.Limit.Value)})
		t.avoid = append(t.avoid, Curve{X: []float64{p.x.low, p.x.high}, Y: []float64{d.Limit.Value, d.Limit.Value}})
	}
	for i, l := range d.Lines {
		look := seriesMark(i)
		p.things = append(p.things, bandOf{l.Curve, look}, lineOf{l.Curve, look}, pointsOf{l.Curve.X, l.Curve.Y, look, 2.2}, d.spoken(l))
		t.avoid = append(t.avoid, l.Curve)
		names.items = append(names.items, endName{l.Level, spot{l.Curve.X[len(l.Curve.X)-1], l.Curve.Y[len(l.Curve.Y)-1]}, look})
		p.margin = max(p.margin, words.width(clean(l.Level))+endLead)
	}
	p.margin = min(p.margin, 0.32*width)
	if b := d.Baseline; b != nil {
		p.things = append(p.things, pick{spot{b.Size, b.Value}, ink}, spoken{[]float64{b.Size}, []float64{b.Value}, func(int) string { return d.baselineWords() }})
		t.keep = []spot{{b.Size, b.Value}}
		t.items = append(t.items, tag{words: or(b.Name, "baseline"), ink: ink, bold: true, spots: []spot{{b.Size, b.Value}}})
	}
	names.room = p.margin
	p.things = append(p.things, names, t)
	return p
}

// limitSpots are places along a limit for its words.
func limitSpots(x axis, at float64) []spot {
	var out []spot
	for _, f := range []float64{0.2, 0.35, 0.5, 0.65, 0.8} {
		out = append(out, spot{x.low + f*(x.high-x.low), at})
	}
	return out
}

// withUnit joins a name and its unit for an axis.
func withUnit(name, unit string) string {
	if unit == "-" || unit == "" {
		unit = "pure number"
	}
	return strings.TrimPrefix(name+", "+unit, ", ")
}

// decimals are those that the narrowest error at the ends of the lines needs.
func (d SweepData) decimals() int {
	var all []Interval
	for _, l := range d.Lines {
		all = append(all, l.at(0), l.at(len(l.Curve.X)-1))
	}
	return decimalsFor(all)
}

// spoken lets every point of a line say its number.
func (d SweepData) spoken(l SweepLine) spoken {
	return spoken{l.Curve.X, l.Curve.Y, func(i int) string {
		return said(d.Quantity+" "+measure(l.at(i).words(d.decimals()), d.Unit), l.Level, d.Size+" "+measure(d.size(l.Curve.X[i]), d.SizeUnit))
	}}
}

func (d SweepData) baselineWords() string {
	b := d.Baseline
	return said(d.Quantity+" "+measure(number(b.Value, d.decimals()), d.Unit), or(b.Name, "baseline"), d.Size+" "+measure(d.size(b.Size), d.SizeUnit))
}

// words says each level's values at both ends and the baseline.
func (d SweepData) words() string {
	decimals := d.decimals()
	unit := unitAfter(d.Unit)
	var b strings.Builder
	for _, l := range d.Lines {
		first, last := l.at(0), l.at(len(l.Curve.X)-1)
		fmt.Fprintf(&b, "%s: %s%s at %s %s", l.Level, first.words(decimals), unit, d.size(l.Curve.X[0]), d.SizeUnit)
		if len(l.Curve.X) > 1 {
			fmt.Fprintf(&b, ", %s%s at %s %s", last.words(decimals), unit, d.size(l.Curve.X[len(l.Curve.X)-1]), d.SizeUnit)
		}
		b.WriteString(". ")
	}
	if d.Baseline != nil {
		fmt.Fprintf(&b, "%s: %s%s at %s %s. ", capital(or(d.Baseline.Name, "baseline")), number(d.Baseline.Value, decimals), unit, d.size(d.Baseline.Size), d.SizeUnit)
	}
	if d.Limit != nil {
		b.WriteString(d.Limit.words(decimals) + unit + ".")
	}
	return strings.TrimSpace(b.String())
}

// size writes a size with as many decimals as the ends of the sweep need.
func (d SweepData) size(x float64) string {
	var ends []Interval
	for _, l := range d.Lines {
		ends = append(ends, Interval{l.Curve.X[0], l.Curve.X[0], l.Curve.X[len(l.Curve.X)-1]})
	}
	return number(x, decimalsFor(ends)+1)
}

func unitAfter(unit string) string {
	if unitWords(unit) == "" {
		return ""
	}
	return " " + unit
}

func (l SweepLine) at(i int) Interval { return l.Curve.at(i) }
