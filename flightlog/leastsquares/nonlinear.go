package leastsquares

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog/statistic"
)

// ErrNotConverged says that a search ended before it found a minimum.
var ErrNotConverged = errors.New("the search for the least sum of squares did not arrive")

// Problem is min Σ w_i·r_i(b)² over the parameters b.
//
// It is given either by its residuals, with the Jacobian if there is one, or by the sums that they enter (Normal), for whoever works
// through more rows than he wants to keep. Functions fill what they are handed; a residual that is not finite says that these
// parameters cannot be, and the search goes elsewhere; an error ends it.
type Problem struct {
	Rows      int // how many residuals
	Residuals func(parameters, residuals []float64) error
	// Jacobian gives ∂r_i/∂b_j in jacobian[i][j]; nil takes differences of the residuals.
	Jacobian func(parameters []float64, jacobian [][]float64) error
	Weight   []float64 // w, 0 or more; nil means ones

	// Normal, used when Residuals is nil, returns Σ w·r² and, when matrix is not nil, adds JᵀWJ and JᵀWr to the zeros that
	// it is handed; the upper triangle with the diagonal is enough. Forming the squares costs half of the digits.
	Normal func(parameters []float64, matrix [][]float64, gradient []float64) (squares float64, err error)
}

// Options may all be left zero.
type Options struct {
	// Tolerance is how far from the minimum the parameters may stay, as a share of their standard deviation (the relative
	// offset of Bates and Watts); 0 means 1e-9.
	Tolerance float64
	// Iterations is how often the problem may be made linear; 0 means 1,000.
	Iterations int
	// Size gives, for each parameter, a change that matters, for differences where the parameter itself is near 0; nil means one.
	Size []float64
}

// Stop says why a search ended.
type Stop string

// The ends of a search.
const (
	Settled   Stop = "settled"   // the parameters are as near to the minimum as was asked
	Rounding  Stop = "rounding"  // rounding of the residuals hides what is left
	Exact     Stop = "exact"     // the residuals vanish to within rounding
	Exhausted Stop = "exhausted" // iterations ran out
	Blocked   Stop = "blocked"   // no step lowers the sum of squares, though its slope says that one should
)

// Solution is a fit that is not linear in its parameters. Its covariance is that of the model made linear at the solution.
type Solution struct {
	Parameters  []float64
	Covariance  [][]float64 // ResidualSD²·(JᵀWJ)⁻¹
	Unscaled    [][]float64 // (JᵀWJ)⁻¹
	Residuals   []float64   // at the solution, unweighted; nil when the problem gives sums
	ResidualSS  float64     // Σ w·r²
	ResidualSD  float64     // √(ResidualSS/Degrees); 0 when Degrees is 0
	Degrees     int         // rows of positive weight − parameters
	Condition   float64     // of √W·J with columns of length one, as in Fit
	Iterations  int         // how often the problem was made linear
	Evaluations int         // how often residuals (or their sum) were asked for
	Offset      float64     // what Tolerance asks about, reached
	Stop        Stop
}

const (
	defaultTolerance  = 1e-9 // common practice, no source: far below what anybody reads off a standard deviation
	defaultIterations = 1000 // common practice, no source; difficult published problems take some hundreds
)

// Nonlinear finds the parameters of the least sum of squares near start.
//
// The search is Levenberg and Marquardt's method in a region of trust; then undamped steps follow, judged by the slope alone, since
// near the minimum a sum of squares is too flat to show more than half of the digits. Differences for the Jacobian at the
// solution, which the covariance rests on, are of fourth order.
//
// It returns ErrUndetermined (wrapped) when there are fewer rows than parameters or when the solution leaves a combination of parameters
// free, ErrNotConverged when no minimum was reached, each with what was found so far in Solution and without a covariance; and an
// error that names the place when lengths differ or a number is not finite.
//
// Source: J. J. Moré, The Levenberg–Marquardt Algorithm: Implementation and Theory, Lecture Notes in Mathematics 630, 1978;
// D. M. Bates and D. G. Watts, Nonlinear Regression Analysis and Its Applications, 1988, section 2.2 (both from memory).
func Nonlinear(problem Problem, start []float64, options Options) (Solution, error) {
	s, err := newSearch(problem, start, options)
	if err != nil {
		return Solution{}, err
	}
	if err := s.descend(); err != nil {
		return s.found(), err
	}
	last, err := s.polish()
	if err != nil {
		return s.found(), err
	}
	return s.conclude(last)
}

// newSearch checks the problem and evaluates it at the start.
func newSearch(problem Problem, start []float64, options Options) (*search, error) {
	if err := check(problem, start, options); err != nil {
		return nil, err
	}
	s := &search{problem: problem, options: options, start: start, point: slices.Clone(start), n: problem.Rows, p: len(start), counted: problem.Rows}
	if s.options.Tolerance == 0 {
		s.options.Tolerance = defaultTolerance
	}
	if s.options.Iterations == 0 {
		s.options.Iterations = defaultIterations
	}
	for _, w := range problem.Weight {
		s.root = append(s.root, math.Sqrt(w))
		if w == 0 {
			s.counted--
		}
	}
	if s.counted < s.p {
		return nil, fmt.Errorf("%d rows of positive weight for %d parameters: %w", s.counted, s.p, ErrUndetermined)
	}
	s.reserve()
	for j := range s.steps {
		s.steps[j] = shortStep
	}
	squares, err := s.evaluate(s.point, s.residuals)
	if err != nil {
		return nil, fmt.Errorf("at the starting values %v: %w", start, err)
	}
	if !statistic.Finite(squares) {
		return nil, fmt.Errorf("at the starting values %v the sum of squares is not finite; start nearer to the solution", start)
	}
	s.squares = squares
	return s, nil
}

func check(problem Problem, start []float64, options Options) error {
	switch {
	case (problem.Residuals == nil) == (problem.Normal == nil):
		return fmt.Errorf("a problem needs either residuals or normal sums")
	case len(start) == 0 || !statistic.Finite(start...):
		return fmt.Errorf("starting values %v: needs one finite value a parameter", start)
	case problem.Weight != nil && (len(problem.Weight) != problem.Rows || !statistic.Finite(problem.Weight...) || slices.Min(append([]float64{0}, problem.Weight...)) < 0):
		return fmt.Errorf("%d weights for %d rows; needs one finite weight of 0 or more a row", len(problem.Weight), problem.Rows)
	case options.Size != nil && (len(options.Size) != len(start) || !statistic.Finite(options.Size...) || slices.Min(options.Size) <= 0):
		return fmt.Errorf("%d sizes for %d parameters; needs one finite positive size a parameter", len(options.Size), len(start))
	case !(options.Tolerance >= 0) || options.Iterations < 0:
		return fmt.Errorf("tolerance %g and %d iterations must not be negative", options.Tolerance, options.Iterations)
	}
	return nil
}
