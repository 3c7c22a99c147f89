package response

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// heldWithin is by how much a control may wander and still count as held, rad from end to end: noise of a receiver and resolution of a log. A hand that
// levels the wings with half a degree of aileron swings along. Common practice, no source.
const heldWithin = 0.3 * math.Pi / 180

// HandsOff finds the stretch of a manoeuvre in which the controls are held: the longest one in which no control wanders behind the largest jump of
// any, a time [s] after its begin. It returns the indices of its first sample and of that behind its last; equal when nothing is left.
//
// The wait lets servos arrive and the roll die out: 0.3 s is three roll time constants of a model of some ten kilograms.
func HandsOff(step, wait float64, controls []Control) (from, to int) {
	n, start := 0, 0
	for _, c := range controls {
		n = max(n, len(c.Values))
	}
	largest := 0.0
	for _, c := range controls {
		for i := 1; i < len(c.Values); i++ {
			if jump := math.Abs(c.Values[i] - c.Values[i-1]); jump > largest {
				largest, start = jump, i
			}
		}
	}
	begin := start
	for i, end := start, start; i < n; i++ {
		for end < n && held(controls, i, end+1) {
			end++
		}
		if end-i > to-begin {
			begin, to = i, end
		}
	}
	if step > 0 {
		begin += int(math.Ceil(wait / step))
	}
	return min(begin, to), to
}

// held tells whether no control wanders from one sample up to another.
func held(controls []Control, from, to int) bool {
	for _, c := range controls {
		if len(c.Values) < to {
			if len(c.Values) > 0 {
				return false
			}
			continue
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, v := range c.Values[from:to] {
			low, high = math.Min(low, v), math.Max(high, v)
		}
		if !(high-low <= heldWithin) {
			return false
		}
	}
	return true
}

// Cut leaves the samples from one up to another.
func (s Stretch) Cut(from, to int) Stretch {
	cut := func(values []float64) []float64 {
		return values[min(max(from, 0), len(values)):min(max(to, from, 0), len(values))]
	}
	out := Stretch{Step: s.Step, Airspeed: cut(s.Airspeed)}
	for _, signal := range s.Signals {
		out.Signals = append(out.Signals, Signal{signal.Name, cut(signal.Values)})
	}
	for _, c := range s.Controls {
		out.Controls = append(out.Controls, Control{c.Name, cut(c.Values)})
	}
	return out
}

// unusable says why a stretch cannot be fitted, or nothing.
func (s Stretch) unusable(k kind) string {
	if !(s.Step > 0) || len(s.Signals) == 0 {
		return "there is no recording of it"
	}
	n := len(s.Signals[0].Values)
	moves := false
	for _, signal := range s.Signals {
		if len(signal.Values) != n || !statistic.Finite(signal.Values...) {
			return signal.Name + " has gaps"
		}
		for _, v := range signal.Values {
			moves = moves || v != signal.Values[0]
		}
	}
	switch {
	case float64(n)*s.Step < k.seconds:
		return fmt.Sprintf("only %.1f s were flown with the controls held, and %.0f s are needed", float64(n)*s.Step, k.seconds)
	case !moves:
		return "the signals do not move"
	}
	for _, c := range s.Controls {
		if low, high := extremes(c.Values); high-low > 2*heldWithin {
			return fmt.Sprintf("the %s moved by %.1f°", c.Name, (high-low)*180/math.Pi)
		}
	}
	if low, high := extremes(s.Airspeed); high-low > k.mostChange*(high+low)/2 {
		return fmt.Sprintf("the airspeed went from %.1f to %.1f m/s", low, high)
	}
	return ""
}

func extremes(values []float64) (low, high float64) {
	if len(values) == 0 {
		return 0, 0
	}
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range values {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low, high
}
