package reduce

import (
	"fmt"
	"math"
	"strings"
)

// classify names kind and power. A throttle that is not logged leaves power at Level, and verdict drops the point.
func (m *measurement) classify(p *TestPoint, w stretch) {
	throttle := 0.5
	if m.signals.throttle != nil {
		throttle = m.signals.throttle.over(w.i, w.j).mean
	}
	p.Power = powerAt(throttle)
	switch {
	case w.marked != "":
		p.Kind = w.marked
	case m.signals.sideslip(w):
		p.Kind = "sideslip"
	case p.Power == Idle:
		p.Kind = "glide"
	case p.PathAngle > levelAngle:
		p.Kind = "climb"
	case p.PathAngle < -levelAngle:
		p.Kind = "descent"
	default:
		p.Kind = "level"
	}
}

// verdict keeps the point or says why not, first reason first.
func (m *measurement) verdict(p *TestPoint, w stretch) {
	faults := append([]string(nil), w.faults...)
	switch {
	case m.signals.throttle == nil && w.marked != "":
		p.Power = markedPower(w.marked)
	case m.signals.throttle == nil:
		faults = append(faults, "no throttle channel: the power state is unknown")
	case p.Kind == "sideslip":
		faults = append(faults, "rudder or side force is held: not a trim point")
	case p.Kind == "descent":
		faults = append(faults, "powered descent: neither a glide nor level flight")
	case p.Kind == "climb" && p.Power != Full:
		faults = append(faults, "climb at part throttle: neither level nor full power")
	}
	if len(faults) > 0 {
		p.Reason = strings.Join(faults, "; ")
		return
	}
	p.Kept = true
	if w.marked != "" {
		p.Reason = "marked by hand as " + w.marked
		return
	}
	speed := m.signals.speed.over(w.i, w.j)
	p.Reason = fmt.Sprintf("steady for %.0f s: airspeed changes by %.1f %% a second, bank %.1f°", w.seconds(), math.Abs(speed.trend)/speed.mean*100, math.Abs(p.Bank)/degree)
}

// markedPower is the propeller's state that a hand mark implies where no throttle was recorded.
func markedPower(kind string) Power {
	switch kind {
	case "glide":
		return Idle
	case "climb":
		return Full
	}
	return Level
}

// powerAt is the propeller's state at a throttle.
func powerAt(throttle float64) Power {
	switch {
	case throttle < idleThrottle:
		return Idle
	case throttle > fullThrottle:
		return Full
	}
	return Level
}
