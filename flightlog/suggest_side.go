package flightlog

import "math"

// sideTrust is the correlation with the sideslip from which on the sign of a side force is believed: common practice, no source. On eighteen trial
// flights with turns and inputs it was 0.66 to 0.97.
const sideTrust = 0.5

// sideVelocity is v of the body's Y axis through the air, m/s: v̇ + v/τ = g·sin φ·cos θ − V·r + V·α·p, the force equation along Y with the side
// force as the damping that it is, so that no accelerometer enters; nil when roll angle, yaw rate or airspeed is missing or of unknown sign.
//
// Source: Etkin, Dynamics of Flight, force equation along Y; τ = 2m/(ρ·V·S·|CY_β|) is 2.5 s for 20 kg/m² at 20 m/s and CY_β = −0.6: derived. A
// model's own τ moves size and phase but no sign.
func (d *draft) sideVelocity() []float64 {
	const sideTime = 2.5 // s
	if !d.oriented(RollAngle) || !d.oriented(YawRate) {
		return nil
	}
	roll, yaw, speed := d.series(RollAngle), d.series(YawRate), d.series(Airspeed)
	push := each(func(v []float64) float64 {
		if !(v[2] > leastFlying) {
			return math.NaN()
		}
		return gravity*math.Sin(v[0])*math.Cos(v[3]) - v[2]*v[1] + v[2]*v[4]*v[5]
	}, roll, yaw, speed, d.orNought(PitchAngle, roll), d.incidence(roll), d.orNought(RollRate, roll))
	if push == nil {
		return nil
	}
	now := 0.0
	for i, p := range push {
		if math.IsNaN(p) {
			now = 0
			continue
		}
		now += (p - now/sideTime) * d.grid.step
		push[i] = now
	}
	return push
}

// orNought is a quantity whose sign is known, else zeros as long as another series.
func (d *draft) orNought(q Quantity, as []float64) []float64 {
	if s := d.series(q); s != nil && d.oriented(q) {
		return s
	}
	return make([]float64, len(as))
}

// incidence is the pitch angle less the path angle, which is the angle of attack with the wings level; zeros where either is not known.
func (d *draft) incidence(as []float64) []float64 {
	path := d.pathAngle()
	if path == nil || !d.oriented(PitchAngle) {
		return make([]float64, len(as))
	}
	return each(func(v []float64) float64 {
		if a := v[0] - v[1]; !math.IsNaN(a) {
			return a
		}
		return 0
	}, d.series(PitchAngle), path)
}

// weighRight holds the right acceleration against the sideslip, which the side force pushes against. Where that does not show, the right-handed frame
// that loggers' axes make gives the sign, if the heads call them x, y and z: words such as right and up name directions, not a frame. That
// leaves the line a guess.
func (d *draft) weighRight(g *Guess, i int) {
	r := relation{is: RightAcceleration, of: "the side force that sideslip brings", least: 0.3, trust: sideTrust, signOnly: true, anchored: true}
	r.expected = d.grid.smooth(each(func(v []float64) float64 { return -v[0] }, d.sideVelocity()), 0.25)
	r.actual = d.grid.smooth(d.si(i, RightAcceleration, *g), 0.25)
	d.weighRelation(g, r)
	if g.seen == silent {
		d.completeFrame(g)
	}
}

// completeFrame turns the right acceleration where two axes tell the third.
func (d *draft) completeFrame(g *Guess) {
	sign := 1.0
	for _, q := range []Quantity{ForwardAcceleration, DownAcceleration} {
		i, ok := d.taken[q]
		if !ok || !d.oriented(q) || !d.guesses[i].strong || !d.guesses[i].axis {
			return
		}
		sign *= d.guesses[i].Sign
	}
	if g.axis && sign != g.Sign {
		g.Sign = sign
		g.Why += "; the sign is turned, as it must be where the other two axes are so and x, y and z make a right-handed frame"
	}
}
