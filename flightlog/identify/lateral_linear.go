package identify

import "math"

func (m *lateral) linearise(x *state, in *instant, l *linearised) {
	var f acrossFlow
	m.flow(x, in, &f)
	m.regressors(x, &f, l)
	for c := range m.unit {
		l.byForce[c] = m.unit[c].times(f.pressure)
	}
	l.byForce[turning] = state{1}
	angle := m.angleBy(x, &f)
	sideslip := m.slope[bySideslip].times(f.pressure)
	roll, yaw := m.slope[byRollRate].times(f.pressure*f.half), m.slope[byYawRate].times(f.pressure*f.half)
	for i := range l.byState {
		s := sideslip[i]
		l.byState[i] = state{s * angle[0], s*angle[1] + roll[i], s*angle[2] + yaw[i], 0}
	}
	l.gust[0] = sideslip.times(1 / f.plane)
	m.kinematics(x, in, l)
}

// kinematics adds what does not come from the air.
func (m *lateral) kinematics(x *state, in *instant, l *linearised) {
	q, r := in[inPitchRate], x[2]
	l.byState[0][1] += in[inDown] + m.own[downError]
	l.byState[0][2] -= in[inForward] + m.own[forwardError]
	l.byState[1][1] += q * m.gyro[0][0]
	l.byState[1][2] += q * m.gyro[0][1]
	l.byState[2][1] += q * m.gyro[1][0]
	l.byState[2][2] += q * m.gyro[1][1]
	sin, cos := math.Sincos(x[3])
	l.byState[3][1]++
	l.byState[3][2] += in[inTanPitch] * cos
	l.byState[0][3] = in[inWeight] * cos
	l.byState[3][3] = in[inTanPitch] * (q*cos - r*sin)
}

func (m *lateral) observe(x *state, in *instant, l *linearised) {
	var f acrossFlow
	m.flow(x, in, &f)
	m.regressors(x, &f, l)
	for c := range m.unit {
		l.outForce[c] = [mostOutputs]float64{2: f.pressure * m.unit[c][0]}
	}
	l.outForce[turning] = [mostOutputs]float64{}
	angle := m.angleBy(x, &f)
	side := f.pressure * m.slope[bySideslip][0]
	l.out = [mostOutputs]float64{x[1], x[2], m.air(&f, 0), x[3]}
	l.outState = [mostOutputs]state{{1: 1}, {2: 1}, {
		side * angle[0], side*angle[1] + f.pressure*f.half*m.slope[byRollRate][0], side*angle[2] + f.pressure*f.half*m.slope[byYawRate][0], 0,
	}, {3: 1}}
	l.outGust[0] = [mostOutputs]float64{2: side / f.plane}
}

// regressors fills in what the coefficients are linear in, and what the surfaces do to them.
func (m *lateral) regressors(x *state, f *acrossFlow, l *linearised) {
	for c := range m.unit {
		l.terms[c] = [mostTerms]float64{f.terms[0], f.terms[1], f.terms[2], f.terms[3], f.terms[4], 1}
	}
	l.terms[turning] = [mostTerms]float64{-x[2], x[1]}
	for s, t := range [mostSurfaces]int{byAileron, byRudder} {
		column := m.column(t)
		copy(l.surface[s][:], column[:])
	}
}

// angleBy are the derivatives of the sideslip at the moment point by side velocity, roll rate and yaw rate.
func (m *lateral) angleBy(x *state, f *acrossFlow) [3]float64 {
	over := 1 / f.plane
	return [3]float64{over + (x[1]*m.z-x[2]*m.x)*x[0]*over*over*over, m.z * over, -m.x * over}
}
