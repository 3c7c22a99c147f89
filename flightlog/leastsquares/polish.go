package leastsquares

import (
	"fmt"
	"math"
	"slices"
)

// hopeless is the condition beyond which a solution leaves a combination of parameters free: the Jacobian's own error, some
// 1e-15 from a function, 1e-11 from fourth-order differences, 1e-15 in squares of the condition from sums, is then as large as
// what the combination does.
func (s *search) hopeless() float64 {
	switch {
	case s.problem.Residuals == nil:
		return 1e7
	case s.problem.Jacobian == nil:
		return 1e10
	}
	return 1e13
}

// polish takes undamped steps while they bring the residuals nearer to a right angle with the tangent plane.
func (s *search) polish() (local, error) {
	best, err := s.linearise(true)
	if err != nil {
		return local{}, err
	}
	for range 30 { // steps gain a digit or more each
		if s.offset(best) <= s.options.Tolerance || lengthOf(best.projected) <= s.rounding() {
			break
		}
		next, err := s.nearer(best)
		if err != nil {
			return local{}, err
		}
		if next == nil {
			break
		}
		best = *next
	}
	return best, nil
}

// nearer tries the full and the half step; nil when neither helps.
func (s *search) nearer(best local) (*local, error) {
	step, _, _ := best.decompose(best.lengths).within(math.Inf(1))
	from, residuals, squares := slices.Clone(s.point), slices.Clone(s.residuals), s.squares
	allowed := squares*(1+flat) + s.rounding()*s.rounding() // a fall cannot be asked: rounding hides it
	for _, share := range []float64{1, 0.5} {
		for j := range s.point {
			s.point[j] = from[j] + share*step[j]/unless0(best.lengths[j])
		}
		var err error
		if s.squares, err = s.evaluate(s.point, s.residuals); err != nil {
			return nil, err
		}
		if s.squares <= allowed {
			next, err := s.linearise(true)
			if err != nil {
				return nil, err
			}
			if lengthOf(next.projected) < 0.9*lengthOf(best.projected) {
				return &next, nil
			}
		}
		copy(s.point, from)
		copy(s.residuals, residuals)
		s.squares = squares
	}
	return nil, nil
}

func lengthOf(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum = math.Hypot(sum, x)
	}
	return sum
}

// offset is the length of the residuals' part in the tangent plane, per root parameter, over that of the rest, per root degree of
// freedom: about how many standard deviations the parameters are off.
//
// Source: D. M. Bates and D. G. Watts, A Relative Offset Orthogonality Convergence Criterion for Nonlinear Least Squares,
// Technometrics 23, 1981 (from memory).
func (s *search) offset(here local) float64 {
	inside := lengthOf(here.projected)
	switch {
	case inside == 0:
		return 0
	case s.counted == s.p:
		return math.Inf(1) // no degree of freedom, no standard deviation
	}
	outside := math.Sqrt(max(0, s.squares-float64(inside*inside)))
	return inside / outside * math.Sqrt(float64(s.counted-s.p)/float64(s.p))
}

// found is what there is without a covariance.
func (s *search) found() Solution {
	out := Solution{Parameters: s.point, ResidualSS: s.squares, Degrees: s.counted - s.p, Iterations: s.iterations, Evaluations: s.evaluations, Stop: s.stop}
	if out.Degrees > 0 {
		out.ResidualSD = math.Sqrt(out.ResidualSS / float64(out.Degrees))
	}
	return out
}

// conclude judges where the search ended and works out the covariance there.
func (s *search) conclude(last local) (Solution, error) {
	out := s.found()
	out.Offset = s.offset(last)
	inverse, worst := s.separate(last, &out)
	switch {
	case s.squares <= s.rounding()*s.rounding():
		out.Stop = Exact
	case out.Offset <= s.options.Tolerance:
		out.Stop = Settled
	case out.Offset <= nearEnough || lengthOf(last.projected) <= 1e3*s.rounding():
		out.Stop = Rounding
	case s.stop == Blocked && out.Condition > math.Sqrt(s.hopeless()):
		// without curvature that the Jacobian knows of, a minimum is found to half of the digits, and so is its singularity
		return out, undetermined(worst, out.Condition)
	default:
		return out, fmt.Errorf("%s: %w", s.complaint(out), ErrNotConverged)
	}
	if !(out.Condition < s.hopeless()) {
		return out, undetermined(worst, out.Condition)
	}
	scale := make([]float64, s.p)
	for j, length := range last.lengths {
		scale[j] = 1 / length
	}
	out.Unscaled = timesTranspose(inverse, scale)
	out.Covariance = Scaled(out.Unscaled, float64(out.ResidualSD*out.ResidualSD))
	var err error
	out.Residuals, err = s.unweighted()
	return out, err
}

// separate inverts R, notes its condition and names the parameter that the others replace best.
func (s *search) separate(last local, out *Solution) (inverse []float64, worst int) {
	out.Condition = math.Inf(1)
	for j := range s.p {
		if last.upper[j*s.p+j] == 0 {
			return nil, j
		}
	}
	inverse, _ = inverseOf(last.upper, s.p, s.p)
	growth := inflation(last.upper, s.p, inverse, s.p)
	out.Condition = conditionOf(growth)
	return inverse, largest(growth)
}

func undetermined(worst int, condition float64) error {
	if math.IsInf(condition, 1) {
		return fmt.Errorf("at the solution parameter %d does nothing to the residuals, or nothing that others do not: %w", worst, ErrUndetermined)
	}
	return fmt.Errorf("at the solution other parameters can make up for parameter %d (condition %.2g): %w", worst, condition, ErrUndetermined)
}

// nearEnough is an offset with which a solution can still be used: parameters off by a thousandth of their standard deviation.
const nearEnough = 1e-3

func (s *search) complaint(out Solution) string {
	switch s.stop {
	case Exhausted:
		return fmt.Sprintf("%d iterations did not reach a minimum, the last sum of squares is %.6g; start nearer to the solution, or allow more", s.iterations, s.squares)
	case Blocked:
		return fmt.Sprintf("no step lowers the sum of squares %.6g, though its slope says that one should; the Jacobian may be wrong or the residuals rough", s.squares)
	}
	return fmt.Sprintf("the parameters stay some %.2g standard deviations off", out.Offset)
}

// unweighted returns r at the solution.
func (s *search) unweighted() ([]float64, error) {
	if s.problem.Residuals == nil {
		return nil, nil
	}
	out := make([]float64, s.n)
	if err := s.problem.Residuals(s.point, out); err != nil {
		return nil, fmt.Errorf("the residuals: %w", err)
	}
	return out, nil
}
