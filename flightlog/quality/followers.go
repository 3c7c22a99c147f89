package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// sideways checks the right acceleration and the vanes against what attitude, rates and path leave for them.
func (e *evidence) sideways() {
	e.follow(e.rightForce(), "the side force that the sideslip of bank and yaw rate brings", handCheck(flightlog.RightAcceleration))
	const alpha, beta = "wind from below is a positive angle of attack: turn the vane by hand, and set its sign or unit", "wind from the right is positive sideslip: turn the vane by hand, and set its sign or unit"
	e.follow(e.alphaVane(), "the lift that is carried", alpha)
	e.follow(e.alphaVaneSize(), "pitch angle less path angle", alpha)
	e.follow(e.betaVane(), "the sideslip that bank and yaw rate bring", beta)
}

// clearFollower is enough here, where half-second blocks over minutes stand on the two sides: rehearsed clean flights give 0.65 to 1.
const clearFollower = 0.45

// follow judges a channel that has to follow what other channels say of it.
func (e *evidence) follow(r relation, of, check string) {
	const enough = 120 // blocks: a minute
	if r.n < enough || r.spreadX < r.least {
		return
	}
	switch {
	case r.r < -clearFollower:
		e.condemn(r.a, severityOf(r.a), fmt.Sprintf("the %s runs against %s (correlation %.2f), so that it has the wrong sign", plainName(r.a), of, r.r), lostThroughout(r.a)+"; "+check)
		e.correct(r.a, -1)
	case r.r > clearGain && r.tolerance > 0 && math.Abs(math.Log(r.gain)) > math.Log(r.tolerance):
		hint := unitHint(r.a, r.gain)
		if hint == "" {
			hint = "check its unit and scale"
		}
		e.condemn(r.a, severityOf(r.a), fmt.Sprintf("the %s is %.3g times %s", plainName(r.a), r.gain, of), lostThroughout(r.a)+"; "+hint)
		e.correct(r.a, 1/r.gain)
	}
}

// sideVelocity is v of the body's Y axis through the air, m/s, in blocks of half a second, where bank and yaw rate were recorded.
func (e *evidence) sideVelocity() []float64 {
	if !e.s.has(flightlog.YawRate, flightlog.RollAngle) {
		return missing(e.s.n / half)
	}
	return means(e.sideMotion(e.s.values[flightlog.RollAngle]), half)
}

// sideMotion is v of the body's Y axis through the air, m/s, in cells: v̇ + v/τ = g·sin φ·cos θ − V·r + V·α·p, which is the force
// equation along Y with the side force as the damping that it is (CY_β < 0), so that no accelerometer enters. Any model's τ
// lies within a factor of three of sideTime, which moves size and phase but no sign.
//
// Source: Etkin, Dynamics of Flight, force equation along Y; τ = 2m/(ρ·V·S·|CY_β|).
func (e *evidence) sideMotion(bank []float64) []float64 {
	const sideTime = 2.5 // s, for 20 kg/m² at 20 m/s and CY_β = −0.6: derived
	yaw, rolling, pitch := e.s.values[flightlog.YawRate], e.s.values[flightlog.RollRate], e.s.values[flightlog.PitchAngle]
	speed, factor, alpha := e.speed(half), e.densityFactor(half), e.incidence(half)
	v := missing(e.s.n)
	now := 0.0
	for i := range v {
		b := min(i/half, len(speed)-1)
		if b < 0 || math.IsNaN(yaw[i]+bank[i]+speed[b]) || !e.s.flying[i] {
			now = 0
			continue
		}
		cos := 1.0
		if pitch != nil && !math.IsNaN(pitch[i]) {
			cos = math.Cos(pitch[i])
		}
		push := standardGravity*math.Sin(bank[i])*cos - speed[b]*factor[b]*yaw[i]
		if rolling != nil && !math.IsNaN(rolling[i]) {
			push += speed[b] * factor[b] * or(alpha, b, 0) * rolling[i]
		}
		now += (push - now/sideTime) * cell
		v[i] = now
	}
	return v
}

