package plots

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot"
)

// SpanLoadData is the air load along the surfaces of one or several configurations in one flight condition.
type SpanLoadData struct {
	Title     string  // empty: "Load along the span"
	Condition string  // the flight condition in words, such as "1 g at 105 kt, aft CG, trimmed"; may be empty
	MeanChord float64 // m; one for all surfaces and series, so that their loads compare
	Series    []SpanLoadSeries
}

// SpanLoadSeries is one configuration.
type SpanLoadSeries struct {
	Configuration string
	Baseline      bool    // drawn beneath the others, light and dashed
	ForeplaneTip  float64 // m from the plane of symmetry, marked where it passes the wing; 0 marks none
	Surfaces      []SurfaceLoad
}

// SurfaceLoad is one surface strip by strip from the inboard to the outboard end; the slices share one length.
type SurfaceLoad struct {
	Surface     string
	OwnLength   bool      // Station runs along the surface from its own root (winglet, fin): a panel of its own
	Station     []float64 // m: from the plane of symmetry, or along the surface from its root; rising
	Chord       []float64 // m
	SectionLift []float64 // section lift coefficient cl; on a winglet positive inboard
	Error       []float64 // half width of the 95 % interval of SectionLift; nil: none stated
}

// sharedSeries is how many changed levels stay legible in one frame.
const sharedSeries = 3

// SpanLoad draws section lift coefficient times chord over mean chord (the shape of the load) and the section
// lift coefficient (how hard each section works): surfaces along the span share a frame, a winglet stands
// beside them along its own length. A baseline lies beneath; up to three other levels share a frame, more get
// a row each. The foreplane's tip is marked on the span, since the wing works in its downwash inboard of it
// and in its upwash outboard.
//
// It returns ErrNoData without series, surfaces or stations, and an error that says where when data are broken.
func SpanLoad(d SpanLoadData) (Figure, error) {
	title := or(d.Title, "Load along the span")
	if err := d.check(); err != nil {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, err)
	}
	var base, others []SpanLoadSeries
	for _, s := range d.Series {
		if s.Baseline {
			base = append(base, s)
		} else {
			others = append(others, s)
		}
	}
	groups := [][]SpanLoadSeries{others}
	if len(others) > sharedSeries {
		groups = nil
		for _, s := range others {
			groups = append(groups, []SpanLoadSeries{s})
		}
	}
	axes := d.axes()
	head := header{title: title, note: capital(sentenceOf(d.Condition)) + "Load: section lift times chord over the mean chord of " + number(d.MeanChord, 3) + " m."}
	for _, s := range base {
		head.key = append(head.key, lineKey(s.Configuration+" (baseline)", baselineMark(), s.stated()))
	}
	var rows []panelRow
	for _, g := range groups {
		name := ""
		if len(groups) > 1 {
			name = g[0].Configuration
		}
		rows = append(rows, axes.rows(name, base, g)...)
		for i, s := range g {
			if len(groups) == 1 {
				head.key = append(head.key, curveAndPoints(s.Configuration, spanMark(i, len(g)), s.stated()))
			}
		}
	}
	if len(groups) > 1 {
		head.key = append(head.key, curveAndPoints("the configuration named above its frames", spanMark(0, 1), false))
	}
	return compose(title, d.words(), paintRows(head, rows))
}

// spanMark is the look of series i of n that are not the baseline.
func spanMark(i, n int) mark {
	if n == 1 {
		m := changedMark()
		m.line.Width = 1.8
		return m
	}
	return seriesMark(i)
}

func (s SpanLoadSeries) stated() bool {
	for _, surface := range s.Surfaces {
		if surface.Error != nil {
			return true
		}
	}
	return false
}

func (d SpanLoadData) check() error {
	if len(d.Series) == 0 {
		return ErrNoData
	}
	if !finite(d.MeanChord) || d.MeanChord <= 0 {
		return fmt.Errorf("mean chord %g m; want a positive number", d.MeanChord)
	}
	for _, s := range d.Series {
		if !finite(s.ForeplaneTip) || s.ForeplaneTip < 0 {
			return fmt.Errorf("%s: foreplane tip at %g m; want its distance from the plane of symmetry, or 0 for none", s.Configuration, s.ForeplaneTip)
		}
		if len(s.Surfaces) == 0 {
			return fmt.Errorf("%s: %w", s.Configuration, ErrNoData)
		}
		for _, surface := range s.Surfaces {
			if err := surface.check(); err != nil {
				return fmt.Errorf("%s, %s: %w", s.Configuration, surface.Surface, err)
			}
		}
	}
	return nil
}

