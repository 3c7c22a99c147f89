package rehearse

import (
	"fmt"
	"math"
)

// Servo moves a control surface after its command: pure delay, first-order lag whose rate is limited, play in the linkage.
type Servo struct {
	Delay    float64 // s
	Lag      float64 // time constant, s
	Rate     float64 // highest rate of the surface, rad/s
	Backlash float64 // whole width of the play, rad: the surface stays where it is until the arm has taken it up
}

func (s Servo) check(control string) error {
	switch {
	case !(s.Rate > 0):
		return fmt.Errorf("rehearse: servo rate %g rad/s of the %s is not positive", s.Rate, control)
	case !(s.Delay >= 0 && s.Lag >= 0 && s.Backlash >= 0):
		return fmt.Errorf("rehearse: servo delay %g s, lag %g s or backlash %g rad of the %s is negative", s.Delay, s.Lag, s.Backlash, control)
	}
	return nil
}

// actuator carries one surface from its command to its angle.
type actuator struct {
	waiting  []float64 // commands under way, a ring
	next     int
	share    float64 // of the remaining way covered in one step
	most     float64 // rad in one step
	arm      float64 // where the servo is
	position float64 // where the surface is: within half the play of it
	play     float64 // half of it

	continuous bool
	lag, rate  float64
	step       float64 // s
	part       float64 // of a step, what the delay has beyond whole ones; continuous only
}

// newActuator steps by dt [s]. One that is not continuous is where it will be at the end of a step from its beginning on.
func newActuator(s Servo, dt float64, continuous bool) actuator {
	a := actuator{share: 1, most: s.Rate * dt, play: s.Backlash / 2, continuous: continuous, lag: s.Lag, rate: s.Rate, step: dt}
	if s.Lag > 0 {
		a.share = -math.Expm1(-dt / s.Lag)
	}
	whole := math.Round(s.Delay / dt)
	if continuous {
		whole = math.Floor(s.Delay/dt + 1e-9)
		a.part = math.Max(0, s.Delay/dt-whole)
		whole++ // a command that was given before the delay is needed, too
	}
	a.waiting = make([]float64, max(0, int(whole)))
	return a
}

// set puts the surface and everything under way at one angle.
func (a *actuator) set(angle float64) {
	a.arm, a.position = angle, angle
	for i := range a.waiting {
		a.waiting[i] = angle
	}
}

// move takes a command and returns where the surface is in the middle and at the end of the step that it opens.
func (a *actuator) move(command float64) (middle, end float64) {
	if a.continuous {
		return a.moveWithin(command)
	}
	if len(a.waiting) > 0 {
		command, a.waiting[a.next] = a.waiting[a.next], command
		a.next = (a.next + 1) % len(a.waiting)
	}
	way := (command - a.arm) * a.share
	a.arm += math.Max(-a.most, math.Min(a.most, way))
	a.follow()
	return a.position, a.position
}

// moveWithin follows the closed form of a lag with limited rate through both parts of a step: ahead of the instant at which
// a new command comes out of the delay, and behind it.
func (a *actuator) moveWithin(command float64) (middle, end float64) {
	before := a.waiting[a.next]
	a.waiting[a.next] = command
	a.next = (a.next + 1) % len(a.waiting)
	after := a.waiting[a.next] // with no whole step of delay the ring has one place, and this is command
	if a.part < 0.5 {
		a.towards(before, a.part*a.step)
		a.towards(after, (0.5-a.part)*a.step)
		middle = a.position
		a.towards(after, 0.5*a.step)
		return middle, a.position
	}
	a.towards(before, 0.5*a.step)
	middle = a.position
	a.towards(before, (a.part-0.5)*a.step)
	a.towards(after, (1-a.part)*a.step)
	return middle, a.position
}

// towards moves the arm for a time [s]: at the limit of its rate while the lag would be faster, then by the lag.
func (a *actuator) towards(command, time float64) {
	way := math.Abs(command - a.arm)
	if fast := way - a.rate*a.lag; fast > 0 {
		slewing := math.Min(time, fast/a.rate)
		a.arm += math.Copysign(a.rate*slewing, command-a.arm)
		time -= slewing
	}
	switch {
	case time <= 0:
	case a.lag > 0:
		a.arm -= (command - a.arm) * math.Expm1(-time/a.lag)
	default:
		a.arm = command
	}
	a.follow()
}

// follow drags the surface along once the play is taken up.
func (a *actuator) follow() {
	a.position = math.Max(a.arm-a.play, math.Min(a.arm+a.play, a.position))
}