// half is the blocks of half a second in which sideslip is compared: a Dutch roll of a model takes one to two seconds.
const half = 5

// rightForce: side force pushes against sideslip.
func (e *evidence) rightForce() relation {
	r := relation{a: flightlog.RightAcceleration, least: 0.3} // m/s: a degree of sideslip
	if !e.s.has(flightlog.RightAcceleration) || e.condemned[flightlog.RightAcceleration] {
		return r
	}
	v := e.sideVelocity()
	return r.relate(e.mean(flightlog.RightAcceleration, half), combined(len(v), func(b int) float64 { return -v[b] }), e.inAir(half))
}

// alphaVane: more angle of attack is more lift.
func (e *evidence) alphaVane() relation {
	r := relation{a: flightlog.AngleOfAttack, least: 0.1}
	if !e.s.has(flightlog.AngleOfAttack, flightlog.DownAcceleration, flightlog.Airspeed) {
		return r
	}
	force, speed := e.mean(flightlog.DownAcceleration, half), e.mean(flightlog.Airspeed, half)
	usual := statistic.Median(finiteOnly(speed))
	return r.relate(e.mean(flightlog.AngleOfAttack, half), combined(len(force), func(b int) float64 {
		if speed[b] < usual/2 {
			return math.NaN()
		}
		return -force[b] / standardGravity * usual * usual / (speed[b] * speed[b]) // 1 where the lift coefficient is the usual one
	}), e.inAir(half))
}

// alphaVaneSize: α = θ − γ with the wings level.
func (e *evidence) alphaVaneSize() relation {
	r := relation{a: flightlog.AngleOfAttack, least: 0.7 * degree, tolerance: 3}
	if !e.s.has(flightlog.AngleOfAttack, flightlog.PitchAngle) || e.condemned[flightlog.AngleOfAttack] {
		return r
	}
	roll := e.mean(flightlog.RollAngle, brisk)
	level := func(b int) bool { return e.s.inFlight(b, brisk) && math.Abs(or(roll, b, 0)) < 2*levelBank }
	return r.relate(e.mean(flightlog.AngleOfAttack, brisk), e.incidence(brisk), level)
}

// betaVane: β = v/V.
func (e *evidence) betaVane() relation {
	r := relation{a: flightlog.Sideslip, least: 0.7 * degree, tolerance: 4}
	if !e.s.has(flightlog.Sideslip) || e.condemned[flightlog.Sideslip] {
		return r
	}
	v, speed := e.sideVelocity(), e.speed(half)
	return r.relate(e.mean(flightlog.Sideslip, half), combined(len(v), func(b int) float64 { return v[b] / speed[b] }), e.inAir(half))
}

// strangers finds channels that do not follow what they belong to although both move: columns that are exchanged.
func (e *evidence) strangers(relations []relation) {
	for _, q := range []flightlog.Quantity{flightlog.PitchAngle, flightlog.RollAngle, flightlog.Heading} {
		if e.condemned[q] {
			return // the relations were worked out before it was put right
		}
	}
	// of it may stay unexplained; rehearsed flights leave 0.05 to 0.4, exchanged columns 0.9 and more
	const unexplained = 0.75
	for _, r := range relations {
		switch r.a {
		case flightlog.ForwardAcceleration, flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate:
		default:
			continue
		}
		own := r.b == flightlog.PitchAngle || r.b == flightlog.RollAngle || r.b == flightlog.Heading
		if !own || r.sizeOnly || e.condemned[r.a] || e.condemned[r.b] || r.n < leastBlocks || r.spreadX < 1.3*r.least || r.unexplained < unexplained || math.Abs(r.r) > clearSign {
			continue
		}
		e.condemn(r.a, severityOf(r.a), fmt.Sprintf("the %s does not follow the %s, so that it seems to be exchanged with another column", r.saysA, r.saysB),
			lostThroughout(r.a)+"; look at which columns the map reads for the three axes; then "+handCheck(r.a))
	}
}
