package main

import (
	"context"
	"math"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// pageFigures draws everything that the study has data for, on all processors.
func pageFigures(ctx context.Context, st *study.Study) (report.Figures, error) {
	var f report.Figures
	sections := []struct {
		into *[]plots.Figure
		draw func(*study.Study) ([]plots.Figure, error)
	}{
		{&f.Timeline, func(st *study.Study) ([]plots.Figure, error) { return timelineFigures(ctx, st) }},
		{&f.Geometry, func(st *study.Study) ([]plots.Figure, error) { return threeViews(st.Program) }},
		{&f.Margin, marginFigures}, {&f.Trim, trimFigures}, {&f.Lift, liftFigures}, {&f.Drag, dragFigures}, {&f.Motions, motionFigures},
		{&f.Levels, levelFigures}, {&f.SpanLoad, spanLoadFigures}, {&f.Stall, pageStalls}, {&f.Spar, sparFigures},
		{&f.Envelope, envelopeFigures}, {&f.ModesPlane, modesPlaneFigures},
	}
	err := study.Each(ctx, len(sections)+1, func(i int) (err error) {
		if i == len(sections) {
			f.Contrasts, err = contrastFigures(st)
			return err
		}
		*sections[i].into, err = sections[i].draw(st)
		return err
	})
	return f, err
}

// pageStalls draws the stall order of the settled or baseline configuration.
func pageStalls(st *study.Study) ([]plots.Figure, error) {
	name := evidence.Name(settledLevels(st))
	for _, c := range st.Configurations {
		if c.Name == name {
			return stallFigures(c.Name, c.Stalls, nil)
		}
	}
	return nil, nil
}

// marginFigures draws the margins at full size against the limits, and the flown ones at model scale.
func marginFigures(st *study.Study) ([]plots.Figure, error) {
	full := plots.MarginData{Title: "Static margin at full size, by loading", Limits: limitsOn(st, evidence.StaticMargin)}
	model := plots.MarginData{Title: "Static margin of the model at the CGs flown"}
	for _, e := range st.Margins {
		if e.Scale == evidence.FullSize {
			full.Rows = append(full.Rows, plots.Row{Group: plainConfiguration(e.Configuration), Label: loadingOf(e), Anchored: intervalOf(e), Sample: sampleOf(e)})
			continue
		}
		model.Rows = addRow(model.Rows, e, st.Program.Model.LengthRatio)
	}
	var out []plots.Figure
	for _, data := range []plots.MarginData{full, model} {
		if len(data.Rows) == 0 {
			continue
		}
		figure, err := plots.Margin(data)
		if err != nil {
			return nil, err
		}
		out = append(out, figure)
	}
	return out, nil
}

// limitsOn lists the limits on a quantity, in the quantity's own unit.
func limitsOn(st *study.Study, quantity string) []plots.Limit {
	var out []plots.Limit
	for _, l := range st.Program.Limits {
		if l.Quantity != quantity {
			continue
		}
		if l.AtLeast != nil {
			out = append(out, plots.Limit{Name: l.Name, Value: *l.AtLeast, AtLeast: true})
		}
		if l.AtMost != nil {
			out = append(out, plots.Limit{Name: l.Name, Value: *l.AtMost})
		}
	}
	return out
}

// addRow puts an estimate into the row of its configuration and CG.
func addRow(rows []plots.Row, e evidence.Estimate, ratio float64) []plots.Row {
	label, group := stationText(*e.At.CG, ratio), plainConfiguration(e.Configuration)
	if n := len(rows); n == 0 || rows[n-1].Group != group || rows[n-1].Label != label {
		rows = append(rows, plots.Row{Group: group, Label: label})
	}
	row := &rows[len(rows)-1]
	switch e.Origin {
	case evidence.Measured:
		row.Measured, row.Sample = intervalOf(e), sampleOf(e)
	case evidence.Predicted:
		row.Predicted = intervalOf(e)
	case evidence.Anchored:
		row.Anchored = intervalOf(e)
	}
	return rows
}

// sampleOf is how many points and flights a measured or anchored number rests on.
func sampleOf(e evidence.Estimate) plots.Sample {
	out := plots.Sample{Flights: len(e.Flights)}
	if e.Points != nil {
		out.Points = *e.Points
	}
	return out
}

// intervalOf turns an estimate into what is drawn; a bound that is not there has no end.
func intervalOf(e evidence.Estimate) *plots.Interval {
	if e.Value == nil || (e.Low == nil && e.High == nil) {
		i := plots.NotDetermined()
		return &i
	}
	i := plots.Interval{Value: *e.Value, Low: math.Inf(-1), High: math.Inf(1)}
	if e.Low != nil {
		i.Low = *e.Low
	}
	if e.High != nil {
		i.High = *e.High
	}
	return &i
}

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

func judged(st *study.Study, configuration, limit string) (decide.LimitVerdict, bool) {
	for _, c := range st.Verdict.Configurations {
		if c.Configuration != configuration {
			continue
		}
		for _, l := range c.Limits {
			if l.Limit == limit {
				return l, true
			}
		}
	}
	return decide.LimitVerdict{}, false
}
