package reduce

import (
	"cmp"
	"fmt"
	"slices"
	"sort"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// marked turns the hand marks into stretches. A mark that lies outside the recording, is too short, overlaps
// another or covers instants without samples becomes a finding instead, and so does one that leaves nothing out.
func (m *measurement) marked() (stretches []stretch, findings []flightlog.Finding) {
	taken := make([]bool, m.g.n)
	for _, mark := range m.context.Marks {
		if mark.Kind == LeaveOut {
			if mark.End < m.g.start || mark.Start > m.g.time(m.g.n-1) {
				findings = append(findings, flightlog.Finding{Severity: flightlog.Note, Start: mark.Start, End: mark.End,
					What:        fmt.Sprintf("the hand mark leaves nothing out: the recording holds %.1f to %.1f s", m.g.start, m.g.time(m.g.n-1)),
					Consequence: "every stretch is still looked at; correct the row of marks.csv"})
			}
			continue
		}
		if !mark.givesPoint() {
			continue // a manoeuvre, see withMarks
		}
		w := stretch{i: m.index(mark.Start), j: m.index(mark.End), marked: mark.Kind}
		if why := m.unusable(w, taken); why != "" {
			findings = append(findings, flightlog.Finding{Severity: flightlog.Loss, Start: mark.Start, End: mark.End,
				What: "the hand mark cannot be used: " + why, Consequence: "no test point from it; correct the row of marks.csv"})
			continue
		}
		for k := w.i; k < w.j; k++ {
			taken[k] = true
		}
		stretches = append(stretches, w)
	}
	return stretches, findings
}

// unusable says why a marked stretch gives no point; empty when it does.
func (m *measurement) unusable(w stretch, taken []bool) string {
	const least = 1.0 // s: fewer instants hold no trend
	if w.seconds() < least {
		return fmt.Sprintf("it holds %.1f s of the recording, at least %g s are needed", max(w.seconds(), 0), least)
	}
	for _, other := range m.context.Marks {
		if !other.givesPoint() && other.Start <= m.g.time(w.j-1) && other.End >= m.g.time(w.i) {
			return "it overlaps one that keeps test points out"
		}
	}
	if m.signals.barred[w.j] != m.signals.barred[w.i] {
		return "the model is on the ground in it, or samples are missing"
	}
	for k := w.i; k < w.j; k++ {
		if taken[k] {
			return "it overlaps another mark"
		}
	}
	return ""
}

// index is the grid index of an instant, held to the grid's ends.
func (m *measurement) index(t float64) int {
	return min(max(int((t-m.g.start)/gridStep+0.5), 0), m.g.n)
}

// leaveOut bars the instants that somebody marked to be left out, or as a manoeuvre that is no trim.
func leaveOut(barred []bool, g *grid, marks []Mark) {
	for _, mark := range marks {
		if mark.givesPoint() {
			continue
		}
		for i := range barred {
			barred[i] = barred[i] || (g.time(i) >= mark.Start && g.time(i) <= mark.End)
		}
	}
}

// onlyLeaveOut are the marks that leave everything out.
func onlyLeaveOut(marks []Mark) []Mark {
	var out []Mark
	for _, mark := range marks {
		if mark.Kind == LeaveOut {
			out = append(out, mark)
		}
	}
	return out
}

// withMarks puts the hand marks in the place of manoeuvres that were found: what a mark overlaps goes out, and unless it leaves the
// stretch out, it comes in as it stands, with the control and the size of one of its kind that was found there.
func withMarks(found []manoeuvre.Manoeuvre, marks []Mark, rec *flightlog.Recording) []manoeuvre.Manoeuvre {
	if len(marks) == 0 {
		return found
	}
	out := []manoeuvre.Manoeuvre{}
	overlaps := func(m manoeuvre.Manoeuvre, mark Mark) bool { return m.Start < mark.End && m.End > mark.Start }
	for _, m := range found {
		if !slices.ContainsFunc(marks, func(mark Mark) bool { return overlaps(m, mark) }) {
			out = append(out, m)
		}
	}
	for _, mark := range marks {
		if mark.Kind == LeaveOut {
			continue
		}
		by := manoeuvre.Manoeuvre{Kind: manoeuvre.Kind(mark.Kind)}
		for _, m := range found {
			if m.Kind == by.Kind && overlaps(m, mark) {
				by = m
				break
			}
		}
		by.Start, by.End, by.Detail = mark.Start, mark.End, "marked by hand as "+mark.Kind
		if v := meanBetween(rec.Channels[flightlog.Airspeed], mark.Start, mark.End); v > 0 {
			by.Airspeed = v
		}
		out = append(out, by)
	}
	slices.SortStableFunc(out, func(a, b manoeuvre.Manoeuvre) int { return cmp.Compare(a.Start, b.Start) })
	return out
}

// meanBetween is the mean of a channel's samples from one time to another; 0 when there are none.
func meanBetween(c flightlog.Channel, start, end float64) float64 {
	from := sort.SearchFloat64s(c.Time, start)
	to := sort.Search(len(c.Time), func(i int) bool { return c.Time[i] > end })
	if to <= from {
		return 0
	}
	return mean(c.Value[from:to])
}
