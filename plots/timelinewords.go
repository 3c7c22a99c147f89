package plots

import (
	"fmt"
	"math"
	"strings"
)

// finding says which number the flights narrowed most and which least, of the first configuration of each panel.
func (d TimelineData) finding() string {
	most, least := -1, -1
	for k := range d.Panels {
		share := d.Panels[k].Series[0].narrowed()
		if math.IsNaN(share) {
			continue
		}
		if most < 0 || share < d.Panels[most].Series[0].narrowed() {
			most = k
		}
		if least < 0 || share > d.Panels[least].Series[0].narrowed() {
			least = k
		}
	}
	if most < 0 || d.Panels[least].Series[0].narrowed()-d.Panels[most].Series[0].narrowed() < 0.01 {
		return ""
	}
	say := func(k int) string {
		return fmt.Sprintf("%s, to %s %% of the width that theory alone leaves", d.Panels[k].Name, number(100*d.Panels[k].Series[0].narrowed(), 0))
	}
	return "The flights narrowed most " + say(most) + ", and least " + say(least) + ". "
}

// narrowed is the width of the last interval over that of the first; NaN where one has no ends.
func (s TimelineSeries) narrowed() float64 {
	first, last := s.Interval[0], s.Interval[len(s.Interval)-1]
	if len(s.Interval) < 2 || !first.Bounded() || !last.Bounded() || first.High == first.Low {
		return math.NaN()
	}
	return (last.High - last.Low) / (first.High - first.Low)
}

// bound says what a limit asks for, with as many decimals as it needs and four figures at most.
func (l Limit) bound() string {
	relation := "at most "
	if l.AtLeast {
		relation = "at least "
	}
	if l.Value == 0 {
		return relation + "0"
	}
	decimals := int(math.Max(0, math.Min(6, 3-math.Floor(math.Log10(math.Abs(l.Value))))))
	value := number(l.Value, decimals)
	if strings.Contains(value, ".") {
		value = strings.TrimRight(strings.TrimRight(value, "0"), ".")
	}
	return relation + value
}

// beyond tells of an interval all of which lies at no number: Low +Inf.
func (i Interval) beyond() bool { return math.IsInf(i.Low, 1) }

// told is words, and for a value without end what is known of it; none says what one is that has no number at all.
func (i Interval) told(decimals int, none string) string {
	switch {
	case i.beyond():
		return or(none, "endless")
	case !i.determined() && finite(i.Low):
		return "above " + number(i.Low, decimals)
	case !i.determined() && finite(i.High):
		return "below " + number(i.High, decimals)
	}
	return i.words(decimals)
}

// place is where an interval stands: its value, or the end that it has.
func (i Interval) place() float64 {
	switch {
	case i.determined():
		return i.Value
	case finite(i.Low):
		return i.Low
	}
	return i.High
}

// kept is verdict, also for a value without end.
func (l Limit) kept(i Interval) string {
	if !i.determined() && (finite(i.Low) || finite(i.High) || i.beyond()) {
		i.Value = i.place()
	}
	return l.verdict(i)
}

// flightsUsed says how many flights a number rests on.
func flightsUsed(n int) string {
	switch n {
	case 0:
		return "theory alone"
	case 1:
		return "1 flight"
	}
	return fmt.Sprintf("%d flights", n)
}

// unitOf is the unit behind an interval; behind a word none.
func (p TimelinePanel) unitOf(i Interval) string {
	if i.beyond() {
		return ""
	}
	return unitAfter(p.Unit)
}

// words says each configuration's interval from theory alone, and from all flights.
func (p TimelinePanel) words() string {
	decimals := p.decimals()
	var b strings.Builder
	for _, s := range p.Series {
		first, last := s.Interval[0], s.Interval[len(s.Interval)-1]
		fmt.Fprintf(&b, "%s, %s: %s %s%s", capital(p.Name), s.Name, flightsUsed(s.Flights[0]), first.told(decimals, p.None), p.unitOf(first))
		if len(s.Interval) > 1 {
			fmt.Fprintf(&b, ", with %s %s%s", flightsUsed(s.Flights[len(s.Flights)-1]), last.told(decimals, p.None), p.unitOf(last))
		}
		if share := s.narrowed(); finite(share) {
			fmt.Fprintf(&b, ", %s %% of the width", number(100*share, 0))
		}
		for _, l := range p.Limits {
			fmt.Fprintf(&b, "; limit: %s, %s", l.bound(), l.kept(last))
		}
		b.WriteString(". ")
	}
	return strings.TrimSpace(b.String())
}
