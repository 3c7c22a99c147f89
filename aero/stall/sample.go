package stall

import (
	"cmp"
	"fmt"
	"slices"
)

// look is how far ahead the slopes of moments look, rad: well inside the accuracy that is promised, well above round-off.
const look = 1e-5

// same is the difference of angles of attack, rad, that counts as round-off.
const same = 1e-13

// sample is one angle of attack, solved.
type sample struct {
	alpha             float64
	attached, maximum []float64
	held              Held
	now               sums
}

// sums are totals over the strips.
type sums struct {
	foreplane, wing, whole          float64 // lift over the dynamic pressure, m²
	foreplaneAttached, wingAttached float64 // the same with attached flow
	foreplaneMoment                 float64 // nose-up moment of the attached foreplane, m³
	pitchChange                     float64 // nose-up moment added by letting go, m³
}

// at is the state at an angle of attack. Each is solved once: bisections of one question walk over the angles of another, and
// the ends of neighbouring stop windows often meet. The strips held at the nearest angle known are the first guess.
func (s *search) at(alpha float64) (*sample, error) {
	k, _ := slices.BinarySearchFunc(s.samples, alpha, func(p *sample, alpha float64) int { return cmp.Compare(p.alpha, alpha) })
	var near *sample
	if k < len(s.samples) {
		near = s.samples[k]
	}
	if k > 0 && (near == nil || alpha-s.samples[k-1].alpha < near.alpha-alpha) {
		near = s.samples[k-1]
	}
	if near != nil {
		if distance := near.alpha - alpha; -same < distance && distance < same {
			return near, nil
		}
		copy(s.holder.isHeld, near.held.LetGo)
	}
	p, err := s.solve(alpha)
	if err != nil {
		return nil, err
	}
	s.samples = slices.Insert(s.samples, k, p)
	return p, nil
}

// solve works out one angle of attack.
func (s *search) solve(alpha float64) (*sample, error) {
	p := &sample{alpha: alpha, attached: s.c.Attached(alpha), maximum: s.c.MaxLift(alpha)}
	var err error
	if p.held, err = s.holder.hold(p.attached, p.maximum); err != nil {
		return nil, fmt.Errorf("stall order %q at α = %s: %w", s.c.Name, degrees(alpha), err)
	}
	for i, strip := range s.c.Strips {
		lift, attached := strip.Area*p.held.Lift[i], strip.Area*p.attached[i]
		p.now.whole += lift
		p.now.pitchChange += strip.Arm * (lift - attached)
		switch strip.Part {
		case Foreplane:
			p.now.foreplane += lift
			p.now.foreplaneAttached += attached
			p.now.foreplaneMoment += strip.Arm * attached
		case Wing:
			p.now.wing += lift
			p.now.wingAttached += attached
		}
	}
	return p, nil
}

// rise is the foreplane's gain in lift over the stop window, as a share of its gain with attached flow.
//
// The window lies so that a lift which stops at once falls below StopShare just where it stops; at the ends
// of the range it is cut short.
func (s *search) rise(alpha float64) (float64, error) {
	before := s.c.StopShare * s.c.StopWindow
	a, err := s.at(max(alpha-before, s.c.AlphaMin))
	if err != nil {
		return 0, err
	}
	b, err := s.at(min(alpha-before+s.c.StopWindow, s.c.AlphaMax))
	if err != nil {
		return 0, err
	}
	attached := b.now.foreplaneAttached - a.now.foreplaneAttached
	if !(attached > 0) {
		return 0, fmt.Errorf("stall order %q at α = %s: the attached foreplane does not gain lift with α (%.3g m² over %s), "+
			"so that it cannot stop gaining; give section lifts of an aircraft that is stable in trim, or a fixed elevator",
			s.c.Name, degrees(alpha), attached, degrees(b.alpha-a.alpha))
	}
	return (b.now.foreplane - a.now.foreplane) / attached, nil
}

// spare is how far strip i is from its maximum; not positive when it is there.
func (p *sample) spare(i int) float64 {
	if p.held.LetGo[i] {
		return 0
	}
	return p.maximum[i] - p.held.Lift[i] - settled
}

// gone is the strip accepted by counts that has reached its maximum: among several, the one that is turned most; −1 when there is none.
func (s *search) gone(p *sample, counts func(Strip) bool) int {
	best := -1
	for i, strip := range s.c.Strips {
		if !counts(strip) || p.spare(i) > 0 {
			continue
		}
		if best < 0 || p.spare(i) < p.spare(best) || p.spare(i) == p.spare(best) && p.held.Turn[i] < p.held.Turn[best] {
			best = i
		}
	}
	return best
}