func (s SurfaceLoad) check() error {
	if len(s.Station) == 0 {
		return ErrNoData
	}
	if err := checkSeries("stations, chords and section lift", s.Station, s.Chord, s.SectionLift); err != nil {
		return err
	}
	if err := checkRising("station", s.Station); err != nil {
		return err
	}
	for i, c := range s.Chord {
		if c < 0 {
			return fmt.Errorf("chord %d is %g m; want none below 0", i+1, c)
		}
	}
	if s.Error == nil {
		return nil
	}
	if err := checkSeries("section lift and its error", s.SectionLift, s.Error); err != nil {
		return err
	}
	for i, e := range s.Error {
		if e < 0 {
			return fmt.Errorf("error %d is %g; want a half width of 0 or more", i+1, e)
		}
	}
	return nil
}

// checkRising makes sure that numbers rise, so that a swapped pair is said and not drawn as a loop.
func checkRising(what string, values []float64) error {
	for i := 1; i < len(values); i++ {
		if values[i] <= values[i-1] {
			return fmt.Errorf("%s %d is %g after %g; want each greater than the one before", what, i+1, values[i], values[i-1])
		}
	}
	return nil
}

// sectionLift is cl over the station, load the same times chord over mean chord.
func (s SurfaceLoad) sectionLift() Curve { return s.weighted(func(int) float64 { return 1 }) }

func (s SurfaceLoad) load(meanChord float64) Curve {
	return s.weighted(func(i int) float64 { return s.Chord[i] / meanChord })
}

func (s SurfaceLoad) weighted(by func(int) float64) Curve {
	c := Curve{X: s.Station}
	for i, cl := range s.SectionLift {
		c.Y = append(c.Y, by(i)*cl)
		if s.Error != nil {
			c.Low, c.High = append(c.Low, by(i)*(cl-s.Error[i])), append(c.High, by(i)*(cl+s.Error[i]))
		}
	}
	return c
}

// words says where each surface carries and works most.
func (d SpanLoadData) words() string {
	var b strings.Builder
	b.WriteString(sentenceOf(d.Condition))
	for _, s := range d.Series {
		name := s.Configuration
		if s.Baseline {
			name += " (baseline)"
		}
		fmt.Fprintf(&b, "%s: ", name)
		for _, surface := range s.Surfaces {
			load, lift := surface.load(d.MeanChord), surface.sectionLift()
			i, k := greatest(load.Y), greatest(lift.Y)
			fmt.Fprintf(&b, "%s greatest load %s at %s m, greatest section lift %s at %s m; ", surface.Surface,
				number(load.Y[i], 2), number(load.X[i], 2), number(lift.Y[k], 2), number(lift.X[k], 2))
		}
		if s.ForeplaneTip > 0 {
			fmt.Fprintf(&b, "the foreplane's tip passes at %s m; ", number(s.ForeplaneTip, 2))
		}
	}
	return strings.TrimRight(b.String(), "; ") + "."
}

// sentenceOf closes words with a full stop and a space; no words stay none.
func sentenceOf(words string) string {
	words = strings.TrimRight(clean(words), ". ")
	if words == "" {
		return ""
	}
	return words + ". "
}

func greatest(values []float64) int {
	best := 0
	for i, v := range values {
		if v > values[best] {
			best = i
		}
	}
	return best
}

// spanAxes are the scales that all frames of the figure share.
type spanAxes struct {
	data       SpanLoadData
	own        []string // surfaces with a frame of their own, in order of appearance
	spanwise   bool     // some surface runs along the span
	span       span
	load, lift span
}

func (d SpanLoadData) axes() spanAxes {
	a := spanAxes{data: d, span: emptySpan(), load: emptySpan(), lift: emptySpan()}
	a.span.add(0)
	a.load.add(0)
	a.lift.add(0)
	seen := map[string]bool{}
	for _, s := range d.Series {
		for _, surface := range s.Surfaces {
			load, lift := surface.load(d.MeanChord), surface.sectionLift()
			a.load.add(append(append(append([]float64{}, load.Y...), load.Low...), load.High...)...)
			a.lift.add(append(append(append([]float64{}, lift.Y...), lift.Low...), lift.High...)...)
			switch {
			case !surface.OwnLength:
				a.span.add(surface.Station...)
				a.spanwise = true
			case !seen[surface.Surface]:
				seen[surface.Surface] = true
				a.own = append(a.own, surface.Surface)
			}
		}
		if s.ForeplaneTip > 0 {
			a.span.add(s.ForeplaneTip)
		}
	}
	a.load.add(a.load.high + 0.15*a.load.length()) // room for the words on the foreplane's tip
	a.lift.add(a.lift.high + 0.15*a.lift.length())
	return a
}

