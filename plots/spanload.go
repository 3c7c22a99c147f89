package plots

import (
	"fmt"
	"strings"
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
