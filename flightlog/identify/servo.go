package identify

import "math"

// Surface gives where a surface is at each sample, from the commanded surface angles [rad] on a grid of step [s].
//
// The command u is held from one sample to the next, and stood at its first value for ever before. Behind the pure delay the linkage x
// follows it as
//
//	ẋ = (u − x)/Lag, but no faster than ±Rate,
//
// solved exactly between samples, also where the delay is no whole number of steps. Backlash is play of the whole width: the surface
// rests until the linkage has crossed the play, and then follows its edge; it begins in the middle. With neither lag nor limit the
// surface is where the delayed command is from that sample on.
//
// A command that in truth moved between two samples is taken up at the second, half a step late on average: a servo estimated from
// the same flights (Follow) absorbs that, one from a bench test does not.
//
// The result is written into dst when it has room, else into a new slice; dst shares no memory with command. A step that is not
// positive gives the command itself.
func (s Servo) Surface(command []float64, step float64, dst []float64) []float64 {
	if cap(dst) < len(command) {
		dst = make([]float64, len(command))
	}
	dst = dst[:len(command)]
	if len(command) == 0 || !(step > 0) {
		copy(dst, command)
		return dst
	}
	whole, part := wholeSteps(s.Delay / step)
	m := linkage{servo: s, position: command[0], surface: command[0], half: s.Backlash / 2}
	m.parts = [2]span{s.span(part * step), s.span((1 - part) * step)}
	m.atOnce = s.instant()
	m.run(command, whole, dst)
	return dst
}

// wholeSteps parts a delay, in steps, into whole steps and the rest from 0 to below 1.
func wholeSteps(delay float64) (whole int, part float64) {
	delay = math.Max(0, delay)
	whole = int(delay)
	part = delay - float64(whole)
	const roundOff = 1e-9 // steps; below any timing that matters
	switch {
	case part < roundOff:
		part = 0
	case part > 1-roundOff:
		whole, part = whole+1, 0
	}
	return whole, part
}

// span is a time [s] and exp(−time/Lag), worked out once for all steps.
type span struct{ time, decay float64 }

func (s Servo) span(time float64) span { return span{time, math.Exp(-time / s.Lag)} }

// linkage is a servo in motion: its arm, and the surface behind the play.
type linkage struct {
	servo             Servo
	position, surface float64
	half              float64 // of the play
	parts             [2]span // of a step: before and after the delayed command changes
	atOnce            bool    // neither lag nor limit holds the command back
}

// run moves from sample to sample behind a delay of whole steps and the first part of another.
func (m *linkage) run(command []float64, whole int, surface []float64) {
	before := 1 // samples by which the command that now stands is older than the delay's whole steps
	if m.parts[0].time == 0 {
		before = 0
	}
	late := command[0] // what stood in the first part of the step
	for k := range command {
		if k > 0 {
			if before > 0 {
				m.follow(late, m.parts[0])
			}
			late = command[max(0, k-1-whole)]
			m.follow(late, m.parts[1])
		}
		if m.atOnce {
			m.position = command[max(0, k-before-whole)]
			m.play()
		}
		surface[k] = m.surface
	}
}

// follow moves everything on by a time [s] in which the delayed command stands still: at the highest rate until the lag asks for no
// more, then along its exponential. The way has no turning point, so that the play need be looked at only at its end.
func (m *linkage) follow(command float64, over span) {
	away := command - m.position
	if rate := m.servo.Rate; rate > 0 && math.Abs(away) > rate*m.servo.Lag {
		ramp := math.Min(over.time, math.Abs(away)/rate-m.servo.Lag)
		m.position += math.Copysign(rate*ramp, away)
		over = m.servo.span(over.time - ramp)
		away = command - m.position
	}
	switch {
	case !(over.time > 0):
	case m.servo.Lag > 0:
		m.position = command - float64(away*over.decay)
	default:
		m.position = command
	}
	m.play()
}

// play moves the surface when the linkage has crossed the play.
func (m *linkage) play() {
	m.surface = max(m.position-m.half, min(m.position+m.half, m.surface))
}
