package main

import (
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// contrastFigures draw, by choice, what each of its sizes costs and gains at every limit and built part, the other choices at their settled or
// baseline size. A choice with one size, or without a limit that its size changes, has no figure.
func contrastFigures(st *study.Study) (map[string][]plots.Figure, error) {
	out := map[string][]plots.Figure{}
	for _, choice := range st.Program.Choices {
		if len(choice.Levels) < 2 {
			continue
		}
		others := settledLevels(st)
		delete(others, choice.Name)
		contrasts, err := st.Contrasts(choice.Name, others)
		if err != nil {
			return nil, err
		}
		figure, drawn, err := contrastFigure(st, choice.Name, choice.Baseline, others, contrasts)
		if err != nil {
			return nil, err
		}
		if drawn {
			out[choice.Name] = []plots.Figure{figure}
		}
	}
	return out, nil
}

// contrastFigure draws the contrasts of one choice; false where no limit changes with its size.
func contrastFigure(st *study.Study, choice, baseline string, others map[string]string, contrasts []decide.Contrast) (plots.Figure, bool, error) {
	data := plots.ContrastsData{Choice: choice, Baseline: baseline}
	var same []string
	for _, name := range limitNames(contrasts) {
		limit, changes := contrastLimit(st, name, contrasts)
		if !changes {
			same = append(same, limit.Name)
			continue
		}
		data.Limits = append(data.Limits, limit)
	}
	if len(data.Limits) == 0 {
		return plots.Figure{}, false, nil
	}
	data.Note = "Differences at full size, " + restingOn(st) + "; errors that both sizes share have dropped out."
	if len(others) > 0 {
		data.Note = "With " + plainConfiguration(evidence.Name(others)) + ". " + data.Note
	}
	if len(same) > 0 {
		data.Note += " Not drawn, the same for every " + choice + ": " + strings.Join(same, ", ") + "."
	}
	figure, err := plots.Contrasts(data)
	return figure, true, err
}

// limitNames are the limits and built parts of contrasts, in their order.
func limitNames(contrasts []decide.Contrast) []string {
	var out []string
	for _, x := range contrasts {
		if x.Limit != "" && !slices.Contains(out, x.Limit) {
			out = append(out, x.Limit)
		}
	}
	return out
}

// contrastLimit gathers one limit over the sizes; false where the sizes make no difference to it.
func contrastLimit(st *study.Study, name string, contrasts []decide.Contrast) (plots.ContrastLimit, bool) {
	var out plots.ContrastLimit
	as, known := judged(st, contrasts[0].Against, name)
	if !known {
		return out, false
	}
	unit, factor := limitUnit(as)
	out.Name, out.Unit = plainLimit(as), unit
	changes := false
	for _, x := range contrasts {
		if x.Limit != name {
			continue
		}
		if x.Difference == nil {
			out.Baseline = factor * x.Value.Median
			out.Bound, out.Holds = nearerBound(as, x.Value.Median, factor), holdsWords(x.Probability)
			continue
		}
		d := *x.Difference
		changes = changes || d.Low != 0 || d.High != 0
		out.Levels = append(out.Levels, plots.ContrastLevel{Level: x.Level, Holds: holdsWords(x.Probability),
			Difference: plots.Interval{Value: factor * d.Median, Low: factor * d.Low, High: factor * d.High}})
	}
	return out, changes
}

// nearerBound is the bound of a limit that a value lies nearer to.
func nearerBound(l decide.LimitVerdict, value, factor float64) plots.Limit {
	bounds := boundsOf(l, factor)
	best := 0
	for i, b := range bounds {
		if math.Abs(b.Value-factor*value) < math.Abs(bounds[best].Value-factor*value) {
			best = i
		}
	}
	if len(bounds) == 0 {
		return plots.Limit{Value: math.NaN()}
	}
	return bounds[best]
}

// restingOn says what numbers at full size rest on.
func restingOn(st *study.Study) string {
	if newestFlight(st) == "" {
		return "from theory alone"
	}
	return "from theory and the flights together"
}

func holdsWords(p *float64) string {
	if p == nil {
		return ""
	}
	return decide.Surety(*p)
}
