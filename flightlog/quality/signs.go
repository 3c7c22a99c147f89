package quality

import (
	"fmt"
	"math"
	"sort"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// Rates are compared with the change of angles over this span [s]: long enough to rise above the noise of an
// attitude solution, short against a turn.
const signSpan = 0.4

// levelBank is the bank [rad] up to which the pitch rate is compared with the pitch angle.
const levelBank = 10 * math.Pi / 180

// rateSigns compares roll and pitch rate with the change of roll and pitch angle, by the kinematics of
// Euler angles: φ̇ = p + (q sin φ + r cos φ) tan θ, θ̇ = q cos φ − r sin φ.
//
// Source: ISO 1151-1 axes; the relation is in every textbook of flight dynamics, such as Etkin, Dynamics of Flight.
func rateSigns(rec *flightlog.Recording) []flightlog.Finding {
	var out []flightlog.Finding
	check := func(rate, angle flightlog.Quantity, steepest float64, parts func(at func(flightlog.Quantity) float64) (own, others float64)) {
		c, ok := rec.Channels[angle]
		if !ok || len(rec.Channels[rate].Time) < 50 || len(c.Time) < 50 {
			return
		}
		var measured, kinematic []float64
		start, end := c.Time[0], c.Time[len(c.Time)-1]
		for t := start + signSpan; t+signSpan < end; t += signSpan {
			at := func(q flightlog.Quantity) float64 { return meanAround(rec.Channels[q], t, signSpan/2) }
			before, after := meanAround(c, t-signSpan/2, signSpan/4), meanAround(c, t+signSpan/2, signSpan/4)
			change := math.Remainder(after-before, 2*math.Pi) / signSpan
			if own, others := parts(at); statistic.Finite(change) && statistic.Finite(own+others) && math.Abs(at(flightlog.PitchAngle)) < 1 && !(math.Abs(at(flightlog.RollAngle)) > steepest) {
				measured, kinematic = append(measured, own), append(kinematic, change-others)
			}
		}
		if f, ok := judgeRate(rate, angle, measured, kinematic); ok {
			f.Start, f.End = start, end
			out = append(out, f)
		}
	}
	orZero := func(x float64) float64 {
		if math.IsNaN(x) {
			return 0
		}
		return x
	}
	// in a turn most of the pitch rate lifts the nose along the horizon and says nothing of the pitch angle
	check(flightlog.PitchRate, flightlog.PitchAngle, levelBank, func(at func(flightlog.Quantity) float64) (own, others float64) {
		roll := orZero(at(flightlog.RollAngle))
		return at(flightlog.PitchRate) * math.Cos(roll), -orZero(at(flightlog.YawRate)) * math.Sin(roll)
	})
	check(flightlog.RollRate, flightlog.RollAngle, math.Inf(1), func(at func(flightlog.Quantity) float64) (own, others float64) {
		roll := at(flightlog.RollAngle)
		return at(flightlog.RollRate), (orZero(at(flightlog.PitchRate))*math.Sin(roll) + orZero(at(flightlog.YawRate))*math.Cos(roll)) * math.Tan(orZero(at(flightlog.PitchAngle)))
	})
	return out
}

// judgeRate reads sign and unit from how a measured rate runs with the change of its angle.
func judgeRate(rate, angle flightlog.Quantity, measured, kinematic []float64) (flightlog.Finding, bool) {
	const clear = 0.5 // correlation from which the comparison says anything
	r := statistic.Correlation(measured, kinematic)
	if len(measured) < 20 || math.Abs(r) < clear {
		return flightlog.Finding{}, false
	}
	severity := flightlog.Loss
	if rate == flightlog.PitchRate {
		severity = flightlog.Refusal
	}
	f := flightlog.Finding{Severity: severity, Channel: rate}
	gain := math.Sqrt(sumSquares(measured) / sumSquares(kinematic))
	switch {
	case r < 0:
		f.What = fmt.Sprintf("the %s runs against the change of the %s (correlation %.2f): one of the two has the wrong sign", plainName(rate), plainName(angle), r)
	case r > 0.8 && (gain > 5 || gain < 0.2):
		f.What = fmt.Sprintf("the %s is %.3g times the change of the %s: one of the two has the wrong unit", plainName(rate), gain, plainName(angle))
	default:
		return flightlog.Finding{}, false
	}
	f.Consequence = "nothing that needs this rate or angle can be trusted; turn the model by hand and see which one is wrong, then set its sign or unit in the logger map"
	return f, true
}

// meanAround is the mean of the samples within half a span of t; NaN when there are none.
func meanAround(c flightlog.Channel, t, half float64) float64 {
	i := sort.SearchFloat64s(c.Time, t-half)
	sum, n := 0.0, 0
	for ; i < len(c.Time) && c.Time[i] <= t+half; i++ {
		sum += c.Value[i]
		n++
	}
	if n == 0 {
		return math.NaN()
	}
	return sum / float64(n)
}

func sumSquares(values []float64) float64 {
	s := 0.0
	for _, v := range values {
		s += v * v
	}
	return s
}

// plainName is a quantity in words.
func plainName(q flightlog.Quantity) string {
	out := []byte(q)
	for i, c := range out {
		if c == '_' {
			out[i] = ' '
		}
	}
	return string(out)
}
