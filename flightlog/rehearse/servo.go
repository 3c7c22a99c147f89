package rehearse

import "math"

// actuator carries one surface from its command to its angle: pure delay, rate limit, first-order lag.
type actuator struct {
	waiting  []float64 // commands under way, a ring
	next     int
	share    float64 // of the remaining way covered in one step
	most     float64 // rad in one step
	position float64
}

func newActuator(s Servo, dt float64) actuator {
	a := actuator{share: 1, most: s.Rate * dt}
	if s.Lag > 0 {
		a.share = -math.Expm1(-dt / s.Lag)
	}
	a.waiting = make([]float64, max(0, int(math.Round(s.Delay/dt))))
	return a
}

// set puts the surface and everything under way at one angle.
func (a *actuator) set(angle float64) {
	a.position = angle
	for i := range a.waiting {
		a.waiting[i] = angle
	}
}

// step takes a command and returns where the surface is one step later.
func (a *actuator) step(command float64) float64 {
	if len(a.waiting) > 0 {
		command, a.waiting[a.next] = a.waiting[a.next], command
		a.next = (a.next + 1) % len(a.waiting)
	}
	move := (command - a.position) * a.share
	a.position += math.Max(-a.most, math.Min(a.most, move))
	return a.position
}
