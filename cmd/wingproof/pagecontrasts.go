package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// contrastFigures draw what each size of a choice costs and gains at every limit and built part, the other choices at their settled or
// baseline size. A choice with one size, or without a limit that its size changes, has no figure.
func contrastFigures(st *study.Study, choice program.Choice) ([]plots.Figure, error) {
	if len(choice.Levels) < 2 {
		return nil, nil
	}
	others := settledLevels(st)
	delete(others, choice.Name)
	contrasts, err := st.Contrasts(choice.Name, others)
	if err != nil {
		return nil, err
	}
	figure, drawn, err := contrastFigure(st, choice, others, contrasts)
	if !drawn || err != nil {
		return nil, err
	}
	return []plots.Figure{figure}, nil
}

// contrastFigure draws the contrasts of one choice; false where no limit changes with its size.
func contrastFigure(st *study.Study, choice program.Choice, others map[string]string, contrasts []decide.Contrast) (plots.Figure, bool, error) {
	data, drawn := contrastData(st, choice, others, contrasts)
	if !drawn {
		return plots.Figure{}, false, nil
	}
	figure, err := plots.Contrasts(data)
	return figure, true, err
}

// contrastData lays out the contrasts of one choice; false where no limit changes with its size.
func contrastData(st *study.Study, choice program.Choice, others map[string]string, contrasts []decide.Contrast) (plots.ContrastsData, bool) {
	data := plots.ContrastsData{Choice: choice.Name, Baseline: choice.Baseline}
	var same, unbound []string
	for _, name := range limitNames(contrasts) {
		as, known := judged(st, contrasts[0].Against, name)
		if !known {
			continue
		}
		switch limit, changes := contrastLimit(as, contrasts); {
		case limit.Bound.Name == "":
			unbound = append(unbound, limit.Name)
		case !changes:
			same = append(same, limit.Name)
		default:
			data.Limits = append(data.Limits, limit)
		}
	}
	data.Note = "Differences at full size, " + restingOn(st) + "; errors that both sizes share have dropped out."
	if len(others) > 0 {
		data.Note = "With " + plainConfiguration(evidence.Name(others)) + ". " + data.Note
	}
	if len(same) > 0 {
		data.Note += " Not drawn, the same for every " + choice.Name + ": " + strings.Join(same, ", ") + "."
	}
	if len(unbound) > 0 {
		data.Note += " Not drawn, without a bound: " + strings.Join(unbound, ", ") + "."
	}
	return data, len(data.Limits) > 0
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

// contrastLimit gathers one limit, as it is judged with the baseline, over the sizes; false where the sizes make no difference to it. A number
// that is endless or never reached stands in words, and so does what is set against it.
func contrastLimit(as decide.LimitVerdict, contrasts []decide.Contrast) (plots.ContrastLimit, bool) {
	unit, factor := limitUnit(as)
	out := plots.ContrastLimit{Name: plainLimit(as), Unit: unit}
	var base decide.Range
	for _, x := range contrasts {
		if x.Limit == as.Limit && x.Difference == nil {
			base, out.Baseline, out.Holds = x.Value, factor*x.Value.Median, holdsWords(x.Probability)
			if x.Bound != nil {
				out.Bound = plots.Limit{Name: "limit", Value: factor * *x.Bound, AtLeast: x.Binding == decide.BindsAtLeast}
			}
			if base.Endless() {
				out.Words = rangeWords(base, as.Unit, unit, factor)
			}
		}
	}
	changes := false
	for _, x := range contrasts {
		if x.Limit != as.Limit || x.Difference == nil {
			continue
		}
		d := *x.Difference
		changes = changes || (d.Low != 0 || d.High != 0) && !(base.AlwaysEndless() && x.Value.AlwaysEndless())
		level := plots.ContrastLevel{Level: x.Level, Holds: holdsWords(x.Probability), Difference: plots.Interval{Value: factor * d.Median, Low: factor * d.Low, High: factor * d.High}}
		if base.Endless() || x.Value.Endless() {
			level.Words, level.Difference = rangeWords(x.Value, as.Unit, unit, factor), plots.NotDetermined()
		}
		out.Levels = append(out.Levels, level)
	}
	return out, changes
}

// rangeWords says a judged number of an SI unit in the unit that people read, in words where there is no number.
func rangeWords(r decide.Range, si, unit string, factor float64) string {
	none := decide.EndlessWords(si)
	switch {
	case r.AlwaysEndless():
		return none
	case r.Endless():
		return fmt.Sprintf("%s (above %.3g %s)", none, factor*r.Low, unit)
	case math.IsInf(r.High, 1):
		return fmt.Sprintf("%.3g (above %.3g) %s", factor*r.Median, factor*r.Low, unit)
	}
	return fmt.Sprintf("%.3g (%.3g to %.3g) %s", factor*r.Median, factor*r.Low, factor*r.High, unit)
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
