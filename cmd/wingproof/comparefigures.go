package main

import (
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/plots"
)

// compareFigures are the differences to the baseline, the load along the span and three views of each level over the baseline.
func compareFigures(r *comparison) ([]report.NamedFigure, error) {
	out, err := differenceFigures(r)
	if err != nil {
		return nil, err
	}
	base := &r.levels[0]
	data := plots.SpanLoadData{Title: "Load along the span, by " + r.choice.Name, Condition: r.condition.words(&base.solved), MeanChord: base.airframe.Reference.MeanChord}
	for i := range r.levels {
		l := &r.levels[i]
		data.Series = append(data.Series, levelSeries(r.choice, l.level, l.airframe, l.Solution.StripsAbout(l.State, r.condition.setup.CG)))
	}
	load, err := plots.SpanLoad(data)
	if err != nil {
		return nil, err
	}
	out = append(out, report.NamedFigure{Name: "span-load", Figure: load})
	for i := range r.levels[1:] {
		l := &r.levels[1+i]
		view, err := overView(r.study.Program, base.airframe, r.choice.Name+" "+base.level, l.airframe, r.choice.Name+" "+l.level)
		if err != nil {
			return nil, err
		}
		out = append(out, report.NamedFigure{Name: "three-view-" + l.level, Figure: view})
	}
	return out, nil
}

// differenceFigures are the differences to the baseline, and what decides at full size, limit by limit; none where there is no other level.
func differenceFigures(r *comparison) ([]report.NamedFigure, error) {
	if len(r.levels) < 2 {
		return nil, nil
	}
	differences, err := plots.LevelDifferences(r.differencesData())
	if err != nil {
		return nil, err
	}
	out := []report.NamedFigure{{Name: "differences", Figure: differences}}
	full, drawn, err := contrastFigure(r.study, r.choice, r.others, r.contrasts)
	if drawn {
		out = append(out, report.NamedFigure{Name: "full-size", Figure: full})
	}
	return out, err
}

// differencesData turns the differences into what is drawn: stations in percent of the mean chord, all else in percent of
// the baseline's value or as they are. A bar is the error of the theory that the levels do not share, together with that of the
// grid; the grid's alone would promise too much.
func (r *comparison) differencesData() plots.LevelDifferencesData {
	data := plots.LevelDifferencesData{Choice: r.choice.Name, Baseline: r.choice.Name + " " + r.choice.Baseline}
	stated := false
	for j, n := range r.levels[0].numbers {
		if !slices.Contains(differenceQuantities(), n.Quantity) || strings.HasPrefix(n.note, "about") || math.IsNaN(n.Value) {
			continue
		}
		unit, factor := "% of the baseline's value", 100/math.Abs(n.Value)
		switch n.Quantity {
		case evidence.NeutralPoint:
			unit, factor = "% of the mean chord", 100/r.levels[0].airframe.Reference.MeanChord
		case evidence.DirectionalStiffness, prediction.DihedralEffect: // a winglet may double them
			unit, factor = "per radian", 1
		}
		q := plots.QuantityDifference{Quantity: quantityName(n.Quantity), Unit: unit}
		known := false
		for i := range r.levels[1:] {
			l := &r.levels[1+i]
			d := l.differences[j]
			if math.IsNaN(d.value) {
				continue
			}
			half := 0.0
			if !math.IsNaN(d.high) {
				half, known = math.Hypot((d.high-d.low)/2, zeroIfUnknown(d.grid)), true
			}
			v := factor * d.value
			q.Rows = append(q.Rows, plots.Row{Label: l.level, Predicted: &plots.Interval{Value: v, Low: v - factor*half, High: v + factor*half}})
		}
		if len(q.Rows) > 0 {
			data.Quantities = append(data.Quantities, q)
		}
		stated = stated || known
	}
	data.Condition = r.condition.words(&r.levels[0].solved)
	if stated {
		data.Condition += "; where there is no bar, no error of theory is stated"
	} else {
		data.Condition += "; no error of theory is stated, so there are no bars"
	}
	return data
}

// zeroIfUnknown is an error, 0 where it was not estimated.
func zeroIfUnknown(e float64) float64 {
	if math.IsNaN(e) {
		return 0
	}
	return e
}

func differenceQuantities() []string {
	return []string{evidence.NeutralPoint, evidence.LiftCurveSlope, prediction.InducedDrag, prediction.SpanEfficiency, prediction.BestSpanEfficiency,
		evidence.DirectionalStiffness, prediction.DihedralEffect, evidence.RootBendingMoment}
}
