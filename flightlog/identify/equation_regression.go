package identify

import (
	"math"

	"wingproof/flightlog/leastsquares"
)

// regression is what one least-squares fit of each response on the columns gives; what each block has of
// its own is taken off beforehand.
type regression struct {
	values    [][]float64   // [response][column]
	residuals [][][]float64 // [response][block][sample]
	weights   [][]float64   // [response][block]: one over the residual variance
	inverse   [][][]float64 // [response]: (XᵀWX)⁻¹
	white     [][]float64   // [response][column]: variance as if residuals were white
	columns   [][][]float64 // [block][column][sample] without means
	step      float64       // s between samples, of all blocks
	apart     [][][]float64 // [block]: directions that were taken off
	fresh     float64       // share of the samples whose noise is independent
}

// regress fits every response of the blocks.
func regress(blocks []block) (regression, error) {
	r := regression{step: blocks[0].step, fresh: blocks[0].fresh}
	responses := len(blocks[0].responses)
	for _, b := range blocks {
		r.columns = append(r.columns, b.without(b.columns))
		r.apart = append(r.apart, b.apart)
	}
	for k := range responses {
		target := make([][]float64, len(blocks))
		for i, b := range blocks {
			target[i] = b.without(b.responses[k : k+1])[0]
		}
		if err := r.fit(target); err != nil {
			return regression{}, err
		}
	}
	return r, nil
}

// fit adds one response: first with equal weights, then with each block weighted by the scatter that it showed.
func (r *regression) fit(target [][]float64) error {
	weights := make([]float64, len(target))
	for i := range weights {
		weights[i] = 1
	}
	first, err := r.solve(target, weights)
	if err != nil {
		return err
	}
	weights = scatterWeights(split(first.Residuals, target))
	fit, err := r.solve(target, weights)
	if err != nil {
		return err
	}
	r.values = append(r.values, fit.Coefficients)
	r.residuals = append(r.residuals, split(fit.Residuals, target))
	r.weights = append(r.weights, weights)
	r.inverse = append(r.inverse, fit.Unscaled)
	r.white = append(r.white, diagonal(fit.Covariance))
	return nil
}

// kept is the share of the variance of noise that is left in the residuals of n samples.
func (r *regression) kept(n int) float64 {
	lost := float64(len(r.columns[0]))
	for _, own := range r.apart {
		lost += float64(len(own))
	}
	const least = 0.1 // a fit that uses nearly all that it was given must not divide by nothing
	return math.Max(least, 1-lost/(r.fresh*float64(n)))
}

// solve fits one response with a weight for each block.
func (r *regression) solve(target [][]float64, weights []float64) (leastsquares.Fit, error) {
	var rows [][]float64
	var y, w []float64
	for b, columns := range r.columns {
		for i := range target[b] {
			row := make([]float64, len(columns))
			for j := range columns {
				row[j] = columns[j][i]
			}
			rows, y, w = append(rows, row), append(y, target[b][i]), append(w, weights[b])
		}
	}
	return leastsquares.Linear(rows, y, w)
}

func split(values []float64, like [][]float64) [][]float64 {
	out := make([][]float64, len(like))
	for i, l := range like {
		out[i], values = values[:len(l)], values[len(l):]
	}
	return out
}

func diagonal(m [][]float64) []float64 {
	out := make([]float64, len(m))
	for i := range m {
		out[i] = m[i][i]
	}
	return out
}

// scatterPrior is how many samples of the common scatter each block's own is mixed with, so that no block weighs much by luck.
// Common practice, no source.
const scatterPrior = 50

// scatterWeights is one over the residual variance of each block.
func scatterWeights(residuals [][]float64) []float64 {
	sums, all, n := make([]float64, len(residuals)), 0.0, 0.0
	for b, r := range residuals {
		for _, v := range r {
			sums[b] += v * v
		}
		all += sums[b]
		n += float64(len(r))
	}
	out := make([]float64, len(residuals))
	for b, r := range residuals {
		variance := (sums[b] + scatterPrior*all/n) / (float64(len(r)) + scatterPrior)
		out[b] = 1 / math.Max(variance, smallestVariance)
	}
	return out
}

// smallestVariance keeps the weights of a fit without any scatter finite: far below any noise of a coefficient.
const smallestVariance = 1e-24
