package leastsquares

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// Steps of differences, as a share of a parameter's size. With values rounded by 2⁻⁵³ a difference of order 2 is best with some
// ∛2⁻⁵³, one of order 4 with some ⁵√2⁻⁵³, of the change that bends the model.
const (
	shortStep = 0x1p-18
	longOver  = 0x1p7 // long step over short
	bent      = 2e-3  // second difference over first beyond which a step is too long: the slope is then wrong by 1e-6
	blurred   = 1e-8  // rounding over first difference beyond which a step is too short
	agreement = 1e-6  // of the slopes over a step and over half of it; the fourth-order slope is then right to about its square
	attempts  = 12    // changes of a step at one point
)

// differentiate fills the Jacobian from the caller's function or from differences.
func (s *search) differentiate(careful bool) error {
	if s.problem.Jacobian != nil {
		for _, row := range s.jacobian {
			clear(row)
		}
		if err := s.problem.Jacobian(s.point, s.jacobian); err != nil {
			return fmt.Errorf("the Jacobian: %w", err)
		}
		return nil
	}
	at := append([]float64(nil), s.point...)
	for j := range at {
		column := s.central
		if careful {
			column = s.fourthOrder
		}
		finite, err := column(at, j)
		if err != nil {
			return fmt.Errorf("differences for parameter %d: %w", j, err)
		}
		if !finite {
			return fmt.Errorf("differences for parameter %d: the residuals beside %v are not finite, however short the step", j, s.point)
		}
		at[j] = s.point[j]
	}
	return nil
}

// size is a change of a parameter that matters, as far as one can know: its value, the caller's word, or, should the value
// be passing through 0, a thousandth of the starting value.
func (s *search) size(j int) float64 {
	size := max(math.Abs(s.point[j]), 0x1p-10*math.Abs(s.start[j]))
	if s.options.Size != nil {
		size = max(size, s.options.Size[j])
	}
	return unless0(size)
}

// central fills column j with differences to both sides. The step shrinks where the model bends within it and grows where
// rounding blurs the difference; what was learnt is kept for the next point.
func (s *search) central(at []float64, j int) (bool, error) {
	shrunk, finite := false, false
	for range attempts {
		v, err := s.sides(at, j, s.steps[j]*s.size(j))
		if err != nil {
			return false, err
		}
		finite = v.finite
		rounding := s.rounding()
		tooLong := !finite || v.second-4*rounding > bent*v.first && rounding < 1e-4*v.first
		tooShort := rounding > blurred*v.first && !shrunk && s.steps[j] < 1
		if !tooLong && !tooShort {
			s.fill(j, v.width)
			return true, nil
		}
		if tooLong {
			shrunk = true
			s.steps[j] /= 16
		} else {
			s.steps[j] *= 16
		}
		if finite {
			s.fill(j, v.width)
		}
	}
	return finite, nil
}

// rounding is about what rounding does to the length of a difference of residuals.
func (s *search) rounding() float64 { return 0x1p-53 * (math.Sqrt(s.squares) + s.reach) }

// fourthOrder fills column j from steps h and h/2, (4·D(h/2) − D(h))/3, halving h until the two agree.
func (s *search) fourthOrder(at []float64, j int) (bool, error) {
	h := min(s.steps[j]*longOver, 1) * s.size(j)
	known := false
	for range attempts {
		v, err := s.sides(at, j, h)
		if err != nil {
			return false, err
		}
		h /= 2
		if !v.finite {
			continue
		}
		if !known {
			s.fill(j, v.width)
			known = true
			continue
		}
		var apart, length float64
		for i, row := range s.jacobian {
			slope := (s.plus[i] - s.minus[i]) / v.width
			difference := slope - row[j]
			apart, length = apart+float64(difference*difference), length+float64(slope*slope)
			row[j] = slope + difference/3
		}
		if math.Sqrt(apart) <= max(agreement, 16*s.rounding()/v.first)*math.Sqrt(length) || length == 0 {
			return true, nil
		}
		s.fill(j, v.width)
	}
	return known, nil
}

// sides evaluates the residuals at a step to each side.
func (s *search) sides(at []float64, j int, h float64) (sides, error) {
	up, down := s.point[j]+h, s.point[j]-h
	at[j] = up
	above, err := s.evaluate(at, s.plus)
	if err != nil {
		return sides{}, err
	}
	at[j] = down
	below, err := s.evaluate(at, s.minus)
	if err != nil {
		return sides{}, err
	}
	out := sides{width: up - down, finite: statistic.Finite(above, below) && up > down}
	for i, r := range s.residuals {
		a, b := s.plus[i]-r, s.minus[i]-r
		out.first += float64((a - b) * (a - b))
		out.second += float64((a + b) * (a + b))
	}
	out.first, out.second = math.Sqrt(out.first), math.Sqrt(out.second)
	return out, nil
}

// sides are the lengths of the first and second difference over a width.
type sides struct {
	width, first, second float64
	finite               bool
}

// fill writes the slope over a width into column j.
func (s *search) fill(j int, width float64) {
	for i, row := range s.jacobian {
		row[j] = (s.plus[i] - s.minus[i]) / width
	}
}
