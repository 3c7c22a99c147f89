package flightlog

import "math"

// Figures of nature for comparing columns.
const (
	gravity     = 9.80665 // m/s², standard gravity, ISO 80000-3
	scaleHeight = 8434.0  // m: R T/g of air at 288.15 K, ISO 2533; within 5 % wherever models fly
	leastFlying = 5.0     // m/s below which speeds say nothing, derived: a model of this kind taxies
)

// relation is what physics gives for a quantity from the other columns, and what it takes to believe it.
type relation struct {
	is       Quantity
	of       string    // what it is compared with, in words
	expected []float64 // SI; nil when a partner is missing
	actual   []float64 // the column, smoothed as the expectation is
	least    float64   // spread of the expectation below which it says nothing
	trust    float64   // correlation from which on it is believed
	signOnly bool      // the size need not fit
	anchored bool      // the partners' own signs are known
}

// relationOf builds the relation of a quantity from the columns that the draft has now. actual is any column in SI.
//
// Sources: the kinematics of a rigid body over a flat earth, as in every textbook of flight mechanics: angular rates from
// the change of Euler angles, specific force along X about V̇ + g sin θ, the turn tan φ = V ψ̇/g, climb V sin γ = ḣ.
func (d *draft) relationOf(q Quantity, column []float64) relation {
	r := relation{is: q, least: math.Inf(1), trust: 0.8}
	smooth := func(half float64) { r.actual = d.grid.smooth(column, half) }
	switch q {
	case RollRate, PitchRate, YawRate:
		smooth(0.2)
		r.expected, r.of, r.least = d.rateFromAngles(q), "the change of the attitude angles", 0.02
		r.anchored = d.oriented(angleBehind(q))
	case ForwardAcceleration:
		smooth(0.5)
		r.expected, r.of, r.least = d.forwardForce(), "gravity along the pitch angle and the change of speed", 0.4
		r.anchored = d.oriented(PitchAngle)
	case Altitude:
		smooth(0.5)
		r.of, r.least, r.trust, r.anchored = "the static pressure", 3, 0.95, true
		r.expected = d.grid.smooth(each(func(v []float64) float64 { return -scaleHeight * math.Log(v[0]/1e5) }, d.series(StaticPressure)), 0.5)
	case ClimbRate:
		smooth(1)
		r.of, r.least, r.trust, r.anchored = "the change of height", 0.4, 0.7, true
		r.expected = d.heightRate()
	case PitchAngle:
		smooth(1)
		r.of, r.least, r.trust, r.signOnly, r.anchored = "climbing", 0.04, 0.5, true, true
		r.expected = d.pathAngle()
	case RollAngle:
		smooth(0.5)
		r.of, r.least, r.trust = "turning", 0.05, 0.7
		r.expected, r.anchored = d.bankFromTurn(), d.oriented(Heading) || d.oriented(YawRate)
	case Heading:
		r.actual = d.grid.slope(d.grid.smooth(column, 0.2), 1)
		r.of, r.least, r.trust, r.anchored = "the ground track", 0.03, 0.7, true
		r.expected = d.grid.slope(d.inFlight(d.series(GroundTrack)), 1)
	case AngleOfAttack:
		smooth(0.5)
		r.of, r.least, r.trust, r.signOnly, r.anchored = "pitch angle less path angle", 0.02, 0.5, true, d.oriented(PitchAngle)
		r.expected = each(func(v []float64) float64 { return v[0] - v[1] }, d.grid.smooth(d.series(PitchAngle), 1), d.pathAngle())
	case Throttle:
		smooth(1)
		r.of, r.least, r.trust, r.signOnly, r.anchored = "gaining height and speed", 0.5, 0.5, true, true
		r.expected = d.energyRate()
	}
	return r
}

// angleBehind is the angle whose change a rate is.
func angleBehind(q Quantity) Quantity {
	switch q {
	case RollRate:
		return RollAngle
	case PitchRate:
		return PitchAngle
	}
	return Heading
}

// oriented tells whether the sign of a quantity is known.
func (d *draft) oriented(q Quantity) bool {
	i, ok := d.taken[q]
	return ok && (d.guesses[i].fixed || d.guesses[i].seen == confirmed || d.guesses[i].seen == reversed || !q.hasDirection())
}

