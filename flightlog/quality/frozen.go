package quality

import (
	"fmt"
	"math"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// A channel counts as frozen when it repeats one number for a second or more, for 20 samples or more, and for
// ten times as long as 95 % of its other runs of equal numbers, so that coarse steps are not taken for it.
const (
	frozenSeconds = 1.0
	frozenSamples = 20
	frozenRuns    = 10
)

// moves tells whether a channel always moves in flight. Servo positions, temperature and what satellite
// navigation gives may rest.
func moves(q flightlog.Quantity) bool {
	switch q {
	case flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate, flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration,
		flightlog.RollAngle, flightlog.PitchAngle, flightlog.Heading, flightlog.Airspeed, flightlog.StaticPressure, flightlog.AngleOfAttack, flightlog.Sideslip:
		return true
	}
	return false
}

// frozen finds stretches in which a sensor repeats one number.
func frozen(q flightlog.Quantity, c flightlog.Channel) []flightlog.Finding {
	if !moves(q) || len(c.Value) < frozenSamples {
		return nil
	}
	type run struct{ from, to int } // samples, last one included
	var runs []run
	var lengths []float64
	for i := 0; i < len(c.Value); {
		j := i
		for j+1 < len(c.Value) && c.Value[j+1] == c.Value[i] {
			j++
		}
		runs = append(runs, run{i, j})
		lengths = append(lengths, float64(j-i+1))
		i = j + 1
	}
	usual := statistic.Quantile(lengths, 0.95)
	if len(runs) < frozenSamples {
		usual = 1 // hardly any change at all: every long run is suspect
	}
	var out []flightlog.Finding
	for _, r := range runs {
		seconds, samples := c.Time[r.to]-c.Time[r.from], float64(r.to-r.from+1)
		if seconds < frozenSeconds || samples < math.Max(frozenSamples, frozenRuns*usual) {
			continue
		}
		// an airspeed of zero is a model at rest, below what its tube can feel
		if q == flightlog.Airspeed && math.Abs(c.Value[r.from]) < 0.5 {
			continue
		}
		out = append(out, flightlog.Finding{Severity: flightlog.Loss, Channel: q, Start: c.Time[r.from], End: c.Time[r.to],
			What:        fmt.Sprintf("the channel repeats %.6g for %.1f s: it is frozen", c.Value[r.from], seconds),
			Consequence: "no test point is taken from this stretch"})
	}
	return out
}
