package quality

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog"
)

// A control that rests at the furthest angle of the flight for stopSeconds may sit at its end stop, or a steady hand may hold it there: an input
// of 8° that is flown twice looks the same. Without the aircraft's travel an end stop is told by what a hand cannot help doing:
//
//   - it is never as still anywhere else in the air: the rest lasts stillness times as long as the longest at any other angle; or
//   - motion runs into it and out of it, with no other rest within midst on either side, and it ends at the very same angle
//     twice, as no demand does by itself; once is enough where the angle is as large as end stops are (stopAngle).
//
// Where an angle has shown itself as an end stop, every rest at it is one.
//
// A hand that goes from rest to an input and back to rest shows neither. On the runway the hand is still as well: the first and the last rolling
// seconds of a flight do not count as elsewhere. All common practice, no source; the aircraft's own travel is better: see InAircraft.
const (
	stopSeconds  = 1.0
	stopAngle    = 15 * degree
	stillness    = 3.0
	briefSeconds = 0.2  // shorter ones are no rests: samples that happen to be equal
	midst        = 3.0  // s: three times what a hand takes to lay a rudder over slowly
	rolling      = 10.0 // s: a take-off run from half the usual airspeed on takes less
)

// isControl tells whether a quantity is the angle of a control.
func isControl(q flightlog.Quantity) bool {
	switch q {
	case flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
		return true
	}
	return false
}

// rest is a stretch of one angle, and whether that is an end of what the control does in the flight.
type rest struct {
	angle, start, end float64
	atEnd             bool
}

// stops finds controls at their end stops in flight, without knowing where those are.
func stops(q flightlog.Quantity, c flightlog.Channel, s scan, air *series) []flightlog.Finding {
	if !isControl(q) {
		return nil
	}
	rests := restsOf(c, s, air)
	ends := endStops(rests, s.step, air)
	var out []flightlog.Finding
	for _, r := range rests {
		if ends[r.angle] && r.end-r.start >= stopSeconds-s.step && air.flyingAt(r.start) {
			out = append(out, stopFinding(q, r.angle, r.start, r.end))
		}
	}
	return out
}

// endStops tells at which angles the end stops of a control show, from its rests in samples that are step seconds apart.
func endStops(rests []rest, step float64, air *series) map[float64]bool {
	longest := 0.0
	first, last := air.aloft()
	times := map[float64]int{}
	for i, r := range rests {
		if !r.atEnd { // what it rests on the runway is cut off
			longest = math.Max(longest, math.Min(r.end, last)-math.Max(r.start, first)+step)
		} else if amidMotion(rests, i) {
			times[r.angle]++
		}
	}
	ends := map[float64]bool{}
	for i, r := range rests {
		if !r.atEnd || r.end-r.start < stopSeconds-step || !air.flyingAt(r.start) {
			continue
		}
		still := r.end-r.start+step >= stillness*longest
		if still || amidMotion(rests, i) && (times[r.angle] >= 2 || math.Abs(r.angle) >= stopAngle) {
			ends[r.angle] = true
		}
	}
	return ends
}

// restsOf lists the rests of a control in order; none where it moves by less than two degrees in flight, or further than any hinge.
func restsOf(c flightlog.Channel, s scan, air *series) []rest {
	low, high := math.Inf(1), math.Inf(-1)
	for i, v := range c.Value {
		if air.flyingAt(c.Time[i]) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	furthest := math.Max(-low, high)
	if high-low < 2*degree || furthest > math.Pi/2 {
		return nil
	}
	var out []rest
	for _, r := range s.runs {
		v, start, end := c.Value[r.from], c.Time[r.from], c.Time[r.to]
		if end-start+s.step >= briefSeconds {
			// the middle is no end, though nothing may lie beyond it
			out = append(out, rest{v, start, end, (v == low || v == high) && math.Abs(v) >= furthest/2})
		}
	}
	return out
}

// amidMotion tells whether the control rests at no other angle for a while before and after a rest.
func amidMotion(rests []rest, i int) bool {
	r := rests[i]
	for k := i - 1; k >= 0 && rests[k].end > r.start-midst; k-- {
		if rests[k].angle != r.angle {
			return false
		}
	}
	for k := i + 1; k < len(rests) && rests[k].start < r.end+midst; k++ {
		if rests[k].angle != r.angle {
			return false
		}
	}
	return true
}

// aloft is from when to when the model surely does not roll on the ground: rolling seconds are left out at either end, or a quarter of a short flight.
func (s *series) aloft() (from, to float64) {
	first, last := slices.Index(s.flying, true), len(s.flying)-1
	for last >= 0 && !s.flying[last] {
		last--
	}
	if first < 0 {
		return math.Inf(1), math.Inf(-1)
	}
	margin := math.Min(rolling, (s.time(last)-s.time(first))/4)
	return s.time(first) + margin, s.time(last) - margin
}

// stopFinding is a note: the deflection at a stop is known, so that steady flight there is as good as any other. What was flown with less
// than was asked for is said.
func stopFinding(q flightlog.Quantity, v, start, end float64) flightlog.Finding {
	f := flightlog.Finding{Severity: flightlog.Note, Channel: q, Start: start, End: end,
		What:        fmt.Sprintf("the %s stays at %.1f degrees for %.1f s, as at its end stop", plainName(q), v/degree, end-start),
		Consequence: "the manoeuvre " + during(start, end) + " got no more deflection than this, whatever was planned; more travel or a smaller input shows more"}
	if q == flightlog.Elevator {
		f.Consequence = "no elevator power, input or slope of pitch across it " + during(start, end) + ", since the nose follows no further; steady flight there still counts, " +
			"and more travel, or flight further from the stall, shows more"
	}
	return f
}
