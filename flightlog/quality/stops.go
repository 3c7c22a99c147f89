package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
)

// A control that stays at its furthest angle of the flight for stopSeconds sits at its end stop where its channel else never
// repeats itself (no hand holds a stick to the last digit), where it comes to the same angle again, or where the angle is
// as large as end stops are. (Common practice, no source; the aircraft's own travel is better: see InAircraft.)
const (
	stopSeconds = 1.0
	stopAngle   = 15 * degree
)

// stops finds controls at their end stops in flight.
func stops(q flightlog.Quantity, c flightlog.Channel, s scan, air *series) []flightlog.Finding {
	switch q {
	case flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
	default:
		return nil
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i, v := range c.Value {
		if air.flyingAt(c.Time[i]) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	times := map[float64]int{}
	for _, r := range s.runs {
		times[c.Value[r.from]]++
	}
	var out []flightlog.Finding
	for _, r := range s.runs {
		v, start, end := c.Value[r.from], c.Time[r.from], c.Time[r.to]
		if end-start < stopSeconds-s.step || (v != low && v != high) || !air.flyingAt(start) || high-low < 2*degree || math.Abs(v) > math.Pi/2 {
			continue
		}
		if s.usual > 1 && times[v] < 2 && math.Abs(v) < stopAngle {
			continue
		}
		out = append(out, stopFinding(q, v, start, end))
	}
	return out
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
