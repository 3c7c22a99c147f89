package estimate

import "math"

const (
	// statedWithin is one standard deviation of the logarithm of φ before any flight is seen: standard deviations that are
	// corrected for coloured residuals are taken to be right within a factor of two (common practice, no source). It matters where
	// flights are few or alike in sd, so that they cannot tell φ from τ.
	statedWithin = 2 * math.Ln2 // of a variance
	// ratioSteps is the number of ratios τ²/φ that are weighed, from a hundredth to a hundred times the typical variance: beyond, one
	// of the two no longer matters. Derived: two a decade follow the likelihood, which changes over a factor of some ten.
	ratioSteps = 9
	widest     = 2.0 // decades
)

// flightScatter is φ and τ² in v = φ·(sd² + τ²), with what the flights leave open about their ratio.
type flightScatter struct {
	between float64 // τ²
	factor  float64 // φ
	degrees float64 // flights − sets
	mixture []ratioPart
}

// ratioPart is one possible ratio τ²/φ: what the restricted likelihood gives it, and the φ that belongs to it.
type ratioPart struct{ weight, between, factor float64 }

// of is the variance of one flight's number, up to the factor.
func (c flightScatter) of(v flightValue) float64 { return v.variance + c.between }

// degreesFor are the degrees of freedom behind the variance of the mean of these flights: those of the scatter, fewer where the
// ratio that is left open changes that variance. Degrees of a variance are twice its square over its own variance (F. E.
// Satterthwaite, Biometrics Bulletin 2, 1946).
func (c flightScatter) degreesFor(values []flightValue) float64 {
	var first, second float64
	for _, part := range c.mixture {
		_, total, _ := weighted(values, flightScatter{between: part.between})
		variance := part.factor / total
		first += part.weight * variance
		second += part.weight * variance * variance
	}
	if c.degrees <= 0 || !(first > 0) {
		return c.degrees
	}
	return 2 / (2/c.degrees + math.Max(0, second/(first*first)-1))
}

// estimateFlights estimates φ and τ² in v = φ·(sd² + τ²) from flights that scatter about the mean of their own set. The ratio that
// weighs flights against each other maximises the restricted likelihood, with a prior on φ; φ itself is then what makes Σ r²/v equal
// the degrees of freedom, so that Student's t holds with like flights whatever the prior says.
//
// Sources: H. D. Patterson and R. Thompson, Biometrika 58, 1971, for the restricted likelihood; G. Knapp and J. Hartung, Statistics in
// Medicine 22, 2003, for the scale (both from memory).
func estimateFlights(sets [][]flightValue) flightScatter {
	c := flightScatter{factor: 1}
	sum, flights := 0.0, 0
	var telling [][]flightValue
	for _, values := range sets {
		if freedom(values) <= 0 {
			continue
		}
		telling = append(telling, values)
		c.degrees += freedom(values)
		flights += len(values)
		for _, v := range values {
			sum += v.variance
		}
	}
	if c.degrees == 0 {
		return c
	}
	c.mixture, c.between = weighRatios(telling, sum/float64(flights), c.degrees)
	q, _ := restricted(telling, c.between)
	c.factor = q / c.degrees
	return c
}

// weighRatios weighs a row of ratios by their restricted likelihood, and gives the ratio of the means of τ² and φ. A mean does not fall to
// τ = 0 when a few flights happen to agree, as the single best ratio does.
func weighRatios(sets [][]flightValue, typical, degrees float64) (mixture []ratioPart, between float64) {
	var deviances, factors []float64
	least := math.Inf(1)
	for i := range ratioSteps {
		ratio := typical * math.Pow(10, widest*(2*float64(i)/(ratioSteps-1)-1))
		q, logs := restricted(sets, ratio)
		d, factor := deviance(q, logs, degrees)
		mixture = append(mixture, ratioPart{between: ratio, factor: q / degrees})
		deviances, factors = append(deviances, d), append(factors, factor)
		least = math.Min(least, d)
	}
	var sum, within, both float64
	for i, d := range deviances {
		w := math.Exp((least - d) / 2)
		mixture[i].weight = w
		sum += w
		within += w * factors[i]
		both += w * factors[i] * mixture[i].between
	}
	for i := range mixture {
		mixture[i].weight /= sum
	}
	return mixture, both / within
}

// deviance is −2·log of the restricted likelihood with the prior on φ, at the best φ: it solves
// degrees − q·e^(−f) + 2f/s² = 0 for f = ln φ, whose left side rises with f.
func deviance(q, logs, degrees float64) (least, factor float64) {
	if q <= 0 {
		q = math.SmallestNonzeroFloat64
	}
	prior := 1 / square(statedWithin)
	f := math.Min(0, math.Log(q/degrees)) // left of the root, where Newton's steps never overshoot
	for range 100 {
		e := q * math.Exp(-f)
		step := (degrees - e + 2*f*prior) / (e + 2*prior)
		f -= step
		if math.Abs(step) < 1e-12 {
			break
		}
	}
	return degrees*f + q*math.Exp(-f) + f*f*prior + logs, math.Exp(f)
}

// restricted sums Σ r²/v and the logarithms of the restricted likelihood, each set about its own mean.
func restricted(sets [][]flightValue, between float64) (q, logs float64) {
	c := flightScatter{between: between}
	for _, values := range sets {
		_, total, chi := weighted(values, c)
		q += chi
		logs += math.Log(total)
		for _, v := range values {
			logs += v.weight * math.Log(c.of(v))
		}
	}
	return q, logs
}
