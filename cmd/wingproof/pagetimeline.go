package main

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// timelineFigures draw how what limits judge became known flight by flight: of the settled or baseline combination, and of the one still
// possible that is tightest at a limit. What no flight tells of is named instead of drawn. Without a flight that counts, or without a
// limit, there is nothing to draw.
func timelineFigures(ctx context.Context, st *study.Study) ([]plots.Figure, error) {
	if len(st.Verdict.Configurations) == 0 || newestFlight(st) == "" {
		return nil, nil
	}
	base := evidence.Name(settledLevels(st))
	asked := append([]string{base}, tightestOf(st, base)...)
	line, err := st.Timeline(ctx, distinctNames(asked))
	if err != nil {
		return nil, err
	}
	data := timelineData(st, line, distinctNames(asked))
	if len(data.Panels) == 0 {
		return nil, nil
	}
	figure, err := plots.Timeline(data)
	return []plots.Figure{figure}, err
}

// tightestOf names for each limit the combination still possible that keeps it least surely; the given one where none does worse.
func tightestOf(st *study.Study, base string) []string {
	var out []string
	for k := range st.Verdict.Configurations[0].Limits {
		out = append(out, tightestAt(st, base, k))
	}
	return out
}

// tightestAt is that of one limit. Probabilities that differ by less than the draws can tell are equal, and where all are sure the room left
// over the width of the interval decides.
func tightestAt(st *study.Study, base string, limit int) string {
	name, least, ratio := base, math.Inf(1), math.Inf(1)
	better := func(l decide.LimitVerdict) bool {
		const told = 0.002
		return l.Probability < least-told || l.Probability < least+told && roomRatio(l) < ratio
	}
	for _, c := range st.Verdict.Configurations {
		if l := c.Limits[limit]; (c.Live || c.Configuration == base) && better(l) {
			name, least, ratio = c.Configuration, l.Probability, roomRatio(l)
		}
	}
	return name
}

// roomRatio is how many half widths of its 95 % interval a judged number lies inside the bound that binds, else inside the nearer one.
func roomRatio(l decide.LimitVerdict) float64 {
	ratio := math.Inf(1)
	if l.AtLeast != nil && l.Binding != decide.BindsAtMost {
		ratio = math.Min(ratio, l.Range().Room(*l.AtLeast, decide.BindsAtLeast))
	}
	if l.AtMost != nil && l.Binding != decide.BindsAtLeast {
		ratio = math.Min(ratio, l.Range().Room(*l.AtMost, decide.BindsAtMost))
	}
	return ratio
}

