package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// speeds compares the airspeed with the velocity over the earth: its scale over the whole flight, and stretches in which the
// tube is blocked.
func (e *evidence) speeds() {
	if !e.s.has(flightlog.Airspeed) {
		return
	}
	e.groundSpeedUnit()
	free, near, ok := e.triangles()
	switch {
	case ok && free.inliers > mostAgree && (free.inliers > near.inliers+0.2 || math.Abs(math.Log(near.scale)) > scaleTolerance) && e.airspeedScale(free):
	case ok && near.inliers > leastAgree:
		e.blocked(near.witness(nil), near.witness)
		e.wind = &near
	case ok:
		e.blockedByLift()
	default:
		e.speedsWithoutTrack()
		if !e.condemned[flightlog.Airspeed] {
			e.blockedByLift()
		}
	}
}

// witness is what the triangle says of the airspeed after a fit without blocks that are known to be bad.
func (t triangle) witness(bad []bool) speedWitness {
	if bad != nil {
		c := t
		c.use = make([]bool, len(t.use))
		for b := range t.use {
			if c.use[b] = t.use[b] && !bad[b]; !c.use[b] && t.use[b] {
				c.blocks--
			}
		}
		if c.blocks >= leastBlocks {
			use, blocks := t.use, t.blocks
			t = c.best(append(c.parts(), [3]float64{t.windNorth, t.windEast, t.scale}))
			t.use, t.blocks = use, blocks
		}
	}
	w := speedWitness{speed: missing(len(t.use)), expected: missing(len(t.use)), sd: t.sd, levels: true, changes: true, words: "the velocity over the ground and the wind"}
	for b, use := range t.use {
		if use {
			w.speed[b] = t.speed[b] / t.scale
			w.expected[b] = w.speed[b] - t.left(b)
		}
	}
	return w
}

// A scale that is this far from one (a unit or a factor; a tube's position error and calibration stay within a few per cent,
// common practice, no source), agreed on by most of the flight, on headings all around or beyond any wind. The fit gives
// clean rehearsed flights back to 2 %, of which 1.5 % are the tube's own.
const (
	scaleTolerance = 0.09 // of the logarithm
	mostAgree      = 0.6
	allAround      = 0.35
	leastAgree     = 0.08 // of the flight: what is left before a tube blocks a minute after the take-off
)

// airspeedScale judges the scale of the triangle.
func (e *evidence) airspeedScale(t triangle) bool {
	off := math.Abs(math.Log(t.scale))
	around := t.coverage > allAround && off > scaleTolerance
	if !(around || off > math.Log(1.67)) {
		return false
	}
	e.speedFinding(flightlog.Airspeed, t.scale, "speed over the ground less the wind")
	return true
}

// groundSpeedUnit: over whole turns g·tan φ = V·χ̇ holds for the ground speed, to a tenth for wind and the satellite's lag. It is
// named only where the airspeed disagrees with it as well, by the same factor.
func (e *evidence) groundSpeedUnit() {
	const least = 1.6
	by, ok := e.speedByTurns(flightlog.GroundSpeed, flightlog.GroundTrack)
	if !ok || by < least && by > 1/least {
		return
	}
	ratio := e.usualRatio()
	if math.Abs(math.Log(by)-math.Log(ratio)) < 0.25 {
		e.speedFinding(flightlog.GroundSpeed, ratio, "airspeed, and too large or small for the turns flown")
	}
}

// usualRatio is the median of ground speed over airspeed in flight; NaN without both.
func (e *evidence) usualRatio() float64 {
	air, ground := e.mean(flightlog.Airspeed, brisk), e.mean(flightlog.GroundSpeed, brisk)
	var ratios []float64
	for b := range air {
		if e.s.inFlight(b, brisk) && air[b] > 1 && !math.IsNaN(ground[b]) {
			ratios = append(ratios, ground[b]/air[b])
		}
	}
	return statistic.Median(ratios)
}

// speedByTurns is how many times too large a speed is for the turn rate of a direction at the bank flown.
func (e *evidence) speedByTurns(speed, direction flightlog.Quantity) (factor float64, ok bool) {
	if !e.s.has(speed, direction, flightlog.RollAngle) {
		return 0, false
	}
	v, turn, roll := e.mean(speed, brisk), slopes(e.mean(direction, brisk), brisk), e.mean(flightlog.RollAngle, brisk)
	var ratios []float64
	for b := range v {
		tan := math.Tan(roll[b])
		if e.s.inFlight(b, brisk) && math.Abs(tan) > 0.25 && math.Abs(tan) < 2 && !math.IsNaN(turn[b]*v[b]) {
			ratios = append(ratios, v[b]*turn[b]/(standardGravity*tan))
		}
	}
	factor = statistic.Median(ratios)
	return factor, len(ratios) >= 8 && factor > 0
}

