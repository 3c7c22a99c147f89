package estimate

import (
	"math"

	"wingproof/flightlog/statistic"
)

// pair is what one flight says of dα/dCL and dδe/dCL.
type pair struct{ alpha, elevator number }

// pairUp keeps the flights that have both slopes.
func pairUp(alpha, elevator []line) []pair {
	var out []pair
	others := numbers(elevator, slopeTarget)
	for _, a := range numbers(alpha, slopeTarget) {
		for _, e := range others {
			if e.flight == a.flight && math.Abs(e.cg-a.cg) <= sameCG {
				out = append(out, pair{a, e})
				break
			}
		}
	}
	return out
}

func alphaOf(pairs []pair) []number {
	out := make([]number, len(pairs))
	for i, p := range pairs {
		out[i] = p.alpha
	}
	return out
}

func elevatorOf(pairs []pair) []number {
	out := make([]number, len(pairs))
	for i, p := range pairs {
		out[i] = p.elevator
	}
	return out
}

// lessElevator is dα/dCL less b·dδe/dCL, flight by flight.
func lessElevator(pairs []pair, b float64) []number {
	out := make([]number, len(pairs))
	for i, p := range pairs {
		out[i] = p.alpha
		out[i].value -= b * p.elevator.value
	}
	return out
}

// pairSpread is how the two slopes scatter together between flights, about a line in CG for each: Σ w·r·rᵀ over its degrees.
type pairSpread struct {
	weigh               component // w is one over its variance
	alpha, elevator, ae float64   // squares of both, and their product
	degrees             float64
}

// of is the variance of u = dα/dCL − b·dδe/dCL in units of 1/w.
func (s pairSpread) of(b float64) float64 { return s.alpha - 2*b*s.ae + b*b*s.elevator }

// spreadUnder sums residuals over configurations, flights weighed by a component.
func spreadUnder(configurations [][]pair, weigh component) pairSpread {
	out := pairSpread{weigh: weigh}
	for _, pairs := range configurations {
		if len(pairs) == 0 {
			continue
		}
		fit := fitPairs(pairs, weigh)
		for i, p := range pairs {
			if p.alpha.weight() < 1 { // no yardstick
				continue
			}
			w := 1 / weigh.variance(p.alpha)
			ra, re := p.alpha.value-fit.at(fit.alpha, i), p.elevator.value-fit.at(fit.elevator, i)
			out.alpha, out.elevator, out.ae = out.alpha+w*ra*ra, out.elevator+w*re*re, out.ae+w*ra*re
		}
		out.degrees += math.Max(0, fullWeights(pairs)-fit.parameters())
	}
	n := math.Max(1, out.degrees)
	out.alpha, out.elevator, out.ae = out.alpha/n, out.elevator/n, out.ae/n
	return out
}

// fullWeights counts the flights that are not played down.
func fullWeights(pairs []pair) float64 {
	sum := 0.0
	for _, p := range pairs {
		if p.alpha.weight() == 1 {
			sum++
		}
	}
	return sum
}

// withWeights gives pairs the weights of their numbers.
func withWeights(pairs []pair, numbers []number) []pair {
	out := make([]pair, len(pairs))
	for i, p := range pairs {
		out[i] = p
		out[i].alpha.distance = numbers[i].distance
	}
	return out
}

// pairSpreadOf plays down the flights whose u is wild at one b, finds its component, and the spread under it.
func pairSpreadOf(configurations [][]pair, b, sigma2 float64) ([][]pair, pairSpread) {
	var asked [][]number
	for _, pairs := range configurations {
		asked = append(asked, lessElevator(pairs, b))
	}
	marked, c := playDownNumbers(asked, sigma2)
	out := make([][]pair, len(configurations))
	for i, pairs := range configurations {
		out[i] = withWeights(pairs, marked[i])
	}
	return out, spreadUnder(out, c)
}

