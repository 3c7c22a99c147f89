package estimate

import (
	"math"
	"slices"
)

// smallestOwn is the share of a road's standard deviation that it is taken to have of its own at least, so that two roads which borrow
// everything from one place leave a covariance that can be inverted (derived: far above rounding, far below mattering).
const smallestOwn = 1e-4

// steadyPrior is what the typical variance of the roads is worth, in degrees of freedom, when weights are set (common practice, no source: roads may
// well differ, so less than elsewhere). It changes weights, not stated variances.
const steadyPrior = 2.0

// enoughDegrees are as good as known (common practice, no source).
const enoughDegrees = 30.0

// errorPart is one independent part of the errors of several numbers: its covariance and the degrees of freedom behind it.
type errorPart struct {
	covariance [][]float64
	degrees    float64
}

// joint is what several numbers have of errors.
type joint struct {
	values []float64
	parts  []errorPart // random ones first
	random int         // how many of the parts are random
	common []map[string]float64
}

// jointErrors splits the errors of roads into parts: one for what each road has of its own, one for what was borrowed, one for each
// shared source.
func jointErrors(roads []Road, loan Loan) joint {
	n := len(roads)
	j := joint{}
	borrowed, degrees := borrowedPart(roads, loan)
	for i, road := range roads {
		r := road.Result
		j.values = append(j.values, *r.Value)
		j.common = append(j.common, r.Common)
		own := math.Max(square(*r.SDOwn)-borrowed[i][i], square(smallestOwn**r.SDOwn))
		part := zeros(n)
		part[i][i] = own
		j.parts = append(j.parts, errorPart{part, r.Degrees})
	}
	j.parts = append(j.parts, errorPart{borrowed, degrees})
	j.random = len(j.parts)
	j.parts = append(j.parts, commonParts(j.common)...)
	return j
}

// borrowedPart is the covariance of what roads borrowed. Its degrees of freedom are the fewest of those that borrow.
func borrowedPart(roads []Road, loan Loan) (covariance [][]float64, degrees float64) {
	n := len(roads)
	covariance, degrees = zeros(n), math.Inf(1)
	for i, a := range roads {
		if len(a.Borrowed) > 0 && a.Result.Degrees > 0 {
			degrees = math.Min(degrees, a.Result.Degrees)
		}
		for k, b := range roads[:i+1] {
			covariance[i][k] = loan.between(a.Borrowed, b.Borrowed)
			covariance[k][i] = covariance[i][k]
		}
	}
	for i, road := range roads { // a loan may say more than the road's own standard deviation holds
		if whole := square(*road.Result.SDOwn); covariance[i][i] > whole && covariance[i][i] > 0 {
			shrink := math.Sqrt(whole / covariance[i][i])
			for k := range roads {
				covariance[i][k] *= shrink
				covariance[k][i] *= shrink
			}
		}
	}
	return covariance, degrees
}

// between is the covariance of two sums of borrowed errors; names that the loan does not hold have a standard deviation of one.
func (l Loan) between(a, b map[string]float64) float64 {
	sum := 0.0
	for _, name := range sourceNames(a) {
		i, lent := l.find(name)
		if !lent {
			sum += a[name] * b[name]
			continue
		}
		for _, other := range sourceNames(b) {
			k, too := l.find(other)
			switch {
			case !too:
			case l.Covariance != nil:
				sum += a[name] * b[other] * l.Covariance[i][k]
			case i == k:
				sum += a[name] * b[other] * square(l.Derivatives[i].SD)
			}
		}
	}
	return sum
}

// commonParts are the shared sources, each of them known.
func commonParts(common []map[string]float64) []errorPart {
	var names []string
	for _, c := range common {
		names = append(names, sourceNames(c)...)
	}
	slices.Sort(names)
	var out []errorPart
	for _, name := range slices.Compact(names) {
		part := zeros(len(common))
		for i := range common {
			for k := range common {
				part[i][k] = common[i][name] * common[k][name]
			}
		}
		out = append(out, errorPart{part, math.Inf(1)})
	}
	return out
}

