package stall

import "fmt"

// look is how far ahead the slopes of moments look, rad: well inside the accuracy that is promised, well above round-off.
const look = 1e-5

// sample is everything known at one angle of attack.
type sample struct {
	alpha             float64
	attached, maximum []float64
	held              Held
	now               sums

	rise         float64 // share of its attached gain in lift that the foreplane has over the stop window around alpha
	changeRate   float64 // slope of sums.pitchChange from alpha on
	attachedRate float64 // slope of sums.foreplaneMoment from alpha on
}

// sums are totals over the strips.
type sums struct {
	foreplane, wing, whole          float64 // lift over the dynamic pressure, m²
	foreplaneAttached, wingAttached float64 // the same with attached flow
	foreplaneMoment                 float64 // nose-up moment of the attached foreplane, m³
	pitchChange                     float64 // nose-up moment added by letting go, m³
}

// state solves one angle of attack by itself, starting from what the holder held last.
func (s *search) state(h *holder, alpha float64) (*sample, error) {
	p := &sample{alpha: alpha, attached: s.c.Attached(alpha), maximum: s.c.MaxLift(alpha)}
	var err error
	if p.held, err = h.hold(p.attached, p.maximum); err != nil {
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

// at solves one angle of attack and what follows from its neighbourhood.
func (s *search) at(alpha float64) (*sample, error) {
	p, err := s.state(s.here, alpha)
	if err != nil {
		return nil, err
	}
	if p.rise, err = s.riseAt(alpha); err != nil {
		return nil, err
	}
	if !s.hasArms {
		return p, nil
	}
	step := look
	if alpha+step > s.c.AlphaMax {
		step = -look
	}
	other, err := s.state(s.here, alpha+step)
	if err != nil {
		return nil, err
	}
	p.changeRate = (other.now.pitchChange - p.now.pitchChange) / step
	p.attachedRate = (other.now.foreplaneMoment - p.now.foreplaneMoment) / step
	if !(p.attachedRate > 0) {
		return nil, fmt.Errorf("stall order %q at α = %s: the attached foreplane does not raise the nose with α; give arms in metres ahead of the CG",
			s.c.Name, degrees(alpha))
	}
	return p, nil
}

// riseAt is the foreplane's gain in lift over the stop window, as a share of its gain with attached flow.
//
// The window lies so that a lift which stops at once falls below StopShare just where it stops; at the ends
// of the range it is cut short.
func (s *search) riseAt(alpha float64) (float64, error) {
	before := s.c.StopShare * s.c.StopWindow
	a, err := s.state(s.behind, max(alpha-before, s.c.AlphaMin))
	if err != nil {
		return 0, err
	}
	b, err := s.state(s.ahead, min(alpha-before+s.c.StopWindow, s.c.AlphaMax))
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

// nearest is the strip accepted by counts that is closest to its maximum: among several that are
// there, the one that is turned most.
func (s *search) nearest(p *sample, counts func(Strip) bool) int {
	best := -1
	for i, strip := range s.c.Strips {
		if !counts(strip) {
			continue
		}
		if best < 0 || p.spare(i) < p.spare(best) || p.spare(i) == p.spare(best) && p.held.Turn[i] < p.held.Turn[best] {
			best = i
		}
	}
	return best
}
