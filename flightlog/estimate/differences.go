package estimate

import (
	"fmt"
	"math"
	"slices"
)

// Difference is a − b, two results for one quantity: of two levels of a choice, two configurations, two power states.
//
// What both share cancels as far as it moves both alike: Common is subtracted sign by sign. An error in proportion to the value, such as that
// of the airspeed scale, so shrinks to the proportion of the difference. Random parts are independent when no flight stands behind both.
// Where some do, their errors may work either way, and the difference is given the wider of what is possible:
//
//	own² = a² + b² + 2·a·b·√(share of common flights in a · share in b).
//
// Degrees of freedom are Satterthwaite's. Two results that stand on the scatter pooled over a program stand on the same one, so that their
// difference has no more degrees than they have. Results about different CGs are not comparable, and refused where both say
// their CG; other power is said in a warning.
func Difference(a, b Result) Result {
	r := differenceLabel(a, b)
	if words := incomparable(a, b); words != "" {
		return undetermined(r, words)
	}
	common := map[string]float64{}
	for _, name := range sourceNames(a.Common) {
		common[name] += a.Common[name]
	}
	for _, name := range sourceNames(b.Common) {
		common[name] -= b.Common[name]
	}
	own := square(*a.SDOwn) + square(*b.SDOwn)
	if shared := sharedFlights(a.Flights, b.Flights); len(shared) > 0 {
		own += 2 * *a.SDOwn * *b.SDOwn * float64(len(shared)) / math.Sqrt(float64(len(a.Flights)*len(b.Flights)))
		r.Warnings = append(r.Warnings, fmt.Sprintf("%s stand behind both: their errors are taken to add up, which is the worse of two cases", flightsWords(shared)))
	}
	r.Degrees = combinedDegrees([]Result{a, b}, []float64{1, -1})
	r = fillCombined(r, *a.Value-*b.Value, math.Sqrt(own), common)
	if a.State == Weak || b.State == Weak {
		r = weaken(r, "one of the two is weak by itself")
	}
	return thin(r)
}

// DifferenceWords says a difference as one says it: "tall over mid: more by 0.021 1/rad (95 % from 0.012 to 0.030)".
func DifferenceWords(first, second string, d Result) string {
	pair := first + " against " + second
	switch {
	case d.Value == nil || d.Low == nil || d.High == nil:
		reason := "not determined"
		if n := len(d.Warnings); n > 0 {
			reason += ", because " + d.Warnings[n-1]
		}
		return fmt.Sprintf("%s: %s: %s", pair, spoken(d.Quantity), reason)
	case *d.Low > 0:
		return fmt.Sprintf("%s: %s is larger by %s", pair, spoken(d.Quantity), intervalWords(d))
	case *d.High < 0:
		return fmt.Sprintf("%s: %s is smaller, difference %s", pair, spoken(d.Quantity), intervalWords(d))
	default:
		return fmt.Sprintf("%s: %s does not clearly differ, difference %s", pair, spoken(d.Quantity), intervalWords(d))
	}
}

func differenceLabel(a, b Result) Result {
	r := Result{Quantity: a.Quantity, Unit: a.Unit, CG: a.CG, HasCG: a.HasCG, Power: a.Power, Lift: (a.Lift + b.Lift) / 2, Reynolds: (a.Reynolds + b.Reynolds) / 2,
		Method: "difference of two results, shared errors taken off", Points: a.Points + b.Points, Common: map[string]float64{}}
	r.Flights = append(slices.Clone(a.Flights), b.Flights...)
	slices.Sort(r.Flights)
	r.Flights = slices.Compact(r.Flights)
	if a.Power != b.Power {
		r.Power = ""
		r.Warnings = append(r.Warnings, fmt.Sprintf("power differs: %s and %s", a.Power, b.Power))
	}
	return r
}

// incomparable says why two results have no difference; empty when they have.
func incomparable(a, b Result) string {
	switch {
	case a.Quantity != b.Quantity || a.Unit != b.Unit:
		return fmt.Sprintf("%s in %s and %s in %s are not one quantity", spoken(a.Quantity), a.Unit, spoken(b.Quantity), b.Unit)
	case a.HasCG && b.HasCG && math.Abs(a.CG-b.CG) > differentCG:
		return fmt.Sprintf("they stand about CGs that lie %s apart; move both to one before they are compared", millimetres(math.Abs(a.CG-b.CG)))
	case a.Value == nil || a.SDOwn == nil || a.State == NotDetermined:
		return "the first of the two is not determined"
	case b.Value == nil || b.SDOwn == nil || b.State == NotDetermined:
		return "the second of the two is not determined"
	}
	return ""
}

// differentCG is the distance from which two CGs are different, full-size m: the finest that a CG is weighed to (common practice, no
// source).
const differentCG = 1e-3

func sharedFlights(a, b []string) []string {
	var out []string
	for _, f := range a {
		if slices.Contains(b, f) && !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

// combinedDegrees are the degrees of freedom of Σ weight·result: Satterthwaite's. Results that stand on pooled scatter, which shows in more
// degrees than their own flights leave, stand on one estimate of it: their variances are off together, so that their part has no more
// degrees than each.
func combinedDegrees(results []Result, weights []float64) float64 {
	var parts []variancePart
	sum, off := 0.0, 0.0 // of the pooled ones: variance, and standard deviation of that variance over √2
	for i, r := range results {
		v := square(weights[i] * *r.SDOwn)
		if !standsOnPool(r) {
			parts = append(parts, variancePart{v, r.Degrees})
			continue
		}
		sum += v
		off += v / math.Sqrt(r.Degrees)
	}
	if sum > 0 && off > 0 {
		parts = append(parts, variancePart{sum, square(sum / off)})
	}
	return satterthwaite(parts)
}

// standsOnPool tells whether there are more degrees of freedom than the result's own flights leave.
func standsOnPool(r Result) bool { return r.Degrees > float64(len(r.Flights)-1) }
