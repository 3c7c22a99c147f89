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
	late := func(k int) float64 { return command[max(0, k)] }
	m := linkage{servo: s, position: command[0], surface: command[0], time: [2]float64{part * step, (1 - part) * step}}
	m.decay = [2]float64{math.Exp(-m.time[0] / s.Lag), math.Exp(-m.time[1] / s.Lag)}
	for k := range command {
		if k > 0 {
			m.follow(late(k-2-whole), part*step)
			m.follow(late(k-1-whole), (1-part)*step)
		}
		now := late(k - whole)
		if part > 0 {
			now = late(k - 1 - whole)
		}
		dst[k] = m.at(now)
	}
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

// linkage is a servo in motion: its arm, and the surface behind the play.
type linkage struct {
	servo             Servo
	position, surface float64
	time, decay       [2]float64 // exp(−time/Lag) of the two parts of a step, worked out once
}

// decayed is exp(−time/Lag).
func (m *linkage) decayed(time float64) float64 {
	for i, t := range m.time {
		if t == time {
			return m.decay[i]
		}
	}
	return math.Exp(-time / m.servo.Lag)
}

// at is the surface at the instant at which the delayed command has become what is given: it passes at once where neither lag nor
// limit holds it back.
func (m *linkage) at(command float64) float64 {
	if !(m.servo.Lag > 0) && !(m.servo.Rate > 0) {
		m.position = command
		m.play()
	}
	return m.surface
}

// follow moves everything on by a time [s] in which the delayed command stands still: at the highest rate until the lag asks for no
// more, then along its exponential. The way has no turning point, so that the play need be looked at only at its end.
func (m *linkage) follow(command, time float64) {
	away := command - m.position
	if rate := m.servo.Rate; rate > 0 && math.Abs(away) > rate*m.servo.Lag {
		ramp := math.Min(time, math.Abs(away)/rate-m.servo.Lag)
		m.position += math.Copysign(rate*ramp, away)
		time -= ramp
		away = command - m.position
	}
	switch {
	case !(time > 0):
	case m.servo.Lag > 0:
		m.position = command - float64(away*m.decayed(time))
	default:
		m.position = command
	}
	m.play()
}

// play moves the surface when the linkage has crossed the play.
func (m *linkage) play() {
	half := m.servo.Backlash / 2
	m.surface = math.Max(m.position-half, math.Min(m.position+half, m.surface))
}
