package identify

import (
	"math"

	"wingproof/aero/atmosphere"
)

func (m *longitudinal) linearise(x *state, in *instant, l *linearised) {
	f := m.flow(x, in)
	m.rates(&f, x, in, &l.rate)
	p, k := m.common, f.pressure
	l.terms[0] = [mostTerms]float64{f.alpha, f.rate, f.elevator, 1}
	l.terms[1] = [mostTerms]float64{1, f.lift * f.lift}
	l.terms[2] = [mostTerms]float64{f.alpha, f.rate, f.elevator, 1, f.weight}
	l.terms[3] = [mostTerms]float64{1}
	l.surface[0] = [coefficients]float64{p[liftElevator], 0, p[pitchElevator], 0}

	d := f.dragByLift // lift brings its drag along
	m.push(x, &f, effect{x: k * (f.sinFlow - d*f.cosFlow), z: -k * (f.cosFlow + d*f.sinFlow)}, &l.byForce[0], &l.outForce[0])
	m.push(x, &f, effect{x: -k * f.cosFlow, z: -k * f.sinFlow}, &l.byForce[1], &l.outForce[1])
	m.push(x, &f, effect{pitch: k * m.chord}, &l.byForce[2], &l.outForce[2])
	l.byForce[3], l.outForce[3] = state{-f.cos, f.sin / x[0], 0, 0}, [mostOutputs]float64{}
	l.byInput = state{f.cos, -f.sin / x[0], 0, 0}
	m.byStates(x, in, &f, l)
	m.byGusts(x, &f, l)
	l.out = [mostOutputs]float64{x[2], f.z, x[3], f.speed}
}

// effect is a change of the air's specific forces and of its pitching moment over mass about the moment point.
type effect struct{ x, z, pitch float64 }

// push turns a change of forces into changes of rates and outputs at a fixed state.
func (m *longitudinal) push(x *state, f *alongFlow, e effect, rate *state, out *[mostOutputs]float64) {
	*rate = state{f.sin * e.z, f.cos * e.z / x[0], m.body.Mass * (e.pitch - m.z*e.x + m.x*e.z) / m.body.Iy, 0}
	*out = [mostOutputs]float64{1: e.z}
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

// byStates fills the derivatives by the states.
func (m *longitudinal) byStates(x *state, in *instant, f *alongFlow, l *linearised) {
	const g = atmosphere.Gravity
	u, q := x[0], x[2]
	faster := 1 + 2*q*f.across/u // pressure at the moment point over that at the CG
	moved := [3]effect{
		m.change(f, (2/u+2*q*f.across/(u*u))/faster, -q*f.forward/(u*u), -f.rate/u),
		m.change(f, 2*q*f.forward/u/faster, 1-q*f.across/u, 0),
		m.change(f, 2*f.across/u/faster, f.forward/u, m.chord/(2*f.speed)),
	}
	weight := m.weight(f)
	moved[0].pitch -= 2 * weight / u
	for j := range moved {
		var rate state
		var out [mostOutputs]float64
		m.push(x, f, moved[j], &rate, &out)
		for i := range states {
			l.byState[i][j] = rate[i]
		}
		for i := range out {
			l.outState[i][j] = out[i]
		}
	}
	forward, down := m.carried(x, in)
	down += f.z
	across := f.cos*down - f.sin*forward
	l.byState[0][1] += across
	l.byState[1][0] -= across / (u * u)
	l.byState[1][1] -= (f.sin*down + f.cos*forward) / u
	l.byState[1][2]++
	l.byState[3][2] += in[inCosRoll]
	sin, cos := math.Sincos(x[3])
	l.byState[0][3] = -g * (f.cos*cos + f.sin*in[inCosRoll]*sin)
	l.byState[1][3] = g * (f.sin*cos - f.cos*in[inCosRoll]*sin) / u
	l.byState[2][3], l.byState[3][3] = -m.body.Mass*weight*sin/(cos*m.body.Iy), 0
	for i := range l.outState {
		l.outState[i][3] = 0
	}
	l.outState[0][2]++
	l.outState[2][3] = 1
	l.outState[3][0] += f.factor
}

// weight is the pitching moment over mass of the turning that weight makes.
func (m *longitudinal) weight(f *alongFlow) float64 {
	return f.pressure * m.chord * m.common[pitchWeight] * f.weight
}

// byGusts fills what a gust along the flight path [m/s] and one from below [m/s] do while the path stays.
func (m *longitudinal) byGusts(x *state, f *alongFlow, l *linearised) {
	ahead := m.change(f, 2/f.speed, 0, -f.rate/f.speed)
	ahead.pitch -= 2 * m.weight(f) / f.speed
	m.push(x, f, ahead, &l.gust[0], &l.outGust[0])
	l.outGust[0][3] = 1
	m.push(x, f, m.change(f, 0, 1/x[0], 0), &l.gust[1], &l.outGust[1])
}
