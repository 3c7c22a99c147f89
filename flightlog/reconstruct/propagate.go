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

// transition is the linear part Φ of a stride, kept so that the smoother can go back by it:
//
//	tilt'     = tilt − dt·R·δb_rate
//	velocity' = velocity + dt·(tilt × R·f) − dt·R·δb_force
//	height'   = height − dt·velocity_down
//	gust'     = φ_gust·gust,  vertical' = φ_vertical·vertical,  upwash' = φ_upwash·upwash
//
// and everything else stays. R is taken at the middle of the stride.
type transition struct {
	dt             float64
	turn           [9]float64 // dt·R
	push           [3]float64 // dt·R·f
	gust, vertical float64
	upwash         float64
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
	dt := s.dt
	for i := range 3 {
		for j := range 3 {
			var tilt, velocity float64
			for k := range 3 {
				rr := r[3*i+k] * r[3*j+k]
				tilt += rr * n.rate[k]
				velocity += rr * n.force[k]
			}
			b.p[atTilt+i][atTilt+j] += tilt * dt
			b.p[atVelocity+i][atVelocity+j] += velocity * dt
		}
		b.p[atTilt+i][atTilt+i] += s.blindTilt
		b.p[atVelocity+i][atVelocity+i] += s.blindGravity
		b.p[atForceBias+i][atForceBias+i] += n.walk.forceBias * dt
		b.p[atRateBias+i][atRateBias+i] += n.walk.rateBias * dt
		b.p[atAttitudeBias+i][atAttitudeBias+i] += n.walk.attitudeBias * dt
	}
	fresh := 1 - t.gust*t.gust
	b.p[atGust][atGust] += fresh * n.gustLevel * n.gustLevel
	b.p[atGust+1][atGust+1] += fresh * n.gustLevel * n.gustLevel
	b.p[atGust+2][atGust+2] += fresh * n.gustVertical * n.gustVertical
	b.p[atVertical][atVertical] += (1 - t.vertical*t.vertical) * n.verticalAir * n.verticalAir
	b.p[atWind][atWind] += n.walk.wind * dt
	b.p[atWind+1][atWind+1] += n.walk.wind * dt
	b.p[atHeightBias][atHeightBias] += n.walk.heightBias * dt
	b.p[atScale][atScale] += n.walk.scale * dt
	if b.n == most {
		for i := atUpwash; i < most; i++ {
			b.p[i][i] += (1 - t.upwash*t.upwash) * priorUpwash * priorUpwash
		}
	}
}

// carry replaces P by Φ·P·Φᵀ. P is symmetric, so that Φ on each row gives P·Φᵀ; a transposition, and again.
func (t *transition) carry(p *matrix, n int) {
	for i := range n {
		t.forward(&p[i])
	}
	p.transpose(n)
	for i := range n {
		t.forward(&p[i])
	}
}

// carryBack replaces Λ by Φᵀ·Λ·Φ.
func (t *transition) carryBack(l *matrix, n int) {
	for i := range n {
		t.backward(&l[i])
	}
	l.transpose(n)
	for i := range n {
		t.backward(&l[i])
	}
}

func (p *matrix) transpose(n int) {
	for i := 1; i < n; i++ {
		for j := range i {
			p[i][j], p[j][i] = p[j][i], p[i][j]
		}
	}
}

// forward replaces v by Φ·v.
func (t *transition) forward(v *vector) {
	e0, e1, e2 := v[atTilt], v[atTilt+1], v[atTilt+2]
	a0, a1, a2 := v[atForceBias], v[atForceBias+1], v[atForceBias+2]
	b0, b1, b2 := v[atRateBias], v[atRateBias+1], v[atRateBias+2]
	d := &t.turn
	v[atHeight] -= t.dt * v[atVelocity+2]
	v[atVelocity] += e1*t.push[2] - e2*t.push[1] - d[0]*a0 - d[1]*a1 - d[2]*a2
	v[atVelocity+1] += e2*t.push[0] - e0*t.push[2] - d[3]*a0 - d[4]*a1 - d[5]*a2
	v[atVelocity+2] += e0*t.push[1] - e1*t.push[0] - d[6]*a0 - d[7]*a1 - d[8]*a2
	v[atTilt] -= d[0]*b0 + d[1]*b1 + d[2]*b2
	v[atTilt+1] -= d[3]*b0 + d[4]*b1 + d[5]*b2
	v[atTilt+2] -= d[6]*b0 + d[7]*b1 + d[8]*b2
	v[atGust] *= t.gust
	v[atGust+1] *= t.gust
	v[atGust+2] *= t.gust
	v[atVertical] *= t.vertical
	v[atUpwash] *= t.upwash
	v[atUpwash+1] *= t.upwash
}

// backward replaces v by Φᵀ·v.
func (t *transition) backward(v *vector) {
	e0, e1, e2 := v[atTilt], v[atTilt+1], v[atTilt+2]
	v0, v1, v2 := v[atVelocity], v[atVelocity+1], v[atVelocity+2]
	d := &t.turn
	v[atForceBias] -= d[0]*v0 + d[3]*v1 + d[6]*v2
	v[atForceBias+1] -= d[1]*v0 + d[4]*v1 + d[7]*v2
	v[atForceBias+2] -= d[2]*v0 + d[5]*v1 + d[8]*v2
	v[atRateBias] -= d[0]*e0 + d[3]*e1 + d[6]*e2
	v[atRateBias+1] -= d[1]*e0 + d[4]*e1 + d[7]*e2
	v[atRateBias+2] -= d[2]*e0 + d[5]*e1 + d[8]*e2
	v[atTilt] += t.push[1]*v2 - t.push[2]*v1
	v[atTilt+1] += t.push[2]*v0 - t.push[0]*v2
	v[atTilt+2] += t.push[0]*v1 - t.push[1]*v0
	v[atVelocity+2] -= t.dt * v[atHeight]
	v[atGust] *= t.gust
	v[atGust+1] *= t.gust
	v[atGust+2] *= t.gust
	v[atVertical] *= t.vertical
	v[atUpwash] *= t.upwash
	v[atUpwash+1] *= t.upwash
}