func (e *evidence) speedFinding(q flightlog.Quantity, factor float64, other string) {
	hint := unitHint(q, factor)
	if hint == "" {
		hint = fmt.Sprintf("check the unit of both speeds and the tube; a calibrated tube has a scale of %.3f in the logger map", 1/factor)
	}
	consequence := lostThroughout(q) + "; " + hint
	if q == flightlog.Airspeed {
		consequence = "lift and drag coefficients would be wrong by the square of it: " + consequence
	}
	e.condemn(q, severityOf(q), fmt.Sprintf("the %s is %.2f times the %s over the whole flight", plainName(q), factor, other), consequence)
	e.correct(q, 1/factor)
}

// speedsWithoutTrack compares usual high speeds where the track is not logged: wind takes on one heading what it gives on the other,
// so that they lie close together.
func (e *evidence) speedsWithoutTrack() {
	const most = 1.67 // a wind of four tenths of the airspeed on two of three legs stays below
	if !e.s.has(flightlog.Airspeed, flightlog.GroundSpeed) {
		return
	}
	air, ground := finiteOnly(e.s.values[flightlog.Airspeed]), finiteOnly(e.s.values[flightlog.GroundSpeed])
	if len(air) < leastBlocks || len(ground) < leastBlocks {
		return
	}
	a, g := statistic.Quantile(air, 0.75), statistic.Quantile(ground, 0.75)
	if !(a > 0) || !(g > 3) || a/g < most && g/a < most {
		return
	}
	e.speedFinding(flightlog.Airspeed, a/g, "ground speed")
}

// exchangedSpeeds tells airspeed and ground speed apart where their columns are exchanged: the two would give the wind from
// the wrong side, while the crab angle between heading and track still gives it from the right one.
//
// Both roads must see a metre a second of wind; in calmer air the two speeds are the same and nothing is lost.
func (e *evidence) exchangedSpeeds() {
	const least = 0.8 // m/s
	if e.condemned[flightlog.Airspeed] || e.condemned[flightlog.GroundSpeed] || !e.s.has(flightlog.Heading) {
		return
	}
	t := e.wind
	if t == nil {
		if _, near, ok := e.triangles(); ok {
			t = &near
		}
	}
	if t == nil || t.inliers < mostAgree || t.coverage < allAround {
		return
	}
	north, east, ok := e.windByCrab()
	size, bySpeeds := math.Hypot(north, east), math.Hypot(t.windNorth, t.windEast)
	if !ok || size < least || bySpeeds < least {
		return
	}
	if (north*t.windNorth+east*t.windEast)/(size*bySpeeds) > -0.7 {
		return
	}
	e.condemn(flightlog.Airspeed, flightlog.Refusal,
		fmt.Sprintf("airspeed and ground speed give a wind of %.1f m/s against the one that heading and track show, so that the two columns are exchanged", bySpeeds),
		lostThroughout(flightlog.Airspeed)+"; exchange the two in the logger map, or heading and track if those were mixed up")
	a, g := e.s.values[flightlog.Airspeed], e.s.values[flightlog.GroundSpeed]
	e.s.values[flightlog.Airspeed], e.s.values[flightlog.GroundSpeed] = g, a
	e.forget(flightlog.Airspeed)
	e.forget(flightlog.GroundSpeed)
}

// windByCrab is the wind from V·sin(ψ − χ) = −(wind across the track), with one offset for the compass.
func (e *evidence) windByCrab() (north, east float64, ok bool) {
	heading, track, speed := e.mean(flightlog.Heading, brisk), e.mean(flightlog.GroundTrack, brisk), e.mean(flightlog.Airspeed, brisk)
	var a [3][3]float64
	var y [3]float64
	n := 0
	for b := range heading {
		// a quick turn mixes the lag of the satellite in
		crab := speed[b] * math.Sin(heading[b]-track[b])
		if !e.s.inFlight(b, brisk) || math.IsNaN(crab) || math.Abs(math.Remainder(heading[b]-track[b], 2*math.Pi)) > 1 {
			continue
		}
		sin, cos := math.Sincos(track[b])
		j := [3]float64{sin, -cos, speed[b]}
		for i := range 3 {
			for k := range 3 {
				a[i][k] += j[i] * j[k]
			}
			y[i] += j[i] * crab
		}
		n++
	}
	x, ok := solve3(a, y)
	return x[0], x[1], ok && n >= leastBlocks
}
