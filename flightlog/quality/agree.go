package quality

import (
	"fmt"
	"math"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// Channels are compared with one another over this span [s]: long against gusts and short-period motion, short against a
// climb.
const agreeSpan = 2.0

// standardGravity in m/s², ISO 80000-3.
const standardGravity = 9.80665

// agreement compares channels that physics ties together: airspeed with the speed over the ground, forward acceleration with
// pitch angle, altitude with static pressure, throttle with the climb that it buys. Each shows a wrong unit, a wrong sign or
// exchanged columns. What leans on a channel that was found wrong is not compared any more.
func agreement(rec *flightlog.Recording) []flightlog.Finding {
	var out []flightlog.Finding
	add := func(f flightlog.Finding, found bool) bool {
		if found {
			f.Severity = flightlog.Refusal
			c := rec.Channels[f.Channel]
			f.Start, f.End = c.Time[0], c.Time[len(c.Time)-1]
			out = append(out, f)
		}
		return found
	}
	speed := add(airspeedOverGround(rec))
	height := add(heightInAir(rec))
	if !speed {
		add(forwardOnSlopes(rec))
	}
	if !speed && !height {
		add(climbByThrottle(rec))
	}
	return out
}

// airspeedOverGround: wind takes on one heading what it gives on the other, so that the usual high airspeed and
// ground speed of a flight lie close together.
func airspeedOverGround(rec *flightlog.Recording) (flightlog.Finding, bool) {
	const most = 1.67 // a wind of four tenths of the airspeed on two of three legs stays below
	air, ground := rec.Channels[flightlog.Airspeed], rec.Channels[flightlog.GroundSpeed]
	if len(air.Value) < 20 || len(ground.Value) < 20 {
		return flightlog.Finding{}, false
	}
	a, g := statistic.Quantile(air.Value, 0.75), statistic.Quantile(ground.Value, 0.75)
	if !(a > 0) || !(g > 3) || a/g < most && g/a < most {
		return flightlog.Finding{}, false
	}
	hint := "check the unit of both columns, and the tube"
	for _, u := range []struct {
		factor         float64
		written, meant string
	}{{1 / 3.6, "km/h", "m/s"}, {3.6, "m/s", "km/h"}, {1852.0 / 3600, "kt", "m/s"}, {3600 / 1852.0, "m/s", "kt"}, {0.3048, "ft/s", "m/s"}, {1 / 0.3048, "m/s", "ft/s"}} {
		if r := a / g / u.factor; r > 0.87 && r < 1.15 {
			hint = fmt.Sprintf("the airspeed seems to be in %s, not in %s", u.meant, u.written)
			break
		}
	}
	return flightlog.Finding{Channel: flightlog.Airspeed, What: fmt.Sprintf("airspeed is %.2f times the ground speed over the whole flight (%.3g against %.3g m/s), which no wind does", a/g, a, g),
		Consequence: "lift and drag would be wrong by the square of it; " + hint}, true
}

// forwardOnSlopes: what the forward axis feels beyond the change of airspeed is gravity along it, f_x − dV/dt = g·sin θ.
func forwardOnSlopes(rec *flightlog.Recording) (flightlog.Finding, bool) {
	force, pitch := rec.Channels[flightlog.ForwardAcceleration], rec.Channels[flightlog.PitchAngle]
	if len(force.Time) < 50 || len(pitch.Time) < 50 {
		return flightlog.Finding{}, false
	}
	var slope, left, turned []float64 // gravity along the axis; what is unexplained with the sign as it is, and turned
	eachSpan(force, func(t float64) {
		f, theta := meanAround(force, t, agreeSpan/2), meanAround(pitch, t, agreeSpan/2)
		gain := change(rec.Channels[flightlog.Airspeed], t)
		if g := standardGravity * math.Sin(theta); statistic.Finite(f) && statistic.Finite(g) && statistic.Finite(gain) {
			slope, left, turned = append(slope, g), append(left, f-gain-g), append(turned, -f-gain-g)
		}
	})
	const leastSpread = 0.7  // m/s²: four degrees of pitch angle
	const unexplained = 0.65 // of it may stay unexplained; rehearsed flights leave 0.1 to 0.2, exchanged columns 0.75 and more
	all := spread(slope)
	if len(slope) < 25 || all < leastSpread || spread(left) < unexplained*all {
		return flightlog.Finding{}, false
	}
	f := flightlog.Finding{Channel: flightlog.ForwardAcceleration, Consequence: "drag and angle of attack would be wrong; raise the nose of the model at rest: pitch angle and forward acceleration must both rise"}
	if spread(turned) < all/2 {
		f.What = "the forward acceleration runs against gravity along the pitch angle: it has the wrong sign"
	} else {
		f.What = "the forward acceleration does not follow gravity along the pitch angle: one of the two has the wrong sign or is exchanged with another column"
	}
	return f, true
}

// heightInAir: static pressure falls with height by ρ·g, about 12 Pa a metre.
func heightInAir(rec *flightlog.Recording) (flightlog.Finding, bool) {
	height, pressure := rec.Channels[flightlog.Altitude], rec.Channels[flightlog.StaticPressure]
	if len(height.Time) < 50 || len(pressure.Time) < 50 || !(statistic.Median(pressure.Value) > 0) {
		return flightlog.Finding{}, false
	}
	var h, byPressure []float64
	const scaleHeight = 287.05287 * 288.15 / standardGravity // R·T/g of standard air at sea level, ISO 2533
	base := statistic.Median(pressure.Value)
	eachSpan(height, func(t float64) {
		a, p := meanAround(height, t, agreeSpan/2), meanAround(pressure, t, agreeSpan/2)
		if statistic.Finite(a) && p > 0 {
			h, byPressure = append(h, a), append(byPressure, -scaleHeight*math.Log(p/base))
		}
	})
	if len(h) < 25 || spread(byPressure) < 5 {
		return flightlog.Finding{}, false
	}
	r := statistic.Correlation(h, byPressure)
	gain := spread(h) / spread(byPressure)
	f := flightlog.Finding{Channel: flightlog.Altitude, Consequence: "sink rates and drag would be wrong"}
	switch {
	case r < -0.5:
		f.What = fmt.Sprintf("the altitude falls where the static pressure says that the model climbs (correlation %.2f)", r)
		f.Consequence += "; altitude counts up: set its sign"
	case r > 0.9 && (gain > 1.5 || gain < 1/1.5):
		f.What = fmt.Sprintf("the altitude changes %.3g times as much as the static pressure says", gain)
		switch {
		case gain > 2.8 && gain < 3.8:
			f.Consequence += "; the altitude seems to be in ft, not in m"
		case gain > 1/3.8 && gain < 1/2.8:
			f.Consequence += "; the altitude seems to be in m, not in ft"
		default:
			f.Consequence += "; check the unit of both columns"
		}
	default:
		return flightlog.Finding{}, false
	}
	return f, true
}

// climbByThrottle: more throttle adds energy height, h + V²/2g, or stops it from falling.
func climbByThrottle(rec *flightlog.Recording) (flightlog.Finding, bool) {
	throttle, air := rec.Channels[flightlog.Throttle], rec.Channels[flightlog.Airspeed]
	height, perUnit := rec.Channels[flightlog.Altitude], 1.0
	if len(height.Time) < 50 {
		height = rec.Channels[flightlog.StaticPressure]
		perUnit = -1 / (1.225 * standardGravity)
	}
	if len(throttle.Time) < 20 || len(air.Time) < 50 || len(height.Time) < 50 {
		return flightlog.Finding{}, false
	}
	flying := statistic.Quantile(air.Value, 0.75) / 2
	var power, climb []float64
	eachSpan(air, func(t float64) {
		v := meanAround(air, t, agreeSpan/2)
		x := meanAround(throttle, t, agreeSpan/2)
		y := perUnit*change(height, t) + v*change(air, t)/standardGravity
		if v > flying && statistic.Finite(x) && statistic.Finite(y) {
			power, climb = append(power, x), append(climb, y)
		}
	})
	if len(power) < 25 || spread(power) < 0.15 {
		return flightlog.Finding{}, false
	}
	r := statistic.Correlation(power, climb)
	if r > -0.5 {
		return flightlog.Finding{}, false
	}
	return flightlog.Finding{Channel: flightlog.Throttle, What: fmt.Sprintf("the model gains energy where the throttle is closed and loses it where it is open (correlation %.2f)", r),
		Consequence: "glides would be taken for powered flight; 0 is idle and 1 is full: turn the calibration of the throttle round"}, true
}

// eachSpan visits the middle of every span of a channel.
func eachSpan(c flightlog.Channel, visit func(t float64)) {
	for t := c.Time[0] + agreeSpan; t+agreeSpan < c.Time[len(c.Time)-1]; t += agreeSpan {
		visit(t)
	}
}

// change is how fast a channel changes about t, from the means on either side; NaN when a side has no samples.
func change(c flightlog.Channel, t float64) float64 {
	if len(c.Time) == 0 {
		return math.NaN()
	}
	return (meanAround(c, t+agreeSpan/2, agreeSpan/2) - meanAround(c, t-agreeSpan/2, agreeSpan/2)) / agreeSpan
}

// spread is the standard deviation of values.
func spread(values []float64) float64 {
	mean := 0.0
	for _, v := range values {
		mean += v / float64(len(values))
	}
	sum := 0.0
	for _, v := range values {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(max(1, len(values)-1)))
}
