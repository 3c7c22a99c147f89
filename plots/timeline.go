package plots

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// TimelineData is how judged numbers became known flight by flight.
type TimelineData struct {
	Title   string // empty: "What the flights told, flight by flight"
	Note    string // a sentence below the title: samples, what is left out
	Flights int    // all flights that count
	Panels  []TimelinePanel
}

// TimelinePanel is one judged number.
type TimelinePanel struct {
	Name   string // of the limit, in plain words
	Where  string // at which loading or station; may be empty
	Unit   string // "-" and "" are pure numbers
	None   string // what a number is that has none, an interval whose low end is +Inf; empty: "endless"
	Limits []Limit
	Series []TimelineSeries // one or two
}

// TimelineSeries is one configuration: at Flights[i] flights, 0 for theory alone, the number was Interval[i]. Flights rise. Own are the places
// of this configuration's flights among all, from 1.
type TimelineSeries struct {
	Name     string
	Flights  []int
	Interval []Interval
	Own      []int
}

// Timeline draws a frame for each judged number: its 95 % interval against the number of flights used, over the limit. Short strokes at
// the foot mark which of the flights were of the configuration itself.
//
// It returns ErrNoData without panels or with a panel that has no steps.
func Timeline(d TimelineData) (Figure, error) {
	title := or(d.Title, "What the flights told, flight by flight")
	if len(d.Panels) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	var panels []curvePanel
	var words []string
	for _, p := range d.Panels {
		if err := p.check(d.Flights); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, p.Name, err)
		}
		panels = append(panels, p.panel(d.Flights))
		words = append(words, p.words())
	}
	head := header{title: title, note: d.Note, key: d.key()}
	return compose(title, d.finding()+sentenceOf(d.Note)+strings.Join(words, " "), paintTiles(head, 2, panels))
}

func (p TimelinePanel) check(flights int) error {
	if len(p.Series) == 0 || len(p.Series) > 2 {
		return fmt.Errorf("%d configurations, want one or two: %w", len(p.Series), ErrNoData)
	}
	for _, s := range p.Series {
		if len(s.Flights) == 0 {
			return fmt.Errorf("%s: %w", s.Name, ErrNoData)
		}
		if len(s.Flights) != len(s.Interval) {
			return fmt.Errorf("%s: %d numbers of flights and %d intervals; want one length", s.Name, len(s.Flights), len(s.Interval))
		}
		for i, interval := range s.Interval {
			if s.Flights[i] < 0 || s.Flights[i] > flights || i > 0 && s.Flights[i] <= s.Flights[i-1] {
				return fmt.Errorf("%s: %d flights at number %d; want rising numbers from 0 to %d", s.Name, s.Flights[i], i+1, flights)
			}
			if err := interval.check(); err != nil {
				return fmt.Errorf("%s, %d flights: %w", s.Name, s.Flights[i], err)
			}
		}
	}
	return checkLimits(p.Name, p.Limits)
}

func (d TimelineData) key() []keyEntry {
	limits, second := false, false
	var own bool
	for _, p := range d.Panels {
		limits = limits || len(p.Limits) > 0
		second = second || len(p.Series) > 1
		for _, s := range p.Series {
			own = own || len(s.Own) > 0
		}
	}
	key := []keyEntry{uprightKey(or(d.first(), "at full size")+", 95 % interval", timelineMark(0))}
	if second {
		key = append(key, uprightKey("the combination that is tightest there", timelineMark(1)))
	}
	if own {
		key = append(key, keyEntry{words: "flight of that combination itself", sample: func(c draw.Canvas, x, y vg.Length) {
			for i := range 3 {
				at := x + keySample*vg.Length(i+1)/4
				c.StrokeLine2(draw.LineStyle{Color: timelineMark(0).ink, Width: 2}, at, y-4, at, y+4)
			}
		}})
	}
	if limits {
		key = append(key, limitKey("limit, hatched side not allowed"))
	}
	return key
}

// first is the configuration that every panel shows, else empty.
func (d TimelineData) first() string {
	name := d.Panels[0].Series[0].Name
	for _, p := range d.Panels {
		if p.Series[0].Name != name {
			return ""
		}
	}
	return name
}

