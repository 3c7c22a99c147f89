package estimate

import (
	"maps"
	"math"
	"slices"

	"wingproof/flightlog/statistic"
)

// What is known of a value: determined; weak, bounded but wide or thinly founded; not determined.
const (
	Determined    = "determined"
	Weak          = "weak"
	NotDetermined = "not_determined"
)

func sourceNames(common map[string]float64) []string { return slices.Sorted(maps.Keys(common)) }

// undetermined is a result without a number; the reason says what would help.
func undetermined(r Result, reason string) Result {
	r.State = NotDetermined
	r.SD, r.SDOwn, r.Low, r.High = nil, nil, nil, nil
	if r.Set == "" || r.Set == SetInterval {
		r.Set = SetAll
	}
	r.Warnings = append(r.Warnings, reason)
	return r
}

// fill sets value, standard deviations and the 95 % interval. low and high bound the random part alone; each
// end moves out by the shared errors in quadrature.
func fill(r Result, value, sdOwn, low, high float64, common map[string]float64) Result {
	common = withoutZeros(common)
	shared := commonSD(common)
	sd := math.Hypot(sdOwn, shared)
	if !allFinite(value, sd, low, high) {
		return undetermined(r, "the fit gave no finite number")
	}
	reach := statistic.Normal975 * shared
	low, high = value-math.Hypot(value-low, reach), value+math.Hypot(high-value, reach)
	r.State, r.Set, r.Common = Determined, SetInterval, common
	r.Value, r.SD, r.SDOwn, r.Low, r.High = &value, &sd, &sdOwn, &low, &high
	return r
}

// fillStudent is fill with the interval value ± t·sdOwn.
func fillStudent(r Result, value, sdOwn float64, common map[string]float64) Result {
	reach := statistic.StudentQuantile(r.Degrees) * sdOwn
	return fill(r, value, sdOwn, value-reach, value+reach, common)
}

// weaken marks a determined result as weak, with the reason.
func weaken(r Result, reason string) Result {
	if r.State == Determined {
		r.State = Weak
	}
	r.Warnings = append(r.Warnings, reason)
	return r
}

// label starts a result with what the data say about themselves.
func label(quantity, unit, method string, d prepared) Result {
	r := Result{Quantity: quantity, Unit: unit, Method: method, Power: d.power, Flights: flightNames(d.points),
		Points: len(d.points), Warnings: slices.Clone(d.warnings), Common: map[string]float64{}}
	for _, p := range d.points {
		r.Lift += p.Lift / float64(len(d.points))
		if allFinite(p.Reynolds) {
			r.Reynolds += p.Reynolds / float64(len(d.points))
		}
	}
	return r
}
