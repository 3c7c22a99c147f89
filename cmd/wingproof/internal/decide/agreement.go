package decide

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	greatestInflation = 10.0 // beyond this the model errors alone do not explain the flights
	priorDegrees      = 5.0  // weight of the declared errors against what contrasts between flights show
	leastSpread       = 0.5
	greatestSpread    = 3.0
)

// anchorAll updates theory with all flights, tests all innovations together against χ² at 95 %, and
// corrects the stated errors:
//
//   - Test failed: every model error grows by one factor until it passes. Where even tenfold errors do not
//     help, the flights contradict one another, and their errors grow by the same factor as the model's.
//   - Test passed: what distinguishes configurations (level and interaction errors) is rescaled by what the
//     flown contrasts show, against a prior worth five degrees of freedom and never below half. The bias
//     is never rescaled: one aircraft is one draw of it.
func anchorAll(t *theory, o *observations) (*belief, Agreement, error) {
	b, err := anchor(t, o)
	if err != nil {
		return nil, Agreement{}, err
	}
	n := len(o.rows)
	if n == 0 {
		return b, Agreement{Inflation: 1, Text: "no flights yet: theory stands alone with its stated errors"}, nil
	}
	a := Agreement{ChiSquare: b.chiSquare, Degrees: n, Inflation: 1, Bound: distuv.ChiSquared{K: float64(n)}.Quantile(0.95)}
	if a.ChiSquare > a.Bound {
		return inflate(t, o, a)
	}
	a.Text = fmt.Sprintf("flights agree with theory within its stated errors (joint misfit of %d numbers %.1f, at most %.1f expected)", n, a.ChiSquare, a.Bound)
	if !t.spreadKnown {
		b, err = respread(b, a.Bound)
	}
	return b, a, err
}

// inflate enlarges the model errors until the joint test passes.
func inflate(t *theory, o *observations, a Agreement) (*belief, Agreement, error) {
	widest, err := anchor(t.with(greatestInflation, t.spread), o)
	if err != nil {
		return nil, a, err
	}
	if widest.chiSquare > a.Bound {
		return inflateAll(t, o, a)
	}
	low, high, result := 1.0, greatestInflation, widest
	for high-low > 1e-6*high {
		middle := (low + high) / 2
		b, err := anchor(t.with(middle, t.spread), o)
		if err != nil {
			return nil, a, err
		}
		if b.chiSquare > a.Bound {
			low = middle
		} else {
			high, result = middle, b
		}
	}
	a.Inflation = high
	a.Text = fmt.Sprintf("flights disagree with theory: they differ from the lattice by more than its stated errors allow (joint misfit %.1f, at most %.1f expected); all model errors are taken %.2f times as large, so fewer parts come free",
		a.ChiSquare, a.Bound, a.Inflation)
	return result, a, nil
}

// inflateAll enlarges the errors of model and flights alike. With a curved measurement the test statistic
// does not scale exactly, so the factor is stepped up until the test passes.
func inflateAll(t *theory, o *observations, a Agreement) (*belief, Agreement, error) {
	factor := math.Sqrt(a.ChiSquare / a.Bound)
	for range 60 {
		b, err := anchor(t.with(factor, t.spread), o.scaled(factor))
		if err != nil {
			return nil, a, err
		}
		if b.chiSquare <= a.Bound*(1+1e-9) {
			a.Inflation = factor
			a.Text = fmt.Sprintf("flights disagree with theory and with one another by more than the stated errors allow (joint misfit %.1f, at most %.1f expected); all errors of lattice and flights are taken %.2f times as large, so fewer parts come free",
				a.ChiSquare, a.Bound, factor)
			return b, a, nil
		}
		factor *= 1.05
	}
	return nil, a, fmt.Errorf("flights contradict one another beyond any stated error; look for a wrong size or CG in the list of flights")
}

