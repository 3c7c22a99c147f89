package estimate

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog/identify"
)

// roadFlight is what the swings of one flight say together.
type roadFlight struct {
	fit      identify.Fit
	weight   float64 // 1/sd²
	borrowed []float64
}

// solveAll takes every determined swing down the road and averages those of one flight by their precision. Flights come by name.
func (m modeRoad) solveAll(swings []Swing, in ModeInput) ([]roadFlight, []string) {
	names := []string{}
	solved := map[string][]roadSolution{}
	first := map[string]Swing{}
	var warnings []string
	for _, s := range swings {
		if !s.Mode.Determined || s.Power != in.Power {
			continue
		}
		solution, ok := m.solve(s, in)
		if !ok {
			warnings = append(warnings, fmt.Sprintf("flight %s: no %s gives a %s of %.2f rad/s with the other derivatives as they are", s.Flight, spoken(m.quantity), m.words, s.Mode.Frequency))
			continue
		}
		if _, seen := first[s.Flight]; !seen {
			names, first[s.Flight] = append(names, s.Flight), s
		}
		solved[s.Flight] = append(solved[s.Flight], solution)
	}
	slices.Sort(names)
	var out []roadFlight
	for _, name := range names {
		out = append(out, m.flightOf(name, first[name], solved[name], in))
	}
	return out, warnings
}

// flightOf averages the swings of one flight.
func (m modeRoad) flightOf(name string, first Swing, solutions []roadSolution, in ModeInput) roadFlight {
	out := roadFlight{borrowed: make([]float64, len(in.Derivatives))}
	value, common := 0.0, map[string]float64{}
	for _, s := range solutions {
		w := 1 / square(s.sd)
		out.weight += w
		value += w * s.value
		for j, b := range s.borrowed {
			out.borrowed[j] += w * b
		}
		for _, source := range sourceNames(s.common) {
			common[source] += w * s.common[source]
		}
	}
	for j := range out.borrowed {
		out.borrowed[j] /= out.weight
	}
	for _, source := range sourceNames(common) {
		common[source] /= out.weight
	}
	out.fit = identify.Fit{
		Axis: identify.Lateral, Method: m.words + " frequency of free responses, other derivatives borrowed", Flights: []string{name}, Segments: len(solutions),
		Power: in.Power, MomentX: in.MomentX, MomentZ: in.MomentZ, LiftCoefficient: first.Aircraft.lift(),
		Airspeed: first.Aircraft.Speed, Density: first.Aircraft.Density,
		Derivatives: []identify.Derivative{{Quantity: m.quantity, Value: value / out.weight, SD: 1 / math.Sqrt(out.weight), Common: common, Determined: true}},
	}
	if m.quantity == identify.PitchStiffness {
		out.fit.Axis = identify.Longitudinal
	}
	return out
}

// DutchRollFits are the fits, one a flight, that DirectionalStiffnessFromDutchRoll pools: for PoolDerivatives, which takes the scatter of flights from
// all configurations together.
func DutchRollFits(swings []Swing, in ModeInput) []identify.Fit {
	m := dutchRollRoad()
	in = in.with(m.quantity)
	if in.broken() != "" || len(in.missing(m.needed)) > 0 {
		return nil
	}
	flights, _ := m.solveAll(swings, in)
	var out []identify.Fit
	for _, f := range flights {
		out = append(out, f.fit)
	}
	return out
}

// pool averages flights as Derivatives does and adds what was borrowed.
func (m modeRoad) pool(out Road, flights []roadFlight, in ModeInput, pooled *DerivativeScatter) Road {
	var fits []identify.Fit
	total := 0.0
	mean := make([]float64, len(in.Derivatives))
	for _, f := range flights {
		fits = append(fits, f.fit)
		total += f.weight
		for j, b := range f.borrowed {
			mean[j] += f.weight * b
		}
	}
	r := Derivatives(fits, nil, in.Aircraft.LengthRatio, pooled)[0]
	r.Warnings = append(out.Result.Warnings, r.Warnings...)
	r.Warnings = append(r.Warnings, in.borrowedWords(m.needed, nil)...)
	for j := range mean {
		mean[j] /= total
	}
	for j, d := range in.Derivatives {
		switch {
		case mean[j] == 0:
		case d.From != "":
			out.Borrowed[d.From+": "+spoken(d.Quantity)] = mean[j] * in.sd(j)
		default:
			out.Borrowed[d.Quantity] = mean[j]
		}
	}
	out.Result = withBorrowed(r, quadratic(mean, in.covariance()))
	return out
}

// withBorrowed widens a result by the random errors of what was borrowed. Those count as known, which leaves
// more degrees of freedom (F. E. Satterthwaite, Biometrics Bulletin 2, 1946, from memory).
func withBorrowed(r Result, variance float64) Result {
	if r.Value == nil || r.SDOwn == nil || r.State == NotDetermined {
		return r
	}
	own := square(*r.SDOwn)
	if own > 0 {
		r.Degrees *= square(1 + variance/own)
	}
	state := r.State
	r = fillStudent(r, *r.Value, math.Sqrt(own+variance), r.Common)
	r.State = state
	return r
}
