package rehearse

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
)

// The pilot's way through a pull-up. Invented, after the common practice of a firm step that is held until the load
// factor stands.
const (
	pullWidth    = 1.5 // s
	greatestPull = 4.0 // load factor
	farFromStall = 0.9 // of the highest lift: the step is smaller where the load factor asked for would take more
	pullRecovery = 3.0 // s that a card must leave behind the step
)

func (c Card) checkPullUp() error {
	if !(c.Size > 1 && c.Size <= greatestPull) {
		return fmt.Errorf("a pull-up to a load factor of %g; write more than 1 and at most %g", c.Size, greatestPull)
	}
	if !(c.Width >= 0) {
		return fmt.Errorf("width %g s of the step is negative", c.Width)
	}
	if length := c.pull(0).length(); !(c.Duration >= c.settling()+length+pullRecovery) {
		return fmt.Errorf("a pull-up of %g s does not fit into %g s; level flight before it takes %g s, the recovery %g s", length, c.Duration, c.settling(), pullRecovery)
	}
	return nil
}

// pull is the course of the elevator for a step of a size [rad].
func (c Card) pull(size float64) input {
	width := c.Width
	if width == 0 {
		width = pullWidth
	}
	return input{slope: c.Hand.Slope, steps: []inputStep{{size: size * (1 + c.Hand.Sizes[0]), time: width * (1 + c.Hand.Times[0])}}}
}

// pullStep is the elevator [rad] that takes level flight at a calibrated speed to a steady load factor: lift (n−1)·CL more and no moment at
// the pitch rate (n−1)·g/V of a path that curves up.
func (p *pilot) pullStep(speed, loadFactor float64) float64 {
	d := &p.f.d
	pressure := 0.5 * atmosphere.SeaLevelDensity * speed * speed * p.f.area
	level := p.f.Body.Mass * atmosphere.Gravity / pressure
	more := math.Min(loadFactor, math.Max(1, farFromStall*p.f.MaxLift/level)) - 1
	rate := more * atmosphere.Gravity * p.f.chord / (2 * speed * speed)
	lift, pitch := more*level-d.ByPitchRate.Lift*rate, -d.ByPitchRate.Pitch*rate
	return (d.ByAlpha.Lift*pitch - d.ByAlpha.Pitch*lift) / (d.ByAlpha.Lift*p.f.elevator.Pitch - p.f.elevator.Lift*d.ByAlpha.Pitch)
}

// pull holds the step about the elevator and the throttle of level flight, the wings level. The recovery is to level flight at the
// height that was reached.
func (p *pilot) pull(r *run, s seen, c commands) commands {
	t := r.time - r.card.settling()
	if t < 0 || t >= r.course.length() {
		return c
	}
	if !r.holding {
		r.holding, r.held = true, c
	}
	c.elevator, c.throttle = r.held.elevator+r.course.at(t), r.held.throttle
	p.pitchWanted, r.height = s.pitch, math.Min(ceiling, s.height) // the recovery begins from here
	p.sumPitch, p.sumThrottle = 0, 0
	return c
}
