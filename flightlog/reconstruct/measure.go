package reconstruct

import (
	"math"

	"wingproof/flightlog"
)

// kind is what a scalar measurement measures.
type kind uint8

const (
	rollAngle kind = iota
	pitchAngle
	headingAngle
	airspeed
	height
	northSpeed
	eastSpeed
	climbRate
	vaneAlpha
	vaneBeta
	kinds
)

// quantity is the channel that a kind comes from, for messages.
func (k kind) quantity() flightlog.Quantity {
	switch k {
	case rollAngle:
		return flightlog.RollAngle
	case pitchAngle:
		return flightlog.PitchAngle
	case headingAngle:
		return flightlog.Heading
	case airspeed:
		return flightlog.Airspeed
	case height:
		return flightlog.Altitude
	case northSpeed, eastSpeed:
		return flightlog.GroundSpeed
	case climbRate:
		return flightlog.ClimbRate
	case vaneAlpha:
		return flightlog.AngleOfAttack
	}
	return flightlog.Sideslip
}

// words name a kind in a sentence.
func (k kind) words() string {
	switch k {
	case height:
		return "height from static pressure"
	case northSpeed:
		return "ground speed to the north"
	case eastSpeed:
		return "ground speed to the east"
	case vaneAlpha:
		return "angle-of-attack vane"
	case vaneBeta:
		return "sideslip vane"
	}
	words := []byte(k.quantity())
	for i, c := range words {
		if c == '_' {
			words[i] = ' '
		}
	}
	return string(words)
}

// circular tells whether the kind is an angle that comes round.
func (k kind) circular() bool { return k == rollAngle || k == headingAngle }

// arms are where sensors sit, from the CG in body axes, m at model size; zero where that is not stated.
type arms struct {
	tube, vanes, antenna [3]float64

	// lowest is the height [m] below which vanes are not used: near the ground air neither rises nor sinks, so that what they show there
	// would be taken for another upwash.
	lowest float64
}

const (
	slowestTube    = 6.0    // m/s below which an airspeed tube says little; common practice, no source
	slowestVane    = 8.0    // m/s below which a vane hangs; common practice, no source
	slowestGusts   = 3.0    // m/s: gusts blow past a model at rest at least that fast; common practice, no source
	steepestCosine = 0.2675 // of 1.3 rad of pitch, beyond which roll and heading are not used: they lose their meaning at 90°
)

// expect gives what a kind should read at the estimate, and the slopes of that on the errors of the states. rate is that of
// the gyros at this instant, biases still in. It reports false where the measurement says nothing.
func (b *estimate) expect(k kind, rate [3]float64, a *arms, h *slopes) (value float64, ok bool) {
	h.n = 0
	switch k {
	case rollAngle, pitchAngle, headingAngle:
		return b.expectAngle(k, h)
	case airspeed:
		return b.expectAirspeed(b.spin(rate), a, h)
	case height:
		h.add(atHeight, 1)
		h.add(atHeightBias, 1)
		return b.x[atHeight] + b.x[atHeightBias], true
	case northSpeed, eastSpeed, climbRate:
		arm := b.attitude.earth(cross(b.spin(rate), a.antenna))
		axis, sign := int(k-northSpeed), 1.0
		if k == climbRate {
			sign = -1
		}
		h.add(atVelocity+axis, sign)
		return sign * (b.x[atVelocity+axis] + arm[axis]), true
	}
	return b.expectVane(k, b.spin(rate), a, h)
}

// spin is the body rate without the gyro biases.
func (b *estimate) spin(rate [3]float64) [3]float64 {
	for k := range 3 {
		rate[k] -= b.x[atRateBias+k]
	}
	return rate
}

// expectAngle: the logged attitude is the true one plus a bias. A small rotation Ω about the earth axes turns the angles by
//
//	dφ = (cos ψ·Ω_N + sin ψ·Ω_E)/cos θ,  dθ = −sin ψ·Ω_N + cos ψ·Ω_E,  dψ = Ω_D + tan θ·(cos ψ·Ω_N + sin ψ·Ω_E)
//
// which is ω = ω(φ̇, θ̇, ψ̇) of every textbook in earth axes, solved for the angles.
func (b *estimate) expectAngle(k kind, h *slopes) (value float64, ok bool) {
	r, axis := &b.attitude, int(k-rollAngle)
	slopes, cosPitch := r.angleSlopes()
	h.addThree(atTilt, slopes[axis])
	h.add(atAttitudeBias+axis, 1)
	value = b.x[atAttitudeBias+axis]
	switch k {
	case rollAngle:
		value += r.roll()
	case pitchAngle:
		return value + r.pitch(), true
	default:
		value += r.heading()
	}
	return value, cosPitch > steepestCosine
}

