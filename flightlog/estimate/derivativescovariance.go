package estimate

import (
	"math"

	"wingproof/flightlog/identify"
)

// correlationPrior is what the correlations that the fits state are worth against those between flights, in flights (common practice,
// no source: as many as a prior on a standard deviation is given elsewhere).
const correlationPrior = 5.0

// DerivativeCovariance is the covariance of the random parts of results that Derivatives gave for the same fits, joint and pooled, in their
// order: SDOwn² on the diagonal, zeros where there is no number. Two quantities from the same flights are tied by what the fits say of
// their inputs and by how flights scatter in both; quantities of different power states or halves of the motion are not.
func DerivativeCovariance(fits, joint []identify.Fit, results []Result, pooled *DerivativeScatter) [][]float64 {
	sides := judgedSides(fits, joint, results, pooled)
	out := zeros(len(results))
	for i, a := range results {
		for j, b := range results[:i+1] {
			if a.SDOwn == nil || b.SDOwn == nil || a.Power != b.Power {
				continue
			}
			rho := 1.0
			if i != j {
				rho = pairCorrelation(sides[i], sides[j], pooled)
			}
			out[i][j] = rho * *a.SDOwn * *b.SDOwn
			out[j][i] = out[i][j]
		}
	}
	return out
}

// DerivativeLoan lends the results of one power state with their joint covariance to roads that borrow from them.
func DerivativeLoan(fits, joint []identify.Fit, power string, pooled *DerivativeScatter) Loan {
	var results []Result
	for _, r := range Derivatives(fits, joint, 0, pooled) {
		if r.Power == power && r.Value != nil && r.SDOwn != nil {
			results = append(results, r)
		}
	}
	loan := LoanFrom(results...)
	loan.Covariance = DerivativeCovariance(fits, joint, results, pooled)
	return loan
}

// side is one of two quantities whose covariance is asked: its flights with their weights, and the scatter that they are judged by.
type side struct {
	quantity string
	values   []flightValue
	scatter  flightScatter
	joint    *flightValue // where no flight determines it
}

func judgedSides(fits, joint []identify.Fit, results []Result, pooled *DerivativeScatter) []side {
	sets := collect(fits, joint)
	out := make([]side, len(results))
	for i, r := range results {
		for _, s := range sets {
			if s.quantity != r.Quantity || s.power != r.Power {
				continue
			}
			out[i] = side{quantity: s.quantity, joint: s.joint}
			if len(s.values) > 0 {
				out[i].values = playDownFlights(s.values, pooled.of(s.quantity))
				out[i].scatter, _ = chooseFlightScatter(out[i].values, pooled.of(s.quantity))
			}
		}
	}
	return out
}

// pairCorrelation is the correlation of the means of two quantities.
func pairCorrelation(a, b side, pooled *DerivativeScatter) float64 {
	if len(a.values) == 0 && len(b.values) == 0 && a.joint != nil && b.joint != nil {
		return statedCorrelation(a.joint, b.joint)
	}
	both := bothFlights(a.values, b.values)
	if len(both) == 0 {
		return 0
	}
	stated, shared := 0.0, 0.0
	for _, p := range both {
		v := a.scatter.of(*p[0]) * b.scatter.of(*p[1])
		stated += statedCorrelation(p[0], p[1]) * math.Sqrt(p[0].variance*p[1].variance/v) / float64(len(both))
		shared += math.Sqrt(p[0].weight * p[1].weight / v)
	}
	_, totalA, _ := weighted(a.values, a.scatter)
	_, totalB, _ := weighted(b.values, b.scatter)
	seen, degrees := scatterCorrelation(a, b, pooled)
	rho := (correlationPrior*stated + degrees*seen) / (correlationPrior + degrees)
	return math.Max(-1, math.Min(1, rho*shared/math.Sqrt(totalA*totalB)))
}

// statedCorrelation is what one fit says of two of its estimates.
func statedCorrelation(a, b *flightValue) float64 {
	c := a.fit.Covariance
	if a.fit != b.fit || a.index >= len(c) || b.index >= len(c[a.index]) || !(a.variance > 0 && b.variance > 0) {
		return 0
	}
	rho := c[a.index][b.index] / math.Sqrt(a.variance*b.variance)
	if !allFinite(rho) {
		return 0
	}
	return math.Max(-1, math.Min(1, rho))
}

// scatterCorrelation is the correlation between flights of two quantities about their means, over the program or, without one, over
// the configuration, with its degrees of freedom.
func scatterCorrelation(a, b side, pooled *DerivativeScatter) (rho, degrees float64) {
	first, second := []poolSet{{values: a.values}}, []poolSet{{values: b.values}}
	if pooled != nil && len(pooled.sets[a.quantity]) > 0 {
		first, second = pooled.sets[a.quantity], pooled.sets[b.quantity]
	}
	var ab, aa, bb float64
	for _, s := range first {
		for _, t := range second {
			if s.configuration != t.configuration || s.power != t.power {
				continue
			}
			both := bothFlights(s.values, t.values)
			degrees += math.Max(0, float64(len(both)-1))
			x, y := departures(both, 0, a.scatter), departures(both, 1, b.scatter)
			for i := range x {
				ab, aa, bb = ab+x[i]*y[i], aa+x[i]*x[i], bb+y[i]*y[i]
			}
		}
	}
	if aa == 0 || bb == 0 {
		return 0, 0
	}
	return ab / math.Sqrt(aa*bb), degrees
}

// departures are the flights' standardised distances from their mean.
func departures(both [][2]*flightValue, which int, c flightScatter) []float64 {
	if len(both) < 2 {
		return nil
	}
	var values []flightValue
	for _, p := range both {
		values = append(values, *p[which])
	}
	m, _, _ := weighted(values, c)
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = (v.value - m) * math.Sqrt(v.weight/c.of(v))
	}
	return out
}

// bothFlights pairs the flights that determine both quantities in one half of the motion; flights are sorted by name.
func bothFlights(a, b []flightValue) [][2]*flightValue {
	var out [][2]*flightValue
	j := 0
	for i := range a {
		for j < len(b) && b[j].flight < a[i].flight {
			j++
		}
		if j < len(b) && a[i].flight == b[j].flight && a[i].fit.Axis == b[j].fit.Axis {
			out = append(out, [2]*flightValue{&a[i], &b[j]})
		}
	}
	return out
}
