package reconstruct

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

// carry replaces P by Φ·P·Φᵀ: Φ on the columns of P, then on the rows of what that gives. P is symmetric, so that only what stands on and above
// the diagonal is worked out, and the rest mirrored. From atForceBias on Φ leaves every state as it is, but for the upwash, and so P among them; from atWind to
// there the states only fade, so that forward is called for in the rows before them alone.
func (t *transition) carry(p *matrix, n int) {
	for j := range n {
		t.forwardColumn(p, j)
	}
	for i := range atWind {
		t.forward(p.row(i))
	}
	for i := atWind; i < atForceBias; i++ {
		t.fade(p.row(i))
	}
	p.mirror(atForceBias, n)
	if n == most {
		t.carryUpwash(p)
	}
}

// carryUpwash scales the upwash among the states that carry leaves as they are.
func (t *transition) carryUpwash(p *matrix) {
	for j := atUpwash; j < most; j++ {
		for i := atForceBias; i <= j; i++ {
			v := *p.at(i, j) * t.upwash
			if i >= atUpwash {
				v *= t.upwash
			}
			*p.at(i, j), *p.at(j, i) = v, v
		}
	}
}

// carryBack replaces Λ by Φᵀ·Λ·Φ.
func (t *transition) carryBack(l *matrix, n int) {
	for i := range n {
		t.backward(l.row(i))
	}
	l.transpose(n)
	for i := range n {
		t.backward(l.row(i))
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
	t.fade(v)
}

// fade is what forward and backward do to the states that forget themselves.
func (t *transition) fade(v *vector) {
	v[atGust] *= t.gust
	v[atGust+1] *= t.gust
	v[atGust+2] *= t.gust
	v[atVertical] *= t.vertical
	v[atUpwash] *= t.upwash
	v[atUpwash+1] *= t.upwash
}

// forwardColumn is forward on a column of a matrix, but for the upwash.
func (t *transition) forwardColumn(p *matrix, j int) {
	const (
		tilt, velocity, forceBias, rateBias = atTilt * most, atVelocity * most, atForceBias * most, atRateBias * most
		gust                                = atGust * most
	)
	v := p[j : j+(most-1)*most+1] // a state's entry stands most behind the one before
	e0, e1, e2 := v[tilt], v[tilt+most], v[tilt+2*most]
	a0, a1, a2 := v[forceBias], v[forceBias+most], v[forceBias+2*most]
	b0, b1, b2 := v[rateBias], v[rateBias+most], v[rateBias+2*most]
	d := &t.turn
	v[atHeight*most] -= t.dt * v[velocity+2*most]
	v[velocity] += e1*t.push[2] - e2*t.push[1] - d[0]*a0 - d[1]*a1 - d[2]*a2
	v[velocity+most] += e2*t.push[0] - e0*t.push[2] - d[3]*a0 - d[4]*a1 - d[5]*a2
	v[velocity+2*most] += e0*t.push[1] - e1*t.push[0] - d[6]*a0 - d[7]*a1 - d[8]*a2
	v[tilt] -= d[0]*b0 + d[1]*b1 + d[2]*b2
	v[tilt+most] -= d[3]*b0 + d[4]*b1 + d[5]*b2
	v[tilt+2*most] -= d[6]*b0 + d[7]*b1 + d[8]*b2
	v[gust] *= t.gust
	v[gust+most] *= t.gust
	v[gust+2*most] *= t.gust
	v[atVertical*most] *= t.vertical
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
	t.fade(v)
}
