package identify

import "wingproof/aero/atmosphere"

func (m *longitudinal) linearise(x *state, in *instant, l *linearised) {
	var f alongFlow
	m.flow(x, in, &f)
	m.regressors(&f, l)
	for c, e := range m.byCoefficient(&f) {
		l.byForce[c] = m.accelerated(x, &f, e)
	}
	l.byForce[3] = state{-f.cos, f.sin / x[0], 0, 0}
	l.byInput = state{f.cos, -f.sin / x[0], 0, 0}
	for j, e := range m.byStates(x, &f) {
		rate := m.accelerated(x, &f, e)
		for i, v := range rate {
			l.byState[i][j] = v
		}
	}
	m.kinematics(x, in, &f, l)
	for k, e := range m.byGusts(x, &f) {
		l.gust[k] = m.accelerated(x, &f, e)
	}
}

func (m *longitudinal) observe(x *state, in *instant, l *linearised) {
	var f alongFlow
	m.flow(x, in, &f)
	m.regressors(&f, l)
	l.out = f.outputs(x)
	for c, e := range m.byCoefficient(&f) {
		l.outForce[c] = [mostOutputs]float64{1: e.z}
	}
	l.outForce[3] = [mostOutputs]float64{}
	l.outState = [mostOutputs]state{{2: 1}, {}, {3: 1}, {f.factor}}
	for j, e := range m.byStates(x, &f) {
		l.outState[1][j] = e.z
	}
	gusts := m.byGusts(x, &f)
	l.outGust = [mostGusts][mostOutputs]float64{{1: gusts[0].z, 3: 1}, {1: gusts[1].z}}
}

// regressors fills in what the coefficients are linear in, and what the elevator does to them.
func (m *longitudinal) regressors(f *alongFlow, l *linearised) {
	l.terms[0] = [mostTerms]float64{f.alpha, f.rate, f.elevator, 1}
	l.terms[1] = [mostTerms]float64{1, f.lift * f.lift}
	l.terms[2] = [mostTerms]float64{f.alpha, f.rate, f.elevator, 1, f.weight}
	l.terms[3] = [mostTerms]float64{1}
	l.surface[0] = [coefficients]float64{m.common[liftElevator], 0, m.common[pitchElevator], 0}
}

// effect is a change of the air's specific forces and of its pitching moment over mass about the moment point.
type effect struct{ x, z, pitch float64 }

// accelerated turns a change of forces into changes of rates at a fixed state.
func (m *longitudinal) accelerated(x *state, f *alongFlow, e effect) state {
	return state{f.sin * e.z, f.cos * e.z / x[0], m.body.Mass * (e.pitch - m.z*e.x + m.x*e.z) / m.body.Iy, 0}
}

// byCoefficient are the effects of lift, which brings its drag along, of drag and of the pitching moment.
func (m *longitudinal) byCoefficient(f *alongFlow) [3]effect {
	k, d := f.pressure, f.dragByLift
	return [3]effect{
		{x: k * (f.sinFlow - d*f.cosFlow), z: -k * (f.cosFlow + d*f.sinFlow)},
		{x: -k * f.cosFlow, z: -k * f.sinFlow},
		{pitch: k * m.chord},
	}
}

// change is the effect of changes of pressure (relative), flow angle at the moment point and dimensionless rate.
func (m *longitudinal) change(f *alongFlow, pressure, angle, rate float64) effect {
	p := m.common
	lift := p[liftAlpha]*angle + p[liftRate]*rate
	drag := f.dragByLift * lift
	pitch := p[pitchAlpha]*angle + p[pitchRate]*rate
	return effect{
		x:     pressure*f.x + f.pressure*(lift*f.sinFlow-drag*f.cosFlow) - f.z*angle,
		z:     pressure*f.z - f.pressure*(lift*f.cosFlow+drag*f.sinFlow) + f.x*angle,
		pitch: f.pressure * m.chord * (pressure*f.pitch + pitch),
	}
}

// byStates are the effects of speed, angle of attack and pitch rate on the air. Attitude has none but by the turning that weight makes.
func (m *longitudinal) byStates(x *state, f *alongFlow) [3]effect {
	u, q := x[0], x[2]
	faster := 1 + 2*q*f.across/u // pressure at the moment point over that at the CG
	out := [3]effect{
		m.change(f, (2/u+2*q*f.across/(u*u))/faster, -q*f.forward/(u*u), -f.rate/u),
		m.change(f, 2*q*f.forward/u/faster, 1-q*f.across/u, 0),
		m.change(f, 2*f.across/u/faster, f.forward/u, m.chord/(2*f.speed)),
	}
	out[0].pitch -= 2 * m.weight(f) / u
	return out
}

// kinematics adds what does not come from the air.
func (m *longitudinal) kinematics(x *state, in *instant, f *alongFlow, l *linearised) {
	const g = atmosphere.Gravity
	u := x[0]
	forward, down := m.accelerations(f, in)
	across := f.cos*down - f.sin*forward
	l.byState[0][1] += across
	l.byState[1][0] -= across / (u * u)
	l.byState[1][1] -= (f.sin*down + f.cos*forward) / u
	l.byState[1][2]++
	l.byState[3][2] += in[inCosRoll]
	sin, cos := f.sinPitch, f.cosPitch
	l.byState[0][3] = -g * (f.cos*cos + f.sin*in[inCosRoll]*sin)
	l.byState[1][3] = g * (f.sin*cos - f.cos*in[inCosRoll]*sin) / u
	l.byState[2][3], l.byState[3][3] = -m.body.Mass*m.weight(f)*sin/(cos*m.body.Iy), 0
}

// weight is the pitching moment over mass of the turning that weight makes.
func (m *longitudinal) weight(f *alongFlow) float64 {
	return f.pressure * m.chord * m.common[pitchWeight] * f.weight
}

// byGusts are the effects of a gust along the flight path [m/s] and one from below [m/s] while the path stays.
func (m *longitudinal) byGusts(x *state, f *alongFlow) [mostGusts]effect {
	ahead := m.change(f, 2/f.speed, 0, -f.rate/f.speed)
	ahead.pitch -= 2 * m.weight(f) / f.speed
	return [mostGusts]effect{ahead, m.change(f, 0, 1/x[0], 0)}
}