// chooseSpread plays wild flights down and prefers the pool unless the configuration's flights exceed it at the 99 % level. sigma2 is the
// variance inside its own flights.
func chooseSpread(pairs []pair, sigma2 float64, pooled *Scatter) ([]pair, pairSpread, []string, error) {
	first := fitPairs(pairs, component{between: 1})
	b := first.alpha[1] / first.elevator[1]
	if !allFinite(b) {
		b = 0
	}
	marked, own := pairSpreadOf([][]pair{pairs}, b, sigma2)
	var all [][]pair
	for i := range pooled.alpha {
		all = append(all, pairUp(pooled.alpha[i], pooled.elevator[i]))
	}
	pooledSigma2, _ := within(pooled.alpha)
	_, pool := pairSpreadOf(all, b, pooledSigma2)
	if pool.degrees <= own.degrees {
		words := wildWords(alphaOf(marked[0]))
		if own.degrees < 1 {
			return marked[0], own, words, notEnough(alphaOf(pairs), "two speeds or more")
		}
		return marked[0], own, words, nil
	}
	numbers, few := playDownUnder(lessElevator(pairs, b), pool.weigh)
	under := withWeights(pairs, numbers)
	mine := spreadUnder([][]pair{under}, pool.weigh)
	if own.degrees >= 1 && pool.of(b) > 0 {
		ratio := mine.of(b) / pool.of(b)
		if !few || ratio > statistic.FisherQuantile(math.Max(1, mine.degrees), pool.degrees) {
			return marked[0], own, append(wildWords(alphaOf(marked[0])), ownScatterWords(math.Sqrt(ratio))), nil
		}
	}
	return under, pool, wildWords(numbers), nil
}

// pairFit is one line in CG for each slope, about the weighted middle of the CGs, so that level and trend are independent.
type pairFit struct {
	offset          []float64  // CG less its middle, flight by flight
	alpha, elevator [2]float64 // level and trend
	level, trend    float64    // their variances for unit variance at weight one; trend is +Inf with one CG
}

func (f pairFit) at(line [2]float64, i int) float64 { return line[0] + line[1]*f.offset[i] }

func (f pairFit) parameters() float64 {
	if math.IsInf(f.trend, 1) {
		return 1
	}
	return 2
}

// fitPairs draws both lines through one pair or more.
func fitPairs(pairs []pair, weigh component) pairFit {
	out := pairFit{offset: make([]float64, len(pairs)), trend: math.Inf(1)}
	sum, middle := 0.0, 0.0
	for _, p := range pairs {
		w := 1 / weigh.variance(p.alpha)
		sum += w
		middle += w * (p.alpha.cg - pairs[0].alpha.cg)
	}
	middle = pairs[0].alpha.cg + middle/sum
	spread := 0.0
	for i, p := range pairs {
		w := 1 / weigh.variance(p.alpha)
		h := p.alpha.cg - middle
		out.offset[i] = h
		out.alpha[0], out.elevator[0] = out.alpha[0]+w*p.alpha.value/sum, out.elevator[0]+w*p.elevator.value/sum
		out.alpha[1], out.elevator[1] = out.alpha[1]+w*h*p.alpha.value, out.elevator[1]+w*h*p.elevator.value
		spread += w * h * h
	}
	out.level = 1 / sum
	if oneCG(elevatorOf(pairs)) {
		out.alpha[1], out.elevator[1] = 0, 0
		return out
	}
	out.alpha[1], out.elevator[1], out.trend = out.alpha[1]/spread, out.elevator[1]/spread, 1/spread
	return out
}

// steepness is the set of dα/dCL at the CG where dδe/dCL vanishes. With x = α0 − A it is the shadow of the ellipse
//
//	(x − B·ε0)²/M + (α1 − B·ε1)²/S ≤ t²·(Vαα − 2B·Vαε + B²·Vεε),
//
// which some B satisfies where the discriminant in B is not negative.
func (f pairFit) steepness(s pairSpread, t float64) Fieller {
	m, v, t2 := f.level, f.trend, t*t
	ratio := f.alpha[1] / f.elevator[1]
	shift := ratio * f.elevator[0]
	out := Fieller{Value: f.alpha[0] - shift, G: t2 * v * s.elevator / square(f.elevator[1])}
	out.SD = math.Sqrt(math.Max(0, s.of(ratio)) * (m + v*square(f.elevator[0]/f.elevator[1])))
	k := square(f.elevator[1])/v - t2*s.elevator
	b2 := square(f.elevator[0])/m + k
	c1 := f.alpha[1]*f.elevator[1]/v - t2*s.ae
	c0 := square(f.alpha[1])/v - t2*s.alpha
	e := f.elevator[0]
	root := math.Sqrt(math.Max(0, e*e*c1*c1+k*m*(c1*c1-b2*c0)))
	if !(k > 0) || !allFinite(out.Value, out.SD, root) {
		out.Set, out.Low, out.High = SetAll, math.NaN(), math.NaN()
		return out
	}
	out.Set, out.Low, out.High = SetInterval, f.alpha[0]-(e*c1+root)/k, f.alpha[0]-(e*c1-root)/k
	return out
}
