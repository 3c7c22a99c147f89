package main

import (
	"context"
	"math"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// pageFigures draws everything that the study has data for, on all processors. What cannot be drawn is left out with a sentence that says so,
// and the rest of the page stands; only a context that ends is an error.
func pageFigures(ctx context.Context, st *study.Study) (report.Figures, []string, error) {
	var f report.Figures
	sections := []figureDrawing{
		{"timeline", "what the flights told", &f.Timeline, func(st *study.Study) ([]plots.Figure, error) { return timelineFigures(ctx, st) }},
		{"geometry", "the three views", &f.Geometry, func(st *study.Study) ([]plots.Figure, error) { return threeViews(st.Program) }},
		{"margin", "static margins", &f.Margin, marginFigures}, {"trim", "elevator to trim", &f.Trim, trimFigures}, {"lift", "lift curves", &f.Lift, liftFigures},
		{"drag", "drag polars", &f.Drag, dragFigures}, {"motions", "motions", &f.Motions, motionFigures}, {"levels", "sizes side by side", &f.Levels, levelFigures},
		{"spanload", "load along the span", &f.SpanLoad, spanLoadFigures}, {"stall", "stall order", &f.Stall, pageStalls}, {"spar", "bending of the spar", &f.Spar, sparFigures},
		{"envelope", "mass and centre of gravity", &f.Envelope, envelopeFigures}, {"modes", "motions against the levels", &f.ModesPlane, modesPlaneFigures},
	}
	contrasts := make([][]plots.Figure, len(st.Program.Choices))
	for i, choice := range st.Program.Choices {
		sections = append(sections, figureDrawing{"contrasts", "what each size of " + choice.Name + " costs and gains", &contrasts[i],
			func(st *study.Study) ([]plots.Figure, error) { return contrastFigures(st, choice) }})
	}
	missing, err := drawAll(ctx, st, sections, &f)
	f.Contrasts = map[string][]plots.Figure{}
	for i, choice := range st.Program.Choices {
		if len(contrasts[i]) > 0 {
			f.Contrasts[choice.Name] = contrasts[i]
		}
	}
	return f, missing, err
}

// figureDrawing draws the figures of one section of the page.
type figureDrawing struct {
	section, words string
	into           *[]plots.Figure
	draw           func(*study.Study) ([]plots.Figure, error)
}

// drawAll draws sections and says, in their order, which of them could not be drawn and why.
func drawAll(ctx context.Context, st *study.Study, sections []figureDrawing, f *report.Figures) ([]string, error) {
	failed := make([]error, len(sections))
	err := study.Each(ctx, len(sections), func(i int) error {
		figures, err := sections[i].draw(st)
		switch {
		case err == nil:
			*sections[i].into = figures
		case ctx.Err() != nil:
			return ctx.Err()
		default:
			failed[i] = err
		}
		return nil
	})
	var missing []string
	for i, err := range failed {
		if err == nil {
			continue
		}
		why := sections[i].words + ": " + strings.TrimPrefix(err.Error(), "plots: ")
		missing = append(missing, "not drawn: "+why)
		if f.NotDrawn == nil {
			f.NotDrawn = map[string]string{}
		}
		f.NotDrawn[sections[i].section] = why
	}
	return missing, err
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
