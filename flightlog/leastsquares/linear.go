package leastsquares

import (
	"errors"
	"fmt"
	"math"

	"wingproof/flightlog/statistic"

	"gonum.org/v1/gonum/mat"
)

// ErrUndetermined says that the data do not fix the parameters: too few rows, or columns that move together.
var ErrUndetermined = errors.New("the data do not determine the parameters")

// maxCondition is the condition number of the scaled design beyond which a fit is refused: fewer than six of
// the sixteen digits that a float64 holds would be left.
const maxCondition = 1e10

// Fit is a weighted linear least-squares fit y = Σ b_j·x_j.
type Fit struct {
	Coefficients []float64
	Covariance   [][]float64 // ResidualSD²·(XᵀWX)⁻¹
	Unscaled     [][]float64 // (XᵀWX)⁻¹
	Residuals    []float64   // y − Xb, unweighted
	ResidualSS   float64     // Σ w·r²
	ResidualSD   float64     // √(ResidualSS/Degrees); 0 when Degrees is 0
	Degrees      int         // rows − parameters
}

// Linear solves min Σ w_i·(y_i − Σ_j b_j·x_ij)² by a QR decomposition of the column-scaled design.
//
// rows holds one row of x a data point, response y and weight w share its length; a nil weight means
// ones. It returns ErrUndetermined (wrapped) when there are fewer rows than columns or the columns are
// collinear, and an error that names the place when lengths differ or a value is not finite.
//
// Source: G. H. Golub and C. F. Van Loan, Matrix Computations, section 5.3 (from memory).
func Linear(rows [][]float64, response, weight []float64) (Fit, error) {
	scaled, target, norm, err := scaledProblem(rows, response, weight)
	if err != nil {
		return Fit{}, err
	}
	n, p := scaled.Dims()
	var qr mat.QR
	qr.Factorize(scaled)
	if cond := qr.Cond(); !(cond < maxCondition) {
		return Fit{}, fmt.Errorf("columns of the design are collinear (condition %.2g): %w", cond, ErrUndetermined)
	}
	b, err := solveRefined(&qr, scaled, target)
	if err != nil {
		return Fit{}, err
	}
	fit := Fit{Coefficients: make([]float64, p), Unscaled: unscaledCovariance(&qr, norm), Residuals: make([]float64, n), Degrees: n - p}
	for j := range p {
		fit.Coefficients[j] = b.AtVec(j) / norm[j]
	}
	for i, row := range rows {
		r := response[i]
		for j, x := range row {
			r -= float64(fit.Coefficients[j] * x)
		}
		fit.Residuals[i] = r
		fit.ResidualSS += weightAt(weight, i) * r * r
	}
	if fit.Degrees > 0 {
		fit.ResidualSD = math.Sqrt(fit.ResidualSS / float64(fit.Degrees))
	}
	fit.Covariance = Scaled(fit.Unscaled, fit.ResidualSD*fit.ResidualSD)
	return fit, nil
}

// scaledProblem returns √W·X with columns of length one, √W·y, and the lengths that were divided out.
func scaledProblem(rows [][]float64, response, weight []float64) (*mat.Dense, *mat.VecDense, []float64, error) {
	n := len(rows)
	if n == 0 || len(response) != n || (weight != nil && len(weight) != n) {
		return nil, nil, nil, fmt.Errorf("%d rows, %d responses, %d weights; lengths must agree and not be 0: %w", n, len(response), len(weight), ErrUndetermined)
	}
	p := len(rows[0])
	if p == 0 || n < p {
		return nil, nil, nil, fmt.Errorf("%d rows for %d parameters: %w", n, p, ErrUndetermined)
	}
	x, y, norm := mat.NewDense(n, p, nil), mat.NewVecDense(n, nil), make([]float64, p)
	for i, row := range rows {
		w := weightAt(weight, i)
		if len(row) != p || !statistic.Finite(row...) || !statistic.Finite(response[i], w) || w < 0 {
			return nil, nil, nil, fmt.Errorf("row %d: needs %d finite values, a finite response and a weight of 0 or more", i, p)
		}
		root := math.Sqrt(w)
		y.SetVec(i, root*response[i])
		for j, v := range row {
			x.Set(i, j, root*v)
			norm[j] = math.Hypot(norm[j], root*v)
		}
	}
	for j := range p {
		if norm[j] == 0 {
			return nil, nil, nil, fmt.Errorf("column %d of the design is zero: %w", j, ErrUndetermined)
		}
		for i := range n {
			x.Set(i, j, x.At(i, j)/norm[j])
		}
	}
	return x, y, norm, nil
}

// solveRefined solves the least-squares problem and improves the answer once from its own residual.
func solveRefined(qr *mat.QR, x *mat.Dense, y *mat.VecDense) (*mat.VecDense, error) {
	var b, fitted, correction mat.VecDense
	if err := qr.SolveVecTo(&b, false, y); err != nil {
		return nil, fmt.Errorf("solving the least-squares problem: %w", errors.Join(ErrUndetermined, err))
	}
	fitted.MulVec(x, &b)
	fitted.SubVec(y, &fitted)
	if err := qr.SolveVecTo(&correction, false, &fitted); err != nil {
		return nil, fmt.Errorf("refining the least-squares solution: %w", errors.Join(ErrUndetermined, err))
	}
	b.AddVec(&b, &correction)
	return &b, nil
}

// unscaledCovariance returns (XᵀWX)⁻¹ = R⁻¹R⁻ᵀ with the column scaling undone.
func unscaledCovariance(qr *mat.QR, norm []float64) [][]float64 {
	p := len(norm)
	var r mat.Dense
	qr.RTo(&r)
	inverse := make([][]float64, p) // R⁻¹ by back substitution
	for i := range inverse {
		inverse[i] = make([]float64, p)
	}
	for j := range p {
		inverse[j][j] = 1 / r.At(j, j)
		for i := j - 1; i >= 0; i-- {
			sum := 0.0
			for k := i + 1; k <= j; k++ {
				sum += r.At(i, k) * inverse[k][j]
			}
			inverse[i][j] = -sum / r.At(i, i)
		}
	}
	out := make([][]float64, p)
	for i := range p {
		out[i] = make([]float64, p)
		for j := range p {
			for k := range p {
				out[i][j] += inverse[i][k] * inverse[j][k]
			}
			out[i][j] /= norm[i] * norm[j]
		}
	}
	return out
}

func weightAt(weight []float64, i int) float64 {
	if weight == nil {
		return 1
	}
	return weight[i]
}

// Scaled is a matrix times a factor.
func Scaled(m [][]float64, factor float64) [][]float64 {
	out := make([][]float64, len(m))
	for i, row := range m {
		out[i] = make([]float64, len(row))
		for j, v := range row {
			out[i][j] = factor * v
		}
	}
	return out
}