// rateFromAngles is a body rate from the change of the angles; a missing roll or heading counts as steady.
func (d *draft) rateFromAngles(q Quantity) []float64 {
	const half = 0.2
	roll, pitch, heading := d.series(RollAngle), d.series(PitchAngle), d.series(Heading)
	switch {
	case q == RollRate && roll == nil, q == PitchRate && pitch == nil, q == YawRate && heading == nil:
		return nil
	}
	still := func(x []float64) []float64 {
		if x == nil {
			return make([]float64, len(d.grid.raw[(d.time+1)%len(d.grid.raw)]))
		}
		return x
	}
	roll, pitch, heading = still(roll), still(pitch), still(heading)
	return each(func(v []float64) float64 {
		phi, theta, dPhi, dTheta, dPsi := v[0], v[1], v[2], v[3], v[4]
		switch q {
		case RollRate:
			return dPhi - dPsi*math.Sin(theta)
		case PitchRate:
			return dTheta*math.Cos(phi) + dPsi*math.Cos(theta)*math.Sin(phi)
		}
		return -dTheta*math.Sin(phi) + dPsi*math.Cos(theta)*math.Cos(phi)
	}, d.grid.smooth(roll, half), d.grid.smooth(pitch, half), d.grid.slope(roll, half), d.grid.slope(pitch, half), d.grid.slope(heading, half))
}

// forwardForce is V̇ + g sin θ; without a speed the first part is left out.
func (d *draft) forwardForce() []float64 {
	pitch := d.grid.smooth(d.series(PitchAngle), 0.5)
	speed := d.anySpeed()
	if speed == nil {
		return each(func(v []float64) float64 { return gravity * math.Sin(v[0]) }, pitch)
	}
	return each(func(v []float64) float64 { return v[0] + gravity*math.Sin(v[1]) }, d.grid.slope(speed, 0.5), pitch)
}

// anySpeed is the airspeed, else the ground speed.
func (d *draft) anySpeed() []float64 {
	if v := d.series(Airspeed); v != nil {
		return v
	}
	return d.series(GroundSpeed)
}

// inFlight is a series without the instants at which the model stands: there a ground track is noise.
func (d *draft) inFlight(x []float64) []float64 {
	speed := d.anySpeed()
	if speed == nil {
		return x
	}
	return each(func(v []float64) float64 {
		if !(v[1] > leastFlying) {
			return math.NaN()
		}
		return v[0]
	}, x, speed)
}

func (d *draft) heightRate() []float64 {
	height := d.series(Altitude)
	if height == nil {
		height = each(func(v []float64) float64 { return -scaleHeight * math.Log(v[0]/1e5) }, d.series(StaticPressure))
	}
	return d.grid.slope(d.grid.smooth(height, 0.5), 1)
}

// pathAngle is asin(ḣ/V) in flight.
func (d *draft) pathAngle() []float64 {
	rate := d.heightRate()
	if rate == nil {
		rate = d.grid.smooth(d.series(ClimbRate), 1)
	}
	return each(func(v []float64) float64 {
		if !(v[1] > leastFlying) || math.Abs(v[0]) > v[1] {
			return math.NaN()
		}
		return math.Asin(v[0] / v[1])
	}, rate, d.grid.smooth(d.anySpeed(), 1))
}

// bankFromTurn is atan(V ψ̇/g) in flight.
func (d *draft) bankFromTurn() []float64 {
	turn := d.grid.slope(d.series(Heading), 0.5)
	if turn == nil {
		turn = d.grid.slope(d.inFlight(d.series(GroundTrack)), 0.5)
	}
	if turn == nil && d.oriented(YawRate) {
		turn = d.grid.smooth(d.series(YawRate), 0.5)
	}
	return each(func(v []float64) float64 {
		if !(v[1] > leastFlying) {
			return math.NaN()
		}
		return math.Atan(v[0] * v[1] / gravity)
	}, turn, d.grid.smooth(d.anySpeed(), 0.5))
}

// energyRate is d(h + V²/2g)/dt in flight, which the propeller feeds.
func (d *draft) energyRate() []float64 {
	speed := d.grid.smooth(d.anySpeed(), 1)
	return each(func(v []float64) float64 {
		if !(v[1] > leastFlying) {
			return math.NaN()
		}
		return v[0] + v[1]*v[2]/gravity
	}, d.heightRate(), speed, d.grid.slope(speed, 1))
}
