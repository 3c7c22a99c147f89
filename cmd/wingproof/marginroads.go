package main

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// marginRoadFigures sets the static margins by several roads below one another, at the middle one of the CGs flown: trims over CGs, and
// stiffness over lift slope out of input manoeuvres. Nothing is drawn where no configuration has two.
func marginRoadFigures(st *study.Study) ([]plots.Figure, error) {
	cg, ok := middleCG(st)
	if !ok {
		return nil, nil
	}
	chord := st.Configurations[0].Airframe.Reference.MeanChord
	data := plots.MarginData{Title: "Static margin road by road, " + stationText(cg, st.Program.Model.LengthRatio)}
	roads := map[string]int{}
	var found []evidence.Estimate
	for _, e := range withOrigin(st.Estimates, evidence.Measured) {
		if e.Quantity == evidence.NeutralPoint && e.Scale == evidence.ModelScale && e.Value != nil && e.Method != nil {
			found = append(found, e)
			roads[e.Configuration]++
		}
	}
	for _, e := range found {
		if roads[e.Configuration] < 2 {
			continue
		}
		label := "all roads together"
		if road, _, several := strings.Cut(*e.Method, ": "); several {
			label = road
		}
		if e.Power != nil {
			label += ", power " + *e.Power
		}
		i := *intervalOf(e)
		share := func(x float64) float64 { return 100 * (x - cg) / chord }
		data.Rows = append(data.Rows, plots.Row{Group: plainConfiguration(e.Configuration), Label: label,
			Measured: &plots.Interval{Value: share(i.Value), Low: share(i.Low), High: share(i.High)}})
	}
	if len(data.Rows) == 0 {
		return nil, nil
	}
	figure, err := plots.Margin(data)
	if err != nil {
		return nil, fmt.Errorf("draw the roads to the margin: %w", err)
	}
	return []plots.Figure{figure}, nil
}

// middleCG is the middle one of the CGs of the measured trim slopes, full-size m aft of datum.
func middleCG(st *study.Study) (float64, bool) {
	var all []float64
	for _, f := range st.Fits {
		for _, cg := range f.TrimSlopes.CG {
			if !slices.Contains(all, cg) {
				all = append(all, cg)
			}
		}
	}
	if len(all) == 0 {
		return 0, false
	}
	slices.Sort(all)
	return all[len(all)/2], true
}

// plainConfiguration writes "foreplane=long, winglet=mid" without the signs, for figures.
func plainConfiguration(name string) string { return strings.ReplaceAll(name, "=", " ") }
