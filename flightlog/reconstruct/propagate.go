package reconstruct

import (
	"math"

	"wingproof/aero/atmosphere"
)

// stride is what drives the estimate from one instant to the next: means of the inertial measurements over it.
type stride struct {
	dt           float64
	rate         [3]float64 // rad/s, mean of the gyros, biases still in
	force        [3]float64 // m/s², mean of the accelerometers at the CG, biases still in
	blindTilt    float64    // rad²: what a gap in the gyros adds to the variance of each tilt
	blindGravity float64    // (m/s)²: the same for the accelerometers and velocity
}

// propagate moves the estimate over a stride by the strapdown equations
//
//	Ṙ = R·[ω]×,  v̇ = R·f + g,  ḣ = −v_down
//
// and the covariance by Φ·P·Φᵀ + Q. Klein & Morelli, Aircraft System Identification, ch. 10 (data compatibility);
// Bryson & Ho, Applied Optimal Control, ch. 12.
func (b *belief) propagate(s *stride, n *noise) transition {
	x := &b.x
	var spin, force [3]float64
	for k := range 3 {
		spin[k] = (s.rate[k] - x[atRateBias+k]) * s.dt
		force[k] = s.force[k] - x[atForceBias+k]
	}
	half := turn([3]float64{spin[0] / 2, spin[1] / 2, spin[2] / 2})
	middle := b.attitude.times(&half)
	b.attitude = middle.times(&half)
	push := middle.earth(force)
	flow := b.flow()
	speed := math.Sqrt(dot(flow, flow))

	var t transition
	t.dt = s.dt
	for i := range 9 {
		t.turn[i] = s.dt * middle[i]
	}
	for k := range 3 {
		t.push[k] = s.dt * push[k]
	}
	t.gust = math.Exp(-s.dt * math.Max(speed, slowestGusts) / n.gustLength)
	t.vertical = math.Exp(-s.dt / verticalAirTime)
	t.upwash = math.Exp(-s.dt * n.upwashForgets)

	b.move(&t)
	t.carry(&b.p, b.n)
	b.disturb(s, n, &middle, &t)
	return t
}

// move carries the estimate itself over a stride.
func (b *estimate) move(t *transition) {
	x := &b.x
	fall := x[atVelocity+2]
	x[atVelocity] += t.push[0]
	x[atVelocity+1] += t.push[1]
	x[atVelocity+2] += t.push[2] + t.dt*atmosphere.Gravity
	x[atHeight] -= t.dt * (fall + x[atVelocity+2]) / 2
	for k := range 3 {
		x[atGust+k] *= t.gust
	}
	x[atVertical] *= t.vertical
	x[atUpwash] *= t.upwash
	x[atUpwash+1] *= t.upwash
}

// disturb adds the process noise Q.
func (b *belief) disturb(s *stride, n *noise, r *rotation, t *transition) {
	dt, p := s.dt, &b.p
	for i := range 3 {
		for j := range i + 1 {
			var tilt, velocity float64
			for k := range 3 {
				rr := r[3*i+k] * r[3*j+k]
				tilt += rr * n.rate[k]
				velocity += rr * n.force[k]
			}
			p.addBoth(atTilt+i, atTilt+j, tilt*dt)
			p.addBoth(atVelocity+i, atVelocity+j, velocity*dt)
		}
		*p.at(atTilt+i, atTilt+i) += s.blindTilt
		*p.at(atVelocity+i, atVelocity+i) += s.blindGravity
		*p.at(atForceBias+i, atForceBias+i) += n.walk.forceBias * dt
		*p.at(atRateBias+i, atRateBias+i) += n.walk.rateBias * dt
		*p.at(atAttitudeBias+i, atAttitudeBias+i) += n.walk.attitudeBias * dt
	}
	fresh := 1 - t.gust*t.gust
	*p.at(atGust, atGust) += fresh * n.gustLevel * n.gustLevel
	*p.at(atGust+1, atGust+1) += fresh * n.gustLevel * n.gustLevel
	*p.at(atGust+2, atGust+2) += fresh * n.gustVertical * n.gustVertical
	*p.at(atVertical, atVertical) += (1 - t.vertical*t.vertical) * n.verticalAir * n.verticalAir
	*p.at(atWind, atWind) += n.walk.wind * dt
	*p.at(atWind+1, atWind+1) += n.walk.wind * dt
	*p.at(atHeightBias, atHeightBias) += n.walk.heightBias * dt
	*p.at(atScale, atScale) += n.walk.scale * dt
	if b.n == most {
		for i := atUpwash; i < most; i++ {
			*p.at(i, i) += (1 - t.upwash*t.upwash) * priorUpwash * priorUpwash
		}
	}
}
