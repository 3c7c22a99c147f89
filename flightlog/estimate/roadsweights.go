package estimate

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// boundWeights are the weights in [0, 1] with sum one that give the least variance: generalised least squares, the road with the most
// negative weight left out until none is. With up to three roads that is the least there is, with more it may miss it by
// little; the stated variance holds for whatever weights are used.
func boundWeights(covariance [][]float64) []float64 {
	n := len(covariance)
	var kept []int
	for i := range n {
		kept = append(kept, i)
	}
	for {
		w := bestWeights(covariance, kept)
		worst := 0
		for k := range w {
			if w[k] < w[worst] {
				worst = k
			}
		}
		if w[worst] >= 0 {
			out := make([]float64, n)
			for k, i := range kept {
				out[i] = w[k]
			}
			return out
		}
		kept = append(append([]int(nil), kept[:worst]...), kept[worst+1:]...)
	}
}

// bestWeights are V⁻¹1/(1ᵀV⁻¹1) for the numbers kept; equal ones where V cannot be inverted.
func bestWeights(covariance [][]float64, kept []int) []float64 {
	n := len(kept)
	out := make([]float64, n)
	inverse, ok := inverseOf(covariance, kept)
	sum := 0.0
	for i := range n {
		for k := range n {
			if ok {
				out[i] += inverse.At(i, k)
			}
		}
		sum += out[i]
	}
	for i := range n {
		if !ok || !(sum > 0) {
			out[i] = 1 / float64(n)
			continue
		}
		out[i] /= sum
	}
	return out
}

// inverseOf inverts the rows and columns kept, scaled to a unit diagonal first.
func inverseOf(covariance [][]float64, kept []int) (*mat.SymDense, bool) {
	n := len(kept)
	scale := make([]float64, n)
	for i, a := range kept {
		scale[i] = math.Sqrt(covariance[a][a])
		if !(scale[i] > 0) {
			return nil, false
		}
	}
	m := mat.NewSymDense(n, nil)
	for i, a := range kept {
		for k, b := range kept[:i+1] {
			m.SetSym(i, k, covariance[a][b]/(scale[i]*scale[k]))
		}
	}
	var factor mat.Cholesky
	var inverse mat.SymDense
	if !factor.Factorize(m) || factor.InverseTo(&inverse) != nil {
		return nil, false
	}
	for i := range kept {
		for k := range kept[:i+1] {
			inverse.SetSym(i, k, inverse.At(i, k)/(scale[i]*scale[k]))
		}
	}
	return &inverse, true
}
