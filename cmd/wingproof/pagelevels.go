package main

import (
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// levelFigures sets the levels of each choice side by side, the other choices at their settled or baseline
// level.
func levelFigures(st *study.Study) ([]plots.Figure, error) {
	var out []plots.Figure
	for _, choice := range st.Program.Choices {
		data := plots.LevelComparisonData{Title: "Sizes of " + choice.Name + " side by side", Choice: choice.Name}
		for _, q := range comparedQuantities() {
			panel := plots.QuantityPanel{Name: q.words, Unit: q.unit, Limits: limitsOn(st, q.quantity)}
			for _, level := range choice.Levels {
				panel.Rows = append(panel.Rows, levelRow(st, configurationWith(st, choice.Name, level.Name), level.Name, q.quantity))
			}
			data.Panels = append(data.Panels, panel)
		}
		data.Panels = append(data.Panels, limitPanels(st, choice.Name)...)
		figure, err := plots.LevelComparison(data)
		if err != nil {
			return nil, err
		}
		out = append(out, figure)
	}
	return out, nil
}

type compared struct{ quantity, words, unit string }

func comparedQuantities() []compared {
	return []compared{
		{evidence.NeutralPoint, "neutral point", "m aft of datum, full size"},
		{evidence.DirectionalStiffness, "directional stiffness", "per radian"},
		{"induced_drag", "induced drag at lift coefficient 0.5", "-"},
	}
}

// configurationWith is the configuration with one choice at a level and the others at their settled level,
// else at their baseline.
func configurationWith(st *study.Study, choice, level string) string {
	levels := settledLevels(st)
	levels[choice] = level
	return evidence.Name(levels)
}

func levelRow(st *study.Study, configuration, level, quantity string) plots.Row {
	row := plots.Row{Label: level}
	for _, e := range st.Estimates {
		if e.Configuration != configuration || e.Quantity != quantity {
			continue
		}
		switch {
		case e.Origin == evidence.Measured:
			if row.Measured == nil { // of several roads the first: all together, where they could be pooled
				row.Measured, row.Sample = intervalOf(e), plots.Sample{Flights: len(e.Flights)}
			}
		case e.Origin == evidence.Predicted:
			row.Predicted = pointOr(e)
		case e.Origin == evidence.Anchored && e.Scale == evidence.FullSize:
			row.Anchored = intervalOf(e)
		}
	}
	return row
}

// pointOr draws a number without a stated error as a bare point.
func pointOr(e evidence.Estimate) *plots.Interval {
	if e.Value != nil && e.Low == nil && e.High == nil {
		return &plots.Interval{Value: *e.Value, Low: *e.Value, High: *e.Value}
	}
	return intervalOf(e)
}

// limitPanels shows the judged limits that are not drawn yet: margins at their worst loading and built parts.
func limitPanels(st *study.Study, choice string) []plots.QuantityPanel {
	var out []plots.QuantityPanel
	for _, first := range st.Verdict.Configurations[0].Limits {
		if first.Quantity != evidence.StaticMargin && first.Quantity != evidence.BendingRatio {
			continue
		}
		panel := plots.QuantityPanel{Name: first.Limit + ": static margin, full size", Unit: "% of the mean chord"}
		if first.Quantity == evidence.BendingRatio {
			panel.Name, panel.Unit = first.Limit+": bending over allowable, full size", first.Unit
		}
		if first.AtLeast != nil {
			panel.Limits = append(panel.Limits, plots.Limit{Name: first.Limit, Value: *first.AtLeast, AtLeast: true})
		}
		if first.AtMost != nil {
			panel.Limits = append(panel.Limits, plots.Limit{Name: first.Limit, Value: *first.AtMost})
		}
		for _, level := range levelsOf(st, choice) {
			row := plots.Row{Label: level}
			if l, ok := judged(st, configurationWith(st, choice, level), first.Limit); ok {
				row.Anchored = &plots.Interval{Value: l.Median, Low: l.Low, High: l.High}
			}
			panel.Rows = append(panel.Rows, row)
		}
		out = append(out, panel)
	}
	return out
}

func levelsOf(st *study.Study, choice string) []string {
	var out []string
	for _, c := range st.Program.Choices {
		if c.Name != choice {
			continue
		}
		for _, l := range c.Levels {
			out = append(out, l.Name)
		}
	}
	return out
}
