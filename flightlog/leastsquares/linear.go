package leastsquares

import (
	"errors"
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// ErrUndetermined says that the data do not fix the parameters: too few rows, or columns that move together.
var ErrUndetermined = errors.New("the data do not determine the parameters")

// Fit is a weighted linear least-squares fit y = Σ b_j·x_j.
type Fit struct {
	Coefficients []float64
	Covariance   [][]float64 // ResidualSD²·(XᵀWX)⁻¹
	Unscaled     [][]float64 // (XᵀWX)⁻¹
	Residuals    []float64   // y − Xb, unweighted
	ResidualSS   float64     // Σ w·r²
	ResidualSD   float64     // √(ResidualSS/Degrees); 0 when Degrees is 0
	Degrees      int         // rows of positive weight − parameters
	Condition    float64     // of √W·X with columns of length one (Frobenius norms; from the number of parameters up); it does not depend on the columns' units
}

// Linear solves min Σ w_i·(y_i − Σ_j b_j·x_ij)².
//
// rows holds one row of x a data point, response y and weight w share its length; a nil weight means ones, and a
// row of weight 0 counts as absent. The arithmetic follows the condition of the design: QR in float64, refined with
// residuals of twice the digits, while the columns are well apart, and QR in twice the digits when they are nearly
// collinear. Against fractions, coefficients and covariances of the numbers given kept twelve digits and more up to a
// condition of 6e14, with scatter from a millionth to a million times the response. What the numbers given are worth is
// another matter: of columns that were rounded to float64, a condition of 1e10 leaves some six digits. Condition tells.
//
// It returns ErrUndetermined (wrapped) when there are fewer rows than columns, or when rounding the columns to
// float64 could hide that one follows from the others; and an error that names the place when lengths differ or
// a value is not finite. Columns that are powers of one of them are taken at full length: see powersOf. A fit whose
// residuals are no more than rounding is exact: they are returned as 0.
//
// Source: G. H. Golub and C. F. Van Loan, Matrix Computations, section 5.3; Å. Björck, Numerical Methods for Least
// Squares Problems, sections 2.9 and 6.6 (both from memory).
func Linear(rows [][]float64, response, weight []float64) (Fit, error) {
	d, err := newDesign(rows, response, weight)
	if err != nil {
		return Fit{}, err
	}
	s, ok := d.solveQuickly()
	if !ok {
		if s, err = d.solveExtended(); err != nil {
			return Fit{}, err
		}
	}
	return d.fit(s)
}

// answer is the solution in the design's units: columns and response times powers of two.
type answer struct {
	coefficients []extended
	inverse      []float64 // R⁻¹, upper triangle, row after row
	residuals    []float64
	condition    float64
}

// fit returns an answer to the caller's units.
func (d design) fit(s answer) (Fit, error) {
	p := d.parameters
	fit := Fit{Coefficients: make([]float64, p), Residuals: s.residuals, Degrees: d.counted - p, Condition: s.condition}
	for j, b := range s.coefficients {
		fit.Coefficients[j] = b.value() / d.scale[p] * d.scale[j]
	}
	d.settle(s)
	var squares accumulator
	for i, r := range s.residuals {
		r /= d.scale[p]
		s.residuals[i] = r
		squares.add(float64(weightAt(d.weight, i)*r), r)
	}
	fit.ResidualSS = squares.extended().value()
	if fit.Degrees > 0 {
		fit.ResidualSD = math.Sqrt(fit.ResidualSS / float64(fit.Degrees))
	}
	fit.Unscaled = timesTranspose(s.inverse, d.scale[:p])
	fit.Covariance = Scaled(fit.Unscaled, float64(fit.ResidualSD*fit.ResidualSD))
	if !statistic.Finite(fit.Coefficients...) || !statistic.Finite(fit.ResidualSS) {
		return Fit{}, fmt.Errorf("the fit is too large for a number of the computer; give columns and response in units nearer to one")
	}
	return fit, nil
}

// settle makes the residuals 0 when together they do not exceed the rounding of the numbers that they are the difference
// of, 2⁻⁵³ of the response and of each term of a row: what is left of an exact fit would else pass for scatter. Terms that
// cancel do not count beyond eight times the largest response, scaled here to less than one; scatter that small is real.
func (d design) settle(s answer) {
	var left, rounding float64
	for i, row := range d.rows {
		w := weightAt(d.weight, i)
		if w == 0 {
			continue
		}
		terms := math.Abs(d.response[i] * d.scale[d.parameters])
		for j, x := range row {
			terms += math.Abs(float64(x * d.scale[j] * s.coefficients[j].high))
		}
		left += float64(w * s.residuals[i] * s.residuals[i])
		rounding += min(float64(w*terms*terms), 64)
	}
	if left > 0x1p-106*rounding {
		return
	}
	for i := range s.residuals {
		if weightAt(d.weight, i) > 0 {
			s.residuals[i] = 0
		}
	}
}

// timesTranspose returns S·R⁻¹R⁻ᵀ·S, S the diagonal of the scale: (XᵀWX)⁻¹ with the scaling of columns undone.
func timesTranspose(inverse, scale []float64) [][]float64 {
	p := len(scale)
	out := square(p)
	for i := range p {
		for j := i; j < p; j++ {
			sum := 0.0
			for k := j; k < p; k++ {
				sum += float64(inverse[i*p+k] * inverse[j*p+k])
			}
			out[i][j] = sum * scale[i] * scale[j]
			out[j][i] = out[i][j]
		}
	}
	return out
}

// square returns a p × p matrix of zeros in one piece of memory.
func square(p int) [][]float64 {
	out, cells := make([][]float64, p), make([]float64, p*p)
	for i := range out {
		out[i] = cells[i*p : (i+1)*p : (i+1)*p]
	}
	return out
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
