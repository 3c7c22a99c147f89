package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// StripChartData is a recording as a strip chart: what was measured over time, one panel below the other, with what was
// found in it.
type StripChartData struct {
	Title      string
	Note       string // a sentence below the title; may be empty
	Panels     []StripPanel
	Points     []StripPoint
	Findings   []StripFinding
	Manoeuvres []StripManoeuvre

	light bool // as StripDrawing draws
}

// StripPanel is one frame. Its first series is drawn thin and black, its second broad and orange; more are refused.
type StripPanel struct {
	Name   string
	Unit   string // of the values as they are given; empty for a pure number
	Series []StripSeries
	Left   *StripSeries // what a fit leaves of the first series, drawn below the frame about a line of zero; nil for none
}

// StripSeries is one channel: Time in s, rising, and Value, of one length. A value that is not finite, or a pause that is much
// longer than the usual step, breaks the line.
type StripSeries struct {
	Name        string // needed where a panel has two
	Time, Value []float64
}

// StripPoint is a stretch that became a test point, kept or dropped.
type StripPoint struct {
	From, To float64 // s
	Kept     bool
}

// StripFinding is something wrong in the recording.
type StripFinding struct {
	From, To float64 // s
	Loss     bool    // something is lost over this time; else it is only told
}

// StripManoeuvre names a stretch.
type StripManoeuvre struct {
	From, To float64 // s
	Name     string
}

// StripChart draws a recording over time: panels on one time axis, stretches that became test points shaded (kept: filled, with a
// bar on top; dropped: hatched), findings as bars along the top, manoeuvres named below them.
//
// Each column of the drawing shows the least and the greatest value that fall on it, so that no sample is hidden however many there
// are; values so far out that the rest would be crushed are drawn at the edge of the frame, with their size in words.
//
// It returns ErrNoData without a panel that has two samples.
func StripChart(d StripChartData) (Figure, error) {
	d, err := d.ready()
	if err != nil {
		return Figure{}, err
	}
	return compose(d.Title, d.alt(), d.layout())
}

// StripChartPNG is the Picture of StripChart.
func StripChartPNG(d StripChartData) ([]byte, error) {
	f, err := StripChart(d)
	if err != nil {
		return nil, err
	}
	return f.Picture()
}

// ready checks the data and leaves out panels without samples.
func (d StripChartData) ready() (StripChartData, error) {
	if d.Title = clean(d.Title); d.Title == "" {
		d.Title = "Recording"
	}
	wrong := func(format string, values ...any) error {
		return fmt.Errorf("plots: %s: "+format, append([]any{d.Title}, values...)...)
	}
	var panels []StripPanel
	for _, p := range d.Panels {
		if len(p.Series) > 2 {
			return d, wrong("panel %q has %d series, and a strip holds two at most", p.Name, len(p.Series))
		}
		samples := 0
		for _, s := range p.all() {
			if len(s.Time) != len(s.Value) {
				return d, wrong("panel %q: %d times and %d values", p.Name, len(s.Time), len(s.Value))
			}
			for i, t := range s.Time {
				if !finite(t) || i > 0 && !(t > s.Time[i-1]) {
					return d, wrong("panel %q: time number %d does not rise", p.Name, i+1)
				}
			}
			samples = max(samples, len(s.Time))
		}
		if samples > 1 {
			panels = append(panels, p)
		}
	}
	for _, p := range d.Points {
		if !finite(p.From) || !finite(p.To) {
			return d, wrong("a test point from %g to %g s", p.From, p.To)
		}
	}
	if d.Panels = panels; len(panels) == 0 {
		return d, fmt.Errorf("plots: %s: %w", d.Title, ErrNoData)
	}
	return d, nil
}

// all are the series of a panel with what is left below them.
func (p StripPanel) all() []StripSeries {
	if p.Left == nil {
		return p.Series
	}
	return append(slices.Clone(p.Series), *p.Left)
}

// span is the time that the panels cover.
func (d StripChartData) span() span {
	s := emptySpan()
	for _, p := range d.Panels {
		for _, series := range p.Series {
			if n := len(series.Time); n > 0 {
				s.add(series.Time[0], series.Time[n-1])
			}
		}
	}
	return s
}

// alt says what the chart shows.
func (d StripChartData) alt() string {
	time := d.span()
	said := []string{fmt.Sprintf("Recording from %s to %s s.", number(time.low, 0), number(time.high, 0))}
	for _, p := range d.Panels {
		for _, s := range p.all() {
			values := emptySpan()
			values.add(s.Value...)
			if !values.empty() {
				said = append(said, fmt.Sprintf("%s: %s to %s %s.", strings.TrimSpace(p.Name+" "+s.Name), number(values.low, 1), number(values.high, 1), p.Unit))
			}
		}
	}
	kept := 0
	for _, p := range d.Points {
		if p.Kept {
			kept++
		}
	}
	losses := 0
	for _, f := range d.Findings {
		if f.Loss {
			losses++
		}
	}
	if len(d.Points)+len(d.Findings) > 0 {
		said = append(said, fmt.Sprintf("%d test points kept, %d dropped; %d findings, %d of them losses.", kept, len(d.Points)-kept, len(d.Findings), losses))
	}
	var names []string
	for _, m := range d.Manoeuvres {
		if !finite(m.From) {
			continue
		}
		names = append(names, fmt.Sprintf("%s at %s s", clean(m.Name), number(m.From, 0)))
	}
	if len(names) > 0 {
		said = append(said, "Manoeuvres: "+strings.Join(names, ", ")+".")
	}
	return strings.ReplaceAll(strings.Join(said, " "), " .", ".")
}

// longestStep is the longest pause that a line still bridges: five usual steps, at least half a second.
func longestStep(times []float64) float64 {
	if len(times) < 2 {
		return math.Inf(1)
	}
	usual := (times[len(times)-1] - times[0]) / float64(len(times)-1)
	return math.Max(0.5, 5*usual)
}
