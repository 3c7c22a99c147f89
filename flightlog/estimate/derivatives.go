package estimate

import (
	"math"

	"wingproof/flightlog/identify"
)

// perRadian is the unit of every derivative: rates are made dimensionless with b/2V and c/2V.
const perRadian = "1/rad"

// Derivatives turns the fits of one configuration into one result for each quantity and power state, in the order of the names in
// package identify, then of the power states, which are never mixed.
//
// fits holds one fit a flight, axis and power state, all about one moment point. Flights are the independent units: the result is
// their weighted mean, a flight's number scattering about it with the variance
//
//	v = φ·(sd² + τ²),
//
// sd as its fit states it, τ what flights differ by beyond that. φ and τ come from pooled where the configuration does not
// contradict it (see PoolDerivatives; nil means that its own flights must tell), and the interval from Student's t on the degrees of
// freedom behind them, flights minus one (see fillCombined). Errors that flights share are averaged with the same weights and keep their signs.
//
// joint may hold fits to all flights together (nil where there are none). One is used for a quantity that no flight determines alone;
// the result is weak. So is that of a single flight. Flights that do not determine a quantity, that lie far off or whose input can hardly
// tell two quantities apart are named in Warnings. A quantity that nothing determines has its row too, with what to fly.
//
// lengthRatio is model over full size: Result.CG is the moment point in full-size metres aft of datum. Where it is 0 the CG is left out.
func Derivatives(fits, joint []identify.Fit, lengthRatio float64, pooled *DerivativeScatter) []Result {
	var out []Result
	for _, s := range collect(fits, joint) {
		out = append(out, s.result(perRadian, lengthRatio, pooled.of(s.quantity)))
	}
	return out
}

// result is the mean over flights with its interval.
func (s derivativeSet) result(unit string, lengthRatio float64, pooled flightScatter) Result {
	r := s.label(unit, lengthRatio)
	if s.apart > sameCG {
		return undetermined(r, apartWords(s.apart))
	}
	r.Warnings = append(r.Warnings, s.leftWords()...)
	if len(s.values) == 0 && s.joint != nil {
		return s.fromJoint(r, pooled)
	}
	if len(s.values) == 0 {
		return undetermined(r, s.nothingWords())
	}
	values := playDownFlights(s.values, pooled)
	used, words := chooseFlightScatter(values, pooled)
	r.Warnings = append(append(append(r.Warnings, farWords(values)...), words...), s.alikeWords()...)
	if used.degrees <= 0 {
		r.Value = &values[0].value
		return undetermined(r, oneManoeuvreWords(s.quantity))
	}
	m := meanOf(values, used)
	r.Lift, r.Degrees = m.lift, used.degreesFor(values)
	r = fillCombined(r, m.value, math.Sqrt(m.variance*used.factor), m.common)
	if len(values) == 1 {
		r = weaken(r, oneFlightWords(s.quantity, pooled))
	}
	return thin(r)
}

// label says where a set comes from.
func (s derivativeSet) label(unit string, lengthRatio float64) Result {
	r := Result{Quantity: s.quantity, Unit: unit, Power: s.power, Method: s.method + ", mean of flights", Common: map[string]float64{}}
	if lengthRatio > 0 && allFinite(s.moment/lengthRatio) {
		r.CG, r.HasCG = s.moment/lengthRatio, true
	}
	for _, v := range s.values {
		r.Flights = append(r.Flights, v.flight)
		r.Points += v.segments
	}
	return r
}

// fromJoint is what a fit to all flights together says where no flight alone does.
func (s derivativeSet) fromJoint(r Result, pooled flightScatter) Result {
	j := *s.joint
	r.Method, r.Flights, r.Points, r.Lift = s.method+", all flights in one fit", j.flights, j.segments, j.lift
	used := flightScatter{factor: 1, degrees: float64(max(len(j.flights), 2) - 1)}
	if len(j.flights) <= 1 {
		used.degrees = float64(j.segments - 1)
	}
	if pooled.degrees >= 1 {
		used = pooled
		used.between /= float64(max(1, len(j.flights)))
	}
	r.Value, r.Degrees = &j.value, used.degrees
	if used.degrees < 1 {
		return undetermined(r, oneManoeuvreWords(s.quantity))
	}
	r = fillCombined(r, j.value, math.Sqrt(used.factor*(j.variance+used.between)), j.common)
	return thin(weaken(r, jointWords(pooled)))
}