// respread rescales level and interaction errors, quantity by quantity, to the mode of the marginal
// likelihood times a prior on log τ² whose own mode is 1, so that no contrast flown changes nothing.
// A quantity flown in one configuration only keeps its declared errors.
func respread(b *belief, bound float64) (*belief, error) {
	spread := append([]float64(nil), b.theory.spread...)
	for range 2 {
		for q := range spread {
			if len(b.observed.configurations(q)) >= 2 {
				spread[q] = bestSpread(b, spread, q)
			}
		}
	}
	result, err := anchor(b.theory.with(1, spread), b.observed)
	if err != nil || result.chiSquare <= bound {
		return result, err
	}
	for q := range spread {
		spread[q] = math.Max(1, spread[q])
	}
	return anchor(b.theory.with(1, spread), b.observed)
}

// bestSpread is τ of one quantity, the others held: golden section on log τ² in fixed steps.
func bestSpread(b *belief, spread []float64, q int) float64 {
	marginal := logMarginal(b, spread, q)
	score := func(logSquare float64) float64 {
		return marginal(math.Exp(logSquare/2)) - priorDegrees/2*(logSquare+math.Exp(-logSquare))
	}
	low, high := 2*math.Log(leastSpread), 2*math.Log(greatestSpread)
	ratio := (math.Sqrt(5) - 1) / 2
	left, right := high-ratio*(high-low), low+ratio*(high-low)
	atLeft, atRight := score(left), score(right)
	for range 22 { // τ to five figures
		if atLeft >= atRight {
			high, right, atRight = right, left, atLeft
			left = high - ratio*(high-low)
			atLeft = score(left)
		} else {
			low, left, atLeft = left, right, atRight
			right = low + ratio*(high-low)
			atRight = score(right)
		}
	}
	return math.Exp((low + high) / 4)
}

// logMarginal is the log likelihood of all innovations as a function of τ of one quantity, linearised where the
// belief stands. Their covariance is of second degree in τ, so that three of them give it at any. It is factorised without its condition number,
// which would cost more than all else and is not asked for here.
func logMarginal(b *belief, spread []float64, q int) func(tau float64) float64 {
	at := func(tau float64) *mat.SymDense {
		trial := append([]float64(nil), spread...)
		trial[q] = tau
		return b.innovationCovarianceWith(b.theory.with(b.theory.inflation, trial))
	}
	zero, one, two := at(0), at(1), at(2)
	innovation := b.innovation().RawVector().Data
	n := len(b.rows)
	s, weights := mat.NewSymDense(n, nil), make([]float64, n)
	return func(tau float64) float64 {
		z, o, w := (tau-1)*(tau-2)/2, tau*(2-tau), tau*(tau-1)/2
		for i := range n {
			for j := range i + 1 {
				s.SetSym(i, j, z*zero.At(i, j)+o*one.At(i, j)+w*two.At(i, j))
			}
		}
		root, ok := lapack64.Potrf(s.RawSymmetric())
		if !ok {
			return math.Inf(-1)
		}
		copy(weights, innovation)
		lapack64.Potrs(root, blas64.General{Rows: n, Cols: 1, Stride: 1, Data: weights})
		logDet := 0.0
		for i := range n {
			logDet += 2 * math.Log(root.Data[i*root.Stride+i])
		}
		return -(logDet + floats.Dot(innovation, weights)) / 2
	}
}

// innovationCovarianceWith is that of all innovations under another theory, linearised where the belief stands.
func (b *belief) innovationCovarianceWith(t *theory) *mat.SymDense {
	s := mat.NewSymDense(len(b.rows), nil)
	for i, row := range b.rows {
		for j := range i + 1 {
			sum := b.observed.noise.At(i, j)
			for _, g := range row {
				for _, h := range b.rows[j] {
					sum += g.slope * h.slope * t.covariance(g.q, g.c, h.q, h.c)
				}
			}
			s.SetSym(i, j, sum)
		}
	}
	return s
}
