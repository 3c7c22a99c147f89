package main

import (
	"fmt"
	"math"
	"strings"

	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/identify"
	"wingproof/plots"
)

// historyFigures draw measured and fitted time histories: all input manoeuvres of one flight, or where flight is empty the one of each
// configuration and half of the motion that fits as well as most do.
func historyFigures(flight string) func(*study.Study) ([]plots.Figure, error) {
	return func(st *study.Study) ([]plots.Figure, error) {
		var out []plots.Figure
		for _, f := range st.Fits {
			for _, h := range shownHistories(f.Dynamics, flight) {
				figure, err := historyFigure(f.Configuration, h)
				if err != nil {
					return nil, err
				}
				out = append(out, figure)
			}
		}
		return out, nil
	}
}

// shownHistories are those of one flight, else the middling one of each half of the motion.
func shownHistories(fits []identify.Fit, flight string) []identify.History {
	var out []identify.History
	for _, axis := range []identify.Axis{identify.Longitudinal, identify.Lateral} {
		var all []identify.History
		for _, fit := range fits {
			if fit.Axis == axis {
				all = append(all, fit.Histories...)
			}
		}
		if flight == "" {
			out = append(out, middling(all)...)
			continue
		}
		for _, h := range all {
			if h.Flight == flight {
				out = append(out, h)
			}
		}
	}
	return out
}

// middling is the history whose misfit is the median; the first of equals.
func middling(all []identify.History) []identify.History {
	if len(all) == 0 {
		return nil
	}
	better := func(a, b float64) int {
		n := 0
		if a < b {
			n = 1
		}
		return n
	}
	for _, h := range all {
		below := 0
		for _, other := range all {
			below += better(misfit(other), misfit(h))
		}
		if below == (len(all)-1)/2 {
			return []identify.History{h}
		}
	}
	return all[:1]
}

// misfit is the root mean square of what the fit leaves of each signal, over the signal's own scatter, summed over the signals.
func misfit(h identify.History) float64 {
	sum := 0.0
	for _, s := range h.Signals {
		mean, left, all := 0.0, 0.0, 0.0
		for _, v := range s.Measured {
			mean += v / float64(len(s.Measured))
		}
		for i, v := range s.Measured {
			left += (v - s.Fitted[i]) * (v - s.Fitted[i])
			all += (v - mean) * (v - mean)
		}
		if all > 0 {
			sum += math.Sqrt(left / all)
		}
	}
	return sum
}

// historyFigure draws the input, and for each signal what was measured, what was fitted and what is left.
func historyFigure(configuration string, h identify.History) (plots.Figure, error) {
	control := strings.ReplaceAll(string(h.Control), "_", " ")
	if h.Control == "rudder_left" {
		control = "rudder"
	}
	d := plots.StripChartData{
		Title: fmt.Sprintf("%s, %s %s: measured and fitted", h.Flight, control, h.Kind),
		Note:  fmt.Sprintf("%s. Below each frame, on a scale of its own, what the fit leaves.", plainConfiguration(configuration)),
	}
	time := make([]float64, len(h.Input))
	for i := range time {
		time[i] = h.Start + float64(i)*h.Step
	}
	d.Panels = append(d.Panels, plots.StripPanel{Name: control, Unit: "°", Series: []plots.StripSeries{{Time: time, Value: times(h.Input, degrees)}}})
	for _, s := range h.Signals {
		unit, k := crewUnit(s.Unit)
		left := make([]float64, len(s.Measured))
		for i, v := range s.Measured {
			left[i] = k * (v - s.Fitted[i])
		}
		d.Panels = append(d.Panels, plots.StripPanel{Name: strings.ReplaceAll(s.Name, "_", " "), Unit: unit,
			Series: []plots.StripSeries{{Name: "measured", Time: time, Value: times(s.Measured, k)}, {Name: "fitted", Time: time, Value: times(s.Fitted, k)}},
			Left:   &plots.StripSeries{Name: "measured less fitted", Time: time, Value: left}})
	}
	return plots.StripChart(d)
}

const degrees = 180 / math.Pi

// crewUnit is a unit as a crew reads it, and the factor to it.
func crewUnit(unit string) (string, float64) {
	switch unit {
	case "rad":
		return "°", degrees
	case "rad/s":
		return "°/s", degrees
	}
	return unit, 1
}

func times(values []float64, k float64) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = k * v
	}
	return out
}