func distinctNames(names []string) []string {
	var out []string
	for _, name := range names {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// timelineData lays out a panel for each limit that flights tell of; names are those that the steps hold, the settled or baseline one first.
func timelineData(st *study.Study, line study.Timeline, names []string) plots.TimelineData {
	n := len(line.Flights)
	data := plots.TimelineData{Flights: n, Title: "What the flights told, flight by flight"}
	var untold []string
	for k, l := range line.Steps[len(line.Steps)-1].Limits[0] {
		if !toldByFlights(line, k) {
			untold = append(untold, plainLimit(l))
			continue
		}
		unit, factor := limitUnit(l)
		panel := plots.TimelinePanel{Name: plainLimit(l), Where: judgedAt(l.Where), Unit: unit, None: decide.EndlessWords(l.Unit), Limits: boundsOf(l, factor)}
		shown := distinctNames([]string{names[0], tightestAt(st, names[0], k)})
		for _, name := range shown {
			at := slices.Index(names, name)
			series := plots.TimelineSeries{Name: plainConfiguration(name)}
			for _, step := range line.Steps {
				series.Flights = append(series.Flights, step.Flights)
				series.Interval = append(series.Interval, judgedInterval(step.Limits[at][k], factor))
			}
			for i, f := range line.Flights {
				if f.Configuration == name {
					series.Own = append(series.Own, i+1)
				}
			}
			panel.Series = append(panel.Series, series)
		}
		data.Panels = append(data.Panels, panel)
	}
	data.Note = timelineNote(line, names[0], untold)
	return data
}

// toldByFlights tells whether a limit's number moves with the flights: of some combination at some step. The last step has more draws than
// the others: of several it is not compared, and after a single flight it must differ by more than the draws scatter.
func toldByFlights(line study.Timeline, limit int) bool {
	const scatter = 0.15 // of the width of the interval: five times what its ends scatter by
	steps, share := line.Steps, scatter
	if len(steps) > 2 {
		steps, share = steps[:len(steps)-1], 0
	}
	for _, step := range steps[1:] {
		for c := range step.Limits {
			a, b := steps[0].Limits[c][limit], step.Limits[c][limit]
			if slack := share * knownWidth(a); hasMoved(a.Median, b.Median, slack) || hasMoved(a.Low, b.Low, slack) || hasMoved(a.High, b.High, slack) {
				return true
			}
		}
	}
	return false
}

// hasMoved tells whether a number changed by more than the slack, or has become one or ceased to be one.
func hasMoved(a, b, slack float64) bool {
	if math.IsInf(a, 0) || math.IsInf(b, 0) {
		return a != b
	}
	return math.Abs(a-b) > slack
}

// knownWidth is the width of a judged range; of one without an end twice the distance to the end that it has, or that end alone.
func knownWidth(l decide.LimitVerdict) float64 {
	switch r := l.Range(); {
	case !math.IsInf(r.High, 1):
		return r.High - r.Low
	case !r.Endless():
		return 2 * (r.Median - r.Low)
	case !r.AlwaysEndless():
		return math.Abs(r.Low)
	}
	return 0
}

// timelineNote says what was counted and what is not drawn.
func timelineNote(line study.Timeline, base string, untold []string) string {
	own := 0
	for _, f := range line.Flights {
		if f.Configuration == base {
			own++
		}
	}
	n := len(line.Flights)
	note := fmt.Sprintf("At full size, with the first flights alone, by date: %s, %d of them with %s; 0 is theory alone, the last is the board.",
		counted(n, "flight"), own, plainConfiguration(base))
	if len(line.Steps) < n+1 {
		note += fmt.Sprintf(" Of %d numbers of flights %d are drawn.", n+1, len(line.Steps))
	}
	if len(untold) > 0 {
		note += " Not drawn, since no flight so far tells of it: " + strings.Join(untold, ", ") + "."
	}
	return note
}

// plainLimit is the name of a limit or built part as people say it.
func plainLimit(l decide.LimitVerdict) string {
	if l.Quantity == evidence.BendingRatio {
		return "load on the " + strings.ReplaceAll(l.Limit, "-", " ")
	}
	return l.Limit
}

// limitUnit is the unit that people read a judged number in, with the factor to it.
func limitUnit(l decide.LimitVerdict) (unit string, factor float64) {
	switch {
	case l.Quantity == evidence.BendingRatio:
		return "% of what the part carries", 100
	case l.Unit == "rad":
		return "degrees", degrees
	case l.Unit == "m/s":
		const knot = 1852.0 / 3600 // m/s, exact
		return "kt", 1 / knot
	case l.Unit == "1/rad":
		return "per radian", 1
	case l.Unit == "%" && (l.Quantity == evidence.StaticMargin || l.Quantity == evidence.FuelTravel):
		return "% of the mean chord", 1
	}
	return l.Unit, 1
}

// judgedAt says at which loading or station a number was judged; empty where it is judged at none.
func judgedAt(where string) string {
	switch {
	case where == "":
		return ""
	case strings.HasPrefix(where, "between "):
		return "judged " + where
	}
	return "judged at " + where
}

// boundsOf are the limits of a judged number in a unit with a factor.
func boundsOf(l decide.LimitVerdict, factor float64) []plots.Limit {
	var out []plots.Limit
	if l.AtLeast != nil {
		out = append(out, plots.Limit{Name: "limit", Value: factor * *l.AtLeast, AtLeast: true})
	}
	if l.AtMost != nil {
		out = append(out, plots.Limit{Name: "limit", Value: factor * *l.AtMost})
	}
	return out
}

// judgedInterval is a judged number in a unit with a factor. An endless time and a speed never reached have no end, and no value.
func judgedInterval(l decide.LimitVerdict, factor float64) plots.Interval {
	i := plots.Interval{Value: factor * l.Median, Low: factor * l.Low, High: factor * l.High}
	if l.Range().Endless() {
		i.Value = math.NaN()
	}
	return i
}