// timelineMark tells the two configurations of a panel apart: anchored beliefs both, the second one open and finely dashed.
func timelineMark(i int) mark {
	if i == 0 {
		return anchoredMark()
	}
	return markOf(triangle{}, fourthInk, fourthBand, 1.6, 2, 2.5)
}

// uprightKey shows an upright interval of a mark.
func uprightKey(words string, m mark) keyEntry {
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		c.Rectangle = vg.Rectangle{Min: vg.Point{X: x, Y: y - 7}, Max: vg.Point{X: x + keySample, Y: y + 7}}
		drawUpright(c, m, Interval{Value: 0, Low: -1, High: 1}, x+keySample/2, func(v float64) vg.Length { return y + vg.Length(v)*6.5 })
	}}
}

const timelineHeight vg.Length = 122

// lanes is the share of a frame's height below the numbers, for the strokes of own flights.
const lanes = 0.15

func (p TimelinePanel) panel(flights int) curvePanel {
	y := niceAxis(or(unitWords(p.Unit), "pure number"), p.reach(), 4)
	floor := y.low
	y.low -= lanes * (y.high - y.low)
	panel := curvePanel{title: capital(p.Name), notes: p.notes(y), x: flightsAxis(flights), y: y, height: timelineHeight}
	panel.things = append(panel.things, level{limit: Limit{Value: floor}, plain: true})
	for _, l := range p.Limits {
		if l.Value >= floor && l.Value <= y.high {
			panel.things = append(panel.things, level{limit: l})
		}
	}
	decimals := p.decimals()
	for i := len(p.Series) - 1; i >= 0; i-- {
		panel.things = append(panel.things, steps{series: p.Series[i], look: timelineMark(i), lane: i, of: len(p.Series), decimals: decimals, unit: unitAfter(p.Unit), none: p.None, floor: floor})
	}
	return panel
}

func (p TimelinePanel) decimals() int {
	var all []Interval
	for _, s := range p.Series {
		all = append(all, s.Interval...)
	}
	return decimalsFor(all)
}

// reach is what the frame must hold: the numbers, as much of their intervals as leaves the others legible, and the limits that are near.
func (p TimelinePanel) reach() span {
	var all []Interval
	y := emptySpan()
	for _, s := range p.Series {
		all = append(all, s.Interval...)
	}
	for _, i := range all {
		y.add(i.place())
	}
	y.reach(all)
	if y.empty() { // no number at all
		for _, l := range p.Limits {
			y.add(0, l.Value)
		}
		if y.empty() {
			y.add(0, 1)
		}
	}
	const near = 1.5 // lengths of what the numbers take
	low, high := y.low-near*y.length(), y.high+near*y.length()
	for _, l := range p.Limits {
		if l.Value >= low && l.Value <= high {
			y.add(l.Value)
		}
	}
	for _, l := range p.Limits {
		if l.Value >= low && l.Value <= high {
			y.add(l.Value-0.03*y.length(), l.Value+0.03*y.length()) // a limit never stands on the frame
		}
	}
	return y
}

// notes say the limits, which of them lie beyond the frame, where the number was judged, and which configuration is tightest.
func (p TimelinePanel) notes(y axis) []string {
	var limits, out []string
	for _, l := range p.Limits {
		words := l.bound() + unitAfter(p.Unit)
		switch {
		case l.Value > y.high:
			words += " (above the frame)"
		case l.Value < y.low:
			words += " (below the frame)"
		}
		limits = append(limits, words)
	}
	if len(limits) > 0 {
		out = append(out, "limit: "+strings.Join(limits, ", "))
	}
	if p.Where != "" {
		out = append(out, p.Where)
	}
	if len(p.Series) > 1 {
		out = append(out, "tightest: "+p.Series[1].Name)
	}
	return out
}

// flightsAxis counts flights from none to all.
func flightsAxis(flights int) axis {
	most := math.Max(1, float64(flights))
	a := niceAxis("flights used", span{0, most}, min(6, max(1, flights)))
	a.low, a.high = -0.045*most, 1.045*most
	var ticks []plot.Tick
	for _, t := range a.ticks {
		if t.Value == math.Round(t.Value) && t.Value >= 0 && t.Value <= a.high {
			ticks = append(ticks, plot.Tick{Value: t.Value, Label: number(t.Value, 0)})
		}
	}
	a.ticks = ticks
	return a
}
