package leastsquares

import (
	"fmt"
	"math"
)

// search is the state of one run of Nonlinear.
type search struct {
	problem       Problem
	options       Options
	n, p, counted int
	root          []float64 // √w; nil means ones
	start, point  []float64
	residuals     []float64 // √w·r at point
	squares       float64

	cells       []float64   // [√W·J, √W·r], row after row
	jacobian    [][]float64 // rows of cells, without the last column
	products    []float64
	plus, minus []float64 // √w·r a step to each side
	steps       []float64 // of differences, by parameter
	reach       float64   // Σ |b_j|·|J_j|: as large as the model's terms, so 2⁻⁵³ of it is a residual's rounding

	iterations, evaluations int
	stop                    Stop
}

// reserve allots all that is written over and over.
func (s *search) reserve() {
	s.steps = make([]float64, s.p)
	if s.problem.Residuals == nil {
		return
	}
	columns := s.p + 1
	memory := make([]float64, s.n*(columns+3)+columns)
	s.cells, memory = memory[:s.n*columns], memory[s.n*columns:]
	s.residuals, s.plus, s.minus, s.products = memory[:s.n], memory[s.n:2*s.n], memory[2*s.n:3*s.n], memory[3*s.n:]
	s.jacobian = make([][]float64, s.n)
	for i := range s.jacobian {
		s.jacobian[i] = s.cells[i*columns : i*columns+s.p : i*columns+s.p]
	}
}

// evaluate returns the sum of squares at a point, and √w·r in into.
func (s *search) evaluate(point, into []float64) (float64, error) {
	s.evaluations++
	if s.problem.Residuals == nil {
		squares, err := s.problem.Normal(point, nil, nil)
		if err != nil {
			return 0, fmt.Errorf("the sum of squares: %w", err)
		}
		return squares, nil
	}
	if err := s.problem.Residuals(point, into); err != nil {
		return 0, fmt.Errorf("the residuals: %w", err)
	}
	squares := 0.0
	for i, r := range into {
		if s.root != nil {
			if s.root[i] == 0 {
				r = 0 // an absent row may hold anything
			}
			r *= float64(rootAt(s.root, i))
			into[i] = r
		}
		squares += float64(r * r)
	}
	return squares, nil
}

func rootAt(root []float64, i int) float64 {
	if root == nil {
		return 1
	}
	return root[i]
}

const (
	firstRadius = 1    // of the region of trust, in lengths of the starting values: parameters may double at once
	worthwhile  = 1e-4 // share of the foreseen fall that must come true for a step to be taken: J. J. Moré, 1978 (from memory)
	// flat is the foreseen relative fall of the sum of squares below which rounding hides whether it fell; some 500
	// units in the last place.
	flat = 1e-13
)

// descend goes down by Levenberg and Marquardt's method until the sum of squares is too flat to show the way.
func (s *search) descend() error {
	metric := make([]float64, s.p) // the largest length that each column of J has had so far
	radius := 0.0
	for {
		if s.iterations >= s.options.Iterations {
			s.stop = Exhausted
			return nil
		}
		here, err := s.linearise(false)
		if err != nil {
			return err
		}
		for j, length := range here.lengths {
			metric[j] = max(metric[j], length)
		}
		span := s.span(metric)
		if radius == 0 {
			radius = firstRadius * span
		}
		if radius == 0 {
			radius = firstRadius
		}
		if s.arrived(here) {
			return nil
		}
		if radius, err = s.advance(here, metric, radius, span); err != nil || s.stop != "" {
			return err
		}
	}
}

// span is the length of the parameters in the metric of the search.
func (s *search) span(metric []float64) float64 {
	sum := 0.0
	for j, b := range s.point {
		sum = math.Hypot(sum, unless0(metric[j])*b)
	}
	return sum
}

// unless0 takes 1 for the length of a column that has been 0 throughout.
func unless0(length float64) float64 {
	if length == 0 {
		return 1
	}
	return length
}

// arrived says that a full step would change nothing that can be seen.
func (s *search) arrived(here local) bool {
	fall := lengthOf(here.projected)
	fall *= fall
	rounding := 0x1p-53 * s.reach
	switch {
	case s.squares <= rounding*rounding:
		s.stop = Exact
	case fall <= flat*s.squares, fall <= rounding*rounding, s.offset(here) <= s.options.Tolerance:
		s.stop = Rounding // polish decides whether it is settled
	}
	return s.stop != ""
}

// advance tries shorter and shorter steps until one lowers the sum of squares, and returns the next radius.
func (s *search) advance(here local, metric []float64, radius, span float64) (float64, error) {
	parts := here.decompose(metric)
	trial, residuals := make([]float64, s.p), s.plus
	for {
		step, length, foreseen := parts.within(radius)
		for j := range trial {
			trial[j] = s.point[j] + step[j]/unless0(metric[j])
		}
		squares, err := s.evaluate(trial, residuals)
		if err != nil {
			return 0, err
		}
		share := (s.squares - squares) / foreseen
		radius = nextRadius(share, length, radius)
		if share >= worthwhile {
			copy(s.point, trial)
			copy(s.residuals, residuals)
			s.squares = squares
			return radius, nil
		}
		if !(length > 0x1p-53*span) {
			s.stop = Blocked
			return radius, nil
		}
	}
}

// nextRadius follows how much of the foreseen fall came true; what is not a number shrinks it too. The shares and the quick growth are
// Moré's; the halving and the middle step were chosen while looking at the difficult starts of the tests.
func nextRadius(share, length, radius float64) float64 {
	switch {
	case !(share >= 0.25):
		return length / 2
	case share < 0.5:
		return length * 0.75
	case share > 0.75:
		return max(radius, 2*length)
	}
	return radius
}
