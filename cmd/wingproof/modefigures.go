package main

import (
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
	"wingproof/plots"
)

// modeFigures set the Dutch roll of the model side by side over the levels of each choice, the other choices at their settled or
// baseline level. A choice without a flown level is left out.
func modeFigures(st *study.Study) ([]plots.Figure, error) {
	var out []plots.Figure
	for _, choice := range st.Program.Choices {
		data := plots.LevelComparisonData{Title: "Dutch roll of the model by " + choice.Name, Choice: choice.Name}
		for _, q := range []compared{{estimate.DutchRollFrequency, "frequency", "rad/s"}, {estimate.DutchRollDamping, "damping ratio", "-"}, {evidence.DirectionalStiffness, "directional stiffness", "per radian"}} {
			panel := plots.QuantityPanel{Name: q.words, Unit: q.unit}
			flown := false
			for _, level := range choice.Levels {
				row := measuredRow(st, configurationWith(st, choice.Name, level.Name), level.Name, q.quantity)
				flown = flown || row.Measured != nil
				panel.Rows = append(panel.Rows, row)
			}
			if flown {
				data.Panels = append(data.Panels, panel)
			}
		}
		if len(data.Panels) == 0 {
			continue
		}
		figure, err := plots.LevelComparison(data)
		if err != nil {
			return nil, err
		}
		out = append(out, figure)
	}
	return out, nil
}

// measuredRow is what was measured and predicted at model scale. Of several roads to one number the first stands: all together, where they
// could be pooled.
func measuredRow(st *study.Study, configuration, level, quantity string) plots.Row {
	row := plots.Row{Label: level}
	for _, e := range st.Estimates {
		if e.Configuration != configuration || e.Quantity != quantity || e.Scale != evidence.ModelScale {
			continue
		}
		switch e.Origin {
		case evidence.Measured:
			if row.Measured == nil {
				row.Measured, row.Sample = intervalOf(e), plots.Sample{Flights: len(e.Flights)}
			}
		case evidence.Predicted:
			row.Predicted = pointOr(e)
		}
	}
	return row
}

// motionFigures are the Dutch roll over the levels, and one measured and fitted input of each half of the motion in the settled or
// baseline configuration, else in the first that has any.
func motionFigures(st *study.Study) ([]plots.Figure, error) {
	out, err := modeFigures(st)
	if err != nil {
		return nil, err
	}
	var shown []study.Fit
	for _, f := range st.Fits {
		if len(f.Dynamics) > 0 && (len(shown) == 0 || f.Configuration == evidence.Name(settledLevels(st))) {
			shown = []study.Fit{f}
		}
	}
	histories, err := historyFigures("")(&study.Study{Fits: shown})
	return append(out, histories...), err
}
