package response

import "math"

// solved is a least-squares solution by Householder reflections, column by column: the residuals keep the digits that
// normal equations would lose, and the small, tall systems of this package need nothing more.
type solved struct {
	coefficients []float64
	residuals    []float64
	logarithms   float64 // ln det XᵀX
}

// leastSquares consumes the columns; the last one is the response. ok is false when the columns move together.
//
// Source: G. H. Golub and C. F. Van Loan, Matrix Computations, algorithm 5.2.1 (from memory).
func leastSquares(columns [][]float64) (out solved, ok bool) {
	m := len(columns) - 1
	n := len(columns[0])
	diagonal := make([]float64, m)
	heads := make([]float64, m)
	for j := range m {
		column := columns[j]
		whole := math.Sqrt(dot(column, column))
		below := math.Sqrt(dot(column[j:], column[j:]))
		if !(below > 1e-11*whole) || math.IsInf(whole, 0) {
			return out, false
		}
		diagonal[j] = -math.Copysign(below, column[j])
		column[j] -= diagonal[j]
		heads[j] = column[j]
		v := column[j:]
		square := -diagonal[j] * heads[j] // half of vᵀv
		for _, other := range columns[j+1:] {
			add(other[j:], v, -dot(v, other[j:])/square)
		}
		out.logarithms += 2 * math.Log(below)
	}
	y := columns[m]
	out.coefficients = make([]float64, m)
	for j := m - 1; j >= 0; j-- {
		sum := y[j]
		for k := j + 1; k < m; k++ {
			sum -= float64(columns[k][j] * out.coefficients[k])
		}
		out.coefficients[j] = sum / diagonal[j]
	}
	out.residuals = make([]float64, n)
	copy(out.residuals[m:], y[m:])
	for j := m - 1; j >= 0; j-- {
		v := columns[j][j:]
		add(out.residuals[j:], v, dot(v, out.residuals[j:])/(diagonal[j]*heads[j]))
	}
	return out, true
}

// add is a += k·b.
func add(a, b []float64, k float64) {
	for i, v := range b {
		a[i] += float64(k * v)
	}
}