// rows are the two rows of frames, load above section lift, for the series drawn together.
func (a spanAxes) rows(name string, base, series []SpanLoadSeries) []panelRow {
	var out []panelRow
	for _, load := range []bool{true, false} {
		var r panelRow
		if a.spanwise {
			r.panels = append(r.panels, a.panel(name, "", load, base, series))
		}
		for _, own := range a.own {
			r.panels = append(r.panels, a.panel(name, own, load, base, series))
		}
		out = append(out, r)
	}
	if len(out[0].panels) == 1 {
		out = []panelRow{{panels: []curvePanel{out[0].panels[0], out[1].panels[0]}}}
	}
	for i := range out {
		out[i].shares = spanShares(len(out[i].panels), a.spanwise && len(a.own) > 0)
	}
	return out
}

// spanShares gives the span more room than the surfaces beside it.
func spanShares(n int, wideFirst bool) []float64 {
	shares := make([]float64, n)
	for i := range shares {
		shares[i] = 1 / float64(n)
	}
	if wideFirst {
		shares[0] = math.Max(0.5, 1-0.38*float64(n-1))
		for i := 1; i < n; i++ {
			shares[i] = (1 - shares[0]) / float64(n-1)
		}
	}
	return shares
}

// panel is one frame: the surfaces along the span (own empty) or one surface along its own length.
func (a spanAxes) panel(name, own string, load bool, base, series []SpanLoadSeries) curvePanel {
	p := curvePanel{title: own}
	if own == "" {
		p.title = "along the span"
	}
	if name == "" {
		p.title = capital(p.title)
	} else {
		p.title = name + ": " + p.title
	}
	p.y = niceAxis("section lift coefficient cl, pure number", a.lift, 6)
	if load {
		p.y = niceAxis("load c·cl over mean chord, pure number", a.load, 6)
	}
	across, label := a.span, "distance from the plane of symmetry, m"
	if own != "" {
		across, label = a.length(own), "distance along it from its root, m"
	}
	p.x = niceAxis(label, across, 5)
	p.things = []plot.Plotter{level{plain: true}}
	t := tags{}
	if own == "" {
		tips := foreplaneTips(base, series)
		p.things = append(p.things, tips.passages()...)
		p.notes = tips.notes()
		t.items = append(t.items, tips.tags(p.y.high-0.06*(p.y.high-p.y.low))...)
	}
	for _, s := range base {
		p.things = append(p.things, a.curves(s, own, load, baselineMark(), false, 0, &t)...)
	}
	for i, s := range series {
		p.things = append(p.things, a.curves(s, own, load, spanMark(i, len(series)), true, i, &t)...)
	}
	if own == "" {
		first := append(append([]SpanLoadSeries{}, series...), base...)[0]
		t.items = append(t.items, surfaceTags(first, load, a.data.MeanChord)...)
	}
	if len(t.avoid) == 0 {
		p.empty = "not in these configurations"
	}
	p.things = append(p.things, t)
	return p
}

func (a spanAxes) length(own string) span {
	s := emptySpan()
	s.add(0)
	for _, series := range a.data.Series {
		for _, surface := range series.Surfaces {
			if surface.OwnLength && surface.Surface == own {
				s.add(surface.Station...)
			}
		}
	}
	return s
}

// curves draws one series in one frame; glyphs of series i stand staggered so that they do not hide each other.
func (a spanAxes) curves(s SpanLoadSeries, own string, load bool, look mark, glyphs bool, i int, t *tags) []plot.Plotter {
	var out []plot.Plotter
	for _, surface := range s.Surfaces {
		if surface.OwnLength != (own != "") || (own != "" && surface.Surface != own) {
			continue
		}
		c := surface.sectionLift()
		if load {
			c = surface.load(a.data.MeanChord)
		}
		t.avoid = append(t.avoid, c)
		out = append(out, bandOf{c, look}, lineOf{c, look})
		if glyphs || len(c.X) == 1 {
			out = append(out, thinned(c, look, i))
		}
	}
	return out
}

// thinned picks about seven points of a curve for its glyphs, starting later for later series.
func thinned(c Curve, look mark, shift int) pointsOf {
	out := pointsOf{look: look, size: 2.4}
	step := max(1, len(c.X)/7)
	for i := min(shift*step/3, len(c.X)-1); i < len(c.X); i += step {
		out.x, out.y = append(out.x, c.X[i]), append(out.y, c.Y[i])
	}
	return out
}

// surfaceTags names the surfaces along the span at their curves.
func surfaceTags(s SpanLoadSeries, load bool, meanChord float64) []tag {
	var out []tag
	for _, surface := range s.Surfaces {
		if surface.OwnLength {
			continue
		}
		c := surface.sectionLift()
		if load {
			c = surface.load(meanChord)
		}
		out = append(out, tag{words: surface.Surface, spots: curveSpots(c, 0.55), ink: ink, bold: true})
	}
	return out
}