// alongWeights is the variance of the random part of Σ w·value, and Satterthwaite's degrees of freedom. Since the variances that the
// weights come from are themselves uncertain, the mean scatters more than they say, and their smallest counts for too much. The first-order
// correction for both is
//
//	Σ r(1 + r)·(2/degrees)·wᵀ·V_part·P·V_part·w,
//
// P as in spread. With r = 1 that is Kenward and Roger's 2Λ, and for independent roads P. Meier's 4·V·Σ w(1 − w)/degrees. Weights
// from steadied variances feel only the share r = degrees/(degrees + steadyPrior) of a variance's error: the first factor counts what they scatter,
// with r², the second what the smallest variances are favoured, with r.
//
// Sources: P. Meier, Variance of a weighted mean, Biometrics 9, 1953; M. G. Kenward and J. H. Roger, Biometrics 53, 1997 (both from memory).
func (j joint) alongWeights(w []float64) (variance, degrees float64) {
	var parts []variancePart
	projector, ok := residualProjector(ones(len(w)), total(j.parts))
	correction := 0.0
	for _, p := range j.parts[:j.random] {
		v := math.Max(0, quadratic(w, p.covariance))
		parts = append(parts, variancePart{v, p.degrees})
		variance += v
		if ok && !math.IsInf(p.degrees, 1) {
			moved, felt := times(p.covariance, w), p.degrees/(p.degrees+steadyPrior)
			for i := range w {
				for k := range w {
					correction += felt * (1 + felt) * 2 / p.degrees * moved[i] * projector.At(i, k) * moved[k]
				}
			}
		}
	}
	return variance + math.Max(0, correction), satterthwaite(parts)
}

func times(m [][]float64, w []float64) []float64 {
	out := make([]float64, len(w))
	for i := range out {
		for k := range w {
			out[i] += m[i][k] * w[k]
		}
	}
	return out
}

// forWeights is the covariance that the weights go by: shared errors are taken relative to the value, at the median of all, where the values
// are alike enough for that to make sense.
func (j joint) forWeights() [][]float64 {
	common := j.common
	middle := median(j.values)
	least, most := slices.Min(j.values)/middle, slices.Max(j.values)/middle
	if least > 0.5 && most < 2 {
		common = nil
		for i, c := range j.common {
			even := map[string]float64{}
			for name, v := range c {
				even[name] = v * middle / j.values[i]
			}
			common = append(common, even)
		}
	}
	return total(append(j.steadied(), commonParts(common)...))
}

// steadied are the random parts with what each road has of its own drawn towards the typical road, so that one which scatters
// little by luck does not count for all. Roads that borrow all but a hundredth of their variance stay as they are.
func (j joint) steadied() []errorPart {
	n := len(j.values)
	borrowed := j.parts[n].covariance
	typical, sum := 0.0, 0.0
	alone := make([]bool, n)
	for i := range n {
		own := j.parts[i].covariance[i][i]
		if alone[i] = own > 0.01*(own+borrowed[i][i]); alone[i] {
			nu := math.Min(j.parts[i].degrees, enoughDegrees)
			typical += nu * own
			sum += nu
		}
	}
	out := slices.Clone(j.parts[:j.random])
	for i := range n {
		if nu := out[i].degrees; alone[i] && !math.IsInf(nu, 1) {
			part := zeros(n)
			part[i][i] = (nu*out[i].covariance[i][i] + steadyPrior*typical/sum) / (nu + steadyPrior)
			out[i].covariance = part
		}
	}
	return out
}

// total is the sum of the parts.
func total(parts []errorPart) [][]float64 {
	out := zeros(len(parts[0].covariance))
	for _, p := range parts {
		for i := range out {
			for k := range out {
				out[i][k] += p.covariance[i][k]
			}
		}
	}
	return out
}

func zeros(n int) [][]float64 {
	out := make([][]float64, n)
	for i := range out {
		out[i] = make([]float64, n)
	}
	return out
}

func quadratic(w []float64, m [][]float64) float64 {
	sum := 0.0
	for i := range w {
		for k := range w {
			sum += w[i] * m[i][k] * w[k]
		}
	}
	return sum
}
