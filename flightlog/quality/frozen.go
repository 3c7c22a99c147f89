package quality

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog"
)

// A channel counts as frozen when it repeats one number for a second or more (two for what a satellite sends), and for ten
// times as long as 95 % of its other runs of equal numbers, so that coarse steps are not taken for it. Eight samples
// suffice where the channel else never repeats itself: by chance that happens less than once in 20⁷. Twenty are asked of
// a coarse one (common practice, no source).
const (
	frozenSeconds   = 1.0
	frozenSatellite = 2.0
	frozenFine      = 8
	frozenCoarse    = 20
	frozenRuns      = 10
)

// moves tells whether a channel always moves in flight and at rest. Servo positions, temperature and what satellite
// navigation gives may rest.
func moves(q flightlog.Quantity) bool {
	switch q {
	case flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate, flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration,
		flightlog.RollAngle, flightlog.PitchAngle, flightlog.Heading, flightlog.Airspeed, flightlog.StaticPressure, flightlog.AngleOfAttack, flightlog.Sideslip:
		return true
	}
	return false
}

// movesInFlight tells whether a channel that may rest on the ground moves in the air.
func movesInFlight(q flightlog.Quantity) bool {
	switch q {
	case flightlog.Altitude, flightlog.GroundSpeed, flightlog.GroundTrack, flightlog.ClimbRate:
		return true
	}
	return false
}

// frozen finds stretches in which a sensor repeats one number. Runs at a value at which the channel clips are left alone.
func frozen(q flightlog.Quantity, c flightlog.Channel, s scan, air *series, clips []float64) []flightlog.Finding {
	if !moves(q) && !movesInFlight(q) {
		return nil
	}
	least, long := frozenFine, frozenSeconds
	least = max(least, s.rare+1)
	if s.usual > 1 {
		least = max(frozenCoarse, frozenRuns*s.usual)
	}
	if !moves(q) {
		long = frozenSatellite
	}
	var out []flightlog.Finding
	for _, r := range s.runs {
		start, end := c.Time[r.from], c.Time[r.to]
		if r.samples() < least || end-start < long-s.step || slices.Contains(clips, c.Value[r.from]) {
			continue
		}
		if !moves(q) && !(air.flyingAt(start) && air.flyingAt(end)) {
			continue
		}
		// an airspeed of zero is a model at rest, below what its tube can feel
		if q == flightlog.Airspeed && math.Abs(c.Value[r.from]) < 0.5 && !air.flyingAt((start+end)/2) {
			continue
		}
		what := fmt.Sprintf("the %s repeats %s for %.1f s, so that it is frozen", plainName(q), repeated(q, c.Value[r.from]), end-start)
		if q == flightlog.Airspeed {
			what += ", as by a blocked tube or a sensor that hangs"
		}
		out = append(out, flightlog.Finding{Severity: flightlog.Loss, Channel: q, Start: start, End: end, What: what, Consequence: lost(q, start, end)})
	}
	return out
}

// repeated is a frozen number as a crew would read it: temperature in °C, all else as the recording holds it.
func repeated(q flightlog.Quantity, value float64) string {
	if q == flightlog.AirTemperature {
		return fmt.Sprintf("%.5g °C", value-273.15)
	}
	return fmt.Sprintf("%.6g", value)
}
