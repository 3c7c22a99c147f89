package estimate

import (
	"math"

	"wingproof/flightlog/statistic"
)

// mean is the weighted mean of flights; variance is 1/Σ1/v, the factor of the component apart.
type mean struct {
	value, variance, lift float64
	shares                []float64 // weights that sum to one
	common                map[string]float64
}

// meanOf weighs flights by one over their variances, and whatever belongs to them with the same weights.
func meanOf(values []flightValue, c flightScatter) mean {
	m := mean{common: map[string]float64{}}
	value, total, _ := weighted(values, c)
	m.value, m.variance = value, 1/total
	for _, v := range values {
		share := v.weight / c.of(v) / total
		m.shares = append(m.shares, share)
		m.lift += share * v.lift
		for _, name := range sourceNames(v.common) {
			m.common[name] += share * v.common[name]
		}
	}
	return m
}

// weighted is the weighted mean, the sum of the weights, and Σ r²/v.
func weighted(values []flightValue, c flightScatter) (value, total, chi float64) {
	for _, v := range values {
		w := v.weight / c.of(v)
		total += w
		value += w * (v.value - values[0].value) // differences, so that equal flights give their very number
	}
	value = values[0].value + value/total
	for _, v := range values {
		chi += v.weight * square(v.value-value) / c.of(v)
	}
	return value, total, chi
}

// freedom counts degrees: the weights of the flights less one for the mean.
func freedom(values []flightValue) float64 {
	sum := -1.0
	for _, v := range values {
		sum += v.weight
	}
	return math.Max(0, sum)
}

// chooseFlightScatter prefers the pool unless the flights scatter more than it at the 99 % level; a single flight without a pool stands
// on its own manoeuvres.
func chooseFlightScatter(values []flightValue, pooled flightScatter) (flightScatter, []string) {
	own := estimateFlights([][]flightValue{values})
	own.mixture = nil // scaled to these very flights, so that the ratio that is left open changes little
	if len(values) == 1 && pooled.degrees < 1 {
		return flightScatter{factor: 1, degrees: float64(values[0].segments - 1)}, nil
	}
	if pooled.degrees < 1 || pooled.degrees <= own.degrees {
		return own, nil
	}
	if own.degrees == 0 || pooled.factor == 0 {
		return pooled, nil
	}
	_, _, chi := weighted(values, pooled)
	ratio := chi / own.degrees / pooled.factor
	if ratio > statistic.FisherQuantile(own.degrees, pooled.degrees) {
		return own, []string{ownScatterWords(math.Sqrt(ratio))}
	}
	return pooled, nil
}

// fillCombined is fill with the interval value ± t·SD for own and shared errors together. From fewDegrees on, t is Student's at
// Satterthwaite's degrees of freedom; with fewer it is Cochran's t' = (t·own² + z·shared²)/SD², since Satterthwaite's interval then holds the
// truth too seldom (measured over 40,000 draws: 87 % with one degree, 92 % with two, 93.5 % with three, against 94 % and more). Adding the two
// reaches end by end, as fill does, is too wide where a shared error dwarfs a random part that stands on few degrees.
//
// Source: W. G. Cochran, Approximate significance levels of the Behrens–Fisher test, Biometrics 20, 1964 (from memory).
func fillCombined(r Result, value, sdOwn float64, common map[string]float64) Result {
	r = fill(r, value, sdOwn, value, value, common)
	if r.SD == nil {
		return r
	}
	own, shared := square(sdOwn), square(commonSD(r.Common))
	t := statistic.StudentQuantile(satterthwaite([]variancePart{{own, r.Degrees}, {shared, math.Inf(1)}}))
	if r.Degrees < fewDegrees && own > 0 {
		t = (statistic.StudentQuantile(r.Degrees)*own + statistic.Normal975*shared) / (own + shared)
	}
	low, high := value-t**r.SD, value+t**r.SD
	if !allFinite(low, high) {
		return undetermined(r, "no degree of freedom is left")
	}
	r.Low, r.High = &low, &high
	return r
}
