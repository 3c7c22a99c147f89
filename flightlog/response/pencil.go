package response

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/mat"
)

// pencilOrder is the number of poles that the pencil looks for: one pair for the motion and one for what is left of the drift.
const pencilOrder = 4

// pencil gives the poles of the swings of a signal, the first guess of a fit.
//
// Windows of a sum of exponentials span a space of as many dimensions as there are exponentials; shifting a window by one sample
// multiplies each exponential by its pole, so the poles are the eigenvalues of V₁⁺V₂, V₁ and V₂ being the leading right singular
// vectors without their last and first row.
//
// Source: Y. Hua and T. K. Sarkar, Matrix pencil method, IEEE Trans. ASSP 38, 1990 (from memory).
func pencil(values []float64, step float64) []poles {
	n := len(values)
	width := n/3 + 1
	if n-width < pencilOrder || width <= pencilOrder {
		return nil
	}
	windows := mat.NewDense(n-width+1, width, nil)
	flat := detrended(values)
	for i := range n - width + 1 {
		windows.SetRow(i, flat[i:i+width])
	}
	var svd mat.SVD
	if !svd.Factorize(windows, mat.SVDThin) {
		return nil
	}
	var v mat.Dense
	svd.VTo(&v)
	order := min(pencilOrder, rankOf(svd.Values(nil)))
	if order == 0 {
		return nil
	}
	first, second := v.Slice(0, width-1, 0, order), v.Slice(1, width, 0, order)
	var shift mat.Dense
	if err := shift.Solve(first, second); err != nil {
		return nil
	}
	var eigen mat.Eigen
	if !eigen.Factorize(&shift, mat.EigenNone) {
		return nil
	}
	return swinging(eigen.Values(nil), step)
}

// rankOf counts the singular values that stand above round-off.
func rankOf(values []float64) int {
	for i, v := range values {
		if !(v > 1e-10*values[0]) {
			return i
		}
	}
	return len(values)
}

// swinging turns the complex poles of samples into those of time.
func swinging(values []complex128, step float64) []poles {
	var out []poles
	for _, z := range values {
		if imag(z) <= 0 || cmplx.Abs(z) == 0 {
			continue
		}
		s := cmplx.Log(z)
		turn := imag(s) / step
		out = append(out, poles{-real(s) / step, turn * turn})
	}
	return out
}

// guesses adds to the poles of the pencil a coarse net over the band, for noise in which the pencil loses the motion.
func guesses(values []float64, step float64, b band) []poles {
	var out []poles
	for _, p := range pencil(values, step) {
		if b.holds(p) {
			out = append(out, p)
		}
	}
	const lines = 6
	for i := range lines {
		ratio := (float64(i) + 0.5) / lines
		out = append(out, polesOf(b.slowest*math.Pow(b.fastest/b.slowest, ratio), b.guess))
	}
	return out
}
