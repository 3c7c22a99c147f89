package identify

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// boundOf is the linear model of a segment about its own trim, with true derivatives and gusts, and the true course of its surfaces.
func boundOf(s *Segment, axis Axis, setup *Setup, truth map[string]float64, gusts float64) (*motion, [][]float64) {
	speed, alpha := mean(s.Airspeed), mean(s.Alpha)
	m := &motion{rate: speed / 30}
	surface := func(control flightlog.Quantity, command []float64) []float64 {
		out := setup.Servos[control].behindLogged(command, s.Step)
		first := out[0]
		return mapped(out, func(v float64) float64 { return v - first })
	}
	var inputs [][]float64
	if axis == Longitudinal {
		for _, v := range surface(flightlog.Elevator, s.Elevator) {
			inputs = append(inputs, []float64{v})
		}
		m.along(s, setup, truth, speed, alpha, gusts)
		return m, inputs
	}
	aileron, rudder := surface(flightlog.Aileron, s.Aileron), surface(flightlog.RudderLeft, s.Rudder)
	for k := range aileron {
		inputs = append(inputs, []float64{aileron[k], rudder[k]})
	}
	m.across(s, setup, truth, speed, alpha, gusts)
	return m, inputs
}

// along is the longitudinal motion; parameters are the derivatives, the drag parabola, CL0, Cm0 and biases of forward force, pitch rate and down force.
func (m *motion) along(s *Segment, setup *Setup, truth map[string]float64, speed, alpha, gusts float64) {
	const g = atmosphere.Gravity
	ref := setup.Reference
	lift := s.Body.Mass * g / (0.5 * s.Density * speed * speed * ref.Area) // about
	m.trim = []float64{speed, alpha, 0, alpha, 0, 0}
	for _, name := range longitudinalLayout().names {
		m.parameters = append(m.parameters, truth[name])
		m.prior = append(m.prior, 0)
	}
	m.parameters = append(m.parameters, 0.03, 0.05, lift, 0, 0, 0, 0)
	m.prior = append(m.prior, 0, 0, 0, 0, forceBias, rateBias, forceBias, startSpeed, startAlpha, startRate, startAngle)
	m.gusts = []float64{gusts, gusts / 2}
	m.noise = []float64{0.4 * math.Pi / 180, 0.15, 0.1 * math.Pi / 180, 0.15}
	m.shake = []float64{0.15 * s.Step, 0, 0, 0}
	forces := func(x, in, p []float64) (z, pitch float64) {
		v, a := x[0]+x[4], x[1]+x[5]/x[0]
		q := 0.5 * s.Density * v * v * ref.Area
		rate := x[2] * ref.MeanChord / (2 * v)
		cl := p[9] + p[0]*(a-alpha) + p[1]*rate + p[2]*in[0]
		cm := p[10] + p[3]*(a-alpha) + p[4]*rate + p[5]*in[0] + p[6]*g*math.Cos(x[3])*ref.MeanChord/(2*v*v)
		return -q * (cl*math.Cos(a) + (p[7]+p[8]*cl*cl)*math.Sin(a)) / s.Body.Mass, q * ref.MeanChord * cm / s.Body.Iy
	}
	forward := g * math.Sin(alpha)
	m.derivative = func(x, in, p []float64) []float64 {
		z, pitch := forces(x, in, p)
		f, d := forward-p[11]-g*math.Sin(x[3]), z+g*math.Cos(x[3])
		sin, cos := math.Sincos(x[1])
		return []float64{cos*f + sin*d, x[2] + (cos*d-sin*f)/x[0], pitch, x[2]}
	}
	m.output = func(x, in, p []float64) []float64 {
		z, _ := forces(x, in, p)
		return []float64{x[2] + p[12], z + p[13], x[3], x[0] + x[4]}
	}
}

// across is the lateral motion; parameters are the derivatives, the three zero terms, the errors of the path and biases of roll rate, yaw
// rate and right force.
func (m *motion) across(s *Segment, setup *Setup, truth map[string]float64, speed, alpha, gusts float64) {
	const g = atmosphere.Gravity
	ref, b := setup.Reference, s.Body
	m.trim = make([]float64, 5)
	for _, name := range lateralLayout().names {
		m.parameters = append(m.parameters, truth[name])
		m.prior = append(m.prior, 0)
	}
	m.parameters = append(m.parameters, make([]float64, 8)...)
	m.prior = append(m.prior, 0, 0, 0, pathForward, pathDown, rateBias, rateBias, forceBias, startAcross, startRate, startRate, startAngle)
	m.gusts = []float64{gusts}
	m.noise = []float64{0.4 * math.Pi / 180, 0.4 * math.Pi / 180, 0.15, 0.1 * math.Pi / 180}
	q := 0.5 * s.Density * speed * speed * ref.Area
	coefficient := func(c int, x, in, p []float64) float64 {
		d, half := p[5*c:], ref.Span/(2*speed)
		return p[15+c] + d[0]*(x[0]+x[4])/speed + d[1]*x[1]*half + d[2]*x[2]*half + d[3]*in[0] + d[4]*in[1]
	}
	sin, cos := math.Sincos(alpha)
	m.derivative = func(x, in, p []float64) []float64 {
		l, n := q*ref.Span*coefficient(1, x, in, p), q*ref.Span*coefficient(2, x, in, p)
		det := b.Ix*b.Iz - b.Ixz*b.Ixz
		return []float64{
			q*coefficient(0, x, in, p)/b.Mass + x[1]*(speed*sin+p[19]) - x[2]*(speed*cos+p[18]) + g*math.Cos(alpha)*math.Sin(x[3]),
			(b.Iz*l + b.Ixz*n) / det, (b.Ixz*l + b.Ix*n) / det, x[1] + math.Tan(alpha)*x[2],
		}
	}
	m.output = func(x, in, p []float64) []float64 {
		return []float64{x[1] + p[20], x[2] + p[21], q*coefficient(0, x, in, p)/b.Mass + p[22], x[3]}
	}
}