// angleSlopes are the slopes of roll, pitch and heading on tilt, and cos θ. The first column of R is (cos θ·cos ψ, cos θ·sin ψ, −sin θ).
func (r *rotation) angleSlopes() (slopes [3][3]float64, cosPitch float64) {
	const vertical = 1e-9 // there is no heading there
	cosPitch = math.Sqrt(r[0]*r[0] + r[3]*r[3])
	level := 1 / math.Max(cosPitch, vertical)
	cos, sin := r[0]*level, r[3]*level
	upright := 1 / math.Max(cosPitch, steepestCosine)
	tan := -r[6] * upright
	return [3][3]float64{{cos * upright, sin * upright, 0}, {-sin, cos, 0}, {cos * tan, sin * tan, 1}}, cosPitch
}

// flowAt is the flow at a place of the body, in body axes: V = Rᵀ·(v − wind) + ω×r.
func (b *estimate) flowAt(spin, place [3]float64) [3]float64 {
	flow := b.attitude.body(b.flow())
	if place != [3]float64{} {
		arm := cross(spin, place)
		for k := range 3 {
			flow[k] += arm[k]
		}
	}
	return flow
}

// flowSlopes adds slopes for a function of the flow in body axes with gradient c there, and tells its slopes on tilt, which
// are d × flow for the gradient d in earth axes: exp(−[tilt]×) turns the flow the other way.
func (b *estimate) flowSlopes(h *slopes, c [3]float64) {
	d := b.attitude.earth(c)
	h.addThree(atTilt, cross(d, b.flow()))
	h.addThree(atVelocity, d)
	h.add(atWind, -d[0])
	h.add(atWind+1, -d[1])
	h.add(atVertical, -d[2])
	h.addThree(atGust, [3]float64{-d[0], -d[1], -d[2]})
}

// expectAirspeed: the tube feels (1 + scale)·|V| where it sits.
func (b *estimate) expectAirspeed(spin [3]float64, a *arms, h *slopes) (value float64, ok bool) {
	v := b.flowAt(spin, a.tube)
	speed := math.Sqrt(dot(v, v))
	if speed < slowestTube {
		return 0, false
	}
	gain := 1 + b.x[atScale]
	for k := range 3 {
		v[k] *= gain / speed
	}
	b.flowSlopes(h, v)
	h.add(atScale, speed)
	return gain * speed, true
}

// expectVane: a vane reads (1 + usual + upwash)·angle + bias of the flow where it sits.
func (b *estimate) expectVane(k kind, spin [3]float64, a *arms, h *slopes) (value float64, ok bool) {
	v := b.flowAt(spin, a.vanes)
	if dot(v, v) < slowestVane*slowestVane || b.n < most || b.x[atHeight] < a.lowest {
		return 0, false
	}
	i := int(k - vaneAlpha)
	angle, gradient := flowAngle(k, v)
	gain := 1 + usualUpwash + b.x[atUpwash+i]
	for j := range 3 {
		gradient[j] *= gain
	}
	b.flowSlopes(h, gradient)
	h.add(atVaneBias+i, 1)
	h.add(atUpwash+i, angle)
	return gain*angle + b.x[atVaneBias+i], true
}

// flowAngle is what a vane that turns freely about body Y or body Z shows of a flow in body axes, atan(w/u) or atan(v/u), with its gradient.
func flowAngle(k kind, v [3]float64) (angle float64, gradient [3]float64) {
	across := 2
	if k == vaneBeta {
		across = 1
	}
	square := v[0]*v[0] + v[across]*v[across]
	gradient[0], gradient[across] = -v[across]/square, v[0]/square
	return math.Atan2(v[across], v[0]), gradient
}

// sideslip is β = asin(v/V) of a flow in body axes, with its gradient.
func sideslip(v [3]float64) (beta float64, gradient [3]float64) {
	plane := v[0]*v[0] + v[2]*v[2]
	square, across := plane+v[1]*v[1], math.Sqrt(plane)
	return math.Atan2(v[1], across), [3]float64{-v[0] * v[1] / (square * across), across / square, -v[1] * v[2] / (square * across)}
}

// wrap brings an angle into −π to π.
func wrap(x float64) float64 {
	if math.Abs(x) < math.Pi {
		return x
	}
	return math.Remainder(x, 2*math.Pi)
}
