package identify

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// Common parameters of the lateral model are five terms for each of side force, roll and yaw, in this order.
const (
	bySideslip = iota
	byRollRate
	byYawRate
	byAileron
	byRudder
	lateralTerms
)

const lateralCoefficients = 3

// turning is the side acceleration of the path's own turning, for which the errors of its velocities along X and Z are own constants.
const (
	turning      = lateralCoefficients
	forwardError = lateralCoefficients
	downError    = lateralCoefficients + 1
)

// The lateral inputs.
const (
	inAileron = iota
	inRudder
	inAirspeed
	inForward // velocity along X and Z of the path, gusts apart, m/s
	inDown
	inPitchRate
	inPitch
)

// lateralLayout is the order of parameters and outputs.
func lateralLayout() *layout {
	l := &layout{
		axis: Lateral,
		names: []string{
			SideForceSlope, SideForceByRollRate, SideForceByYawRate, SideForceByAileron, SideForceByRudder,
			DihedralEffect, RollDamping, RollDueToYaw, AileronPower, RollByRudder,
			DirectionalStiff, YawDueToRoll, YawDamping, YawByAileron, RudderPower,
		},
		outputs: []outputChannel{
			{"roll_rate", "rad/s", rateBias}, {"yaw_rate", "rad/s", rateBias}, {"right_acceleration", "m/s²", forceBias}, {"roll_angle", "rad", 0},
		},
		biased: []int{0, 1, 2}, gusts: 1, surfaces: 2,
	}
	for c := range lateralCoefficients {
		for t := range lateralTerms {
			l.common = append(l.common, term{c, t})
		}
		l.constant = append(l.constant, term{c, lateralTerms})
	}
	l.constant = append(l.constant, term{turning, 0}, term{turning, 1})
	return l
}

// lateral is the motion across the plane of symmetry; see the package comment for the equations.
type lateral struct {
	common, own     []float64
	body            stability.Body
	determinant     float64 // Ix·Iz − Ixz²
	force           float64 // ½ρS/m
	span            float64
	x, z            float64 // m, from the moment point to the CG, forward and down
	aileron, rudder float64 // the linear terms count from here
}

func (m *lateral) set(common, own []float64) { m.common, m.own = common, own }

// acrossFlow is what the coefficients need to know of a state.
type acrossFlow struct {
	plane       float64 // speed in the plane of symmetry
	pressure    float64 // ½ρSV²/m
	terms       [lateralTerms]float64
	coefficient [lateralCoefficients]float64
}

func (m *lateral) flow(x *state, in *instant) (f acrossFlow) {
	v := in[inAirspeed]
	f.plane = math.Sqrt(v*v - x[0]*x[0])
	f.pressure = m.force * v * v
	half := m.span / (2 * v)
	f.terms = [lateralTerms]float64{
		math.Asin(x[0]/v) + (x[1]*m.z-x[2]*m.x)/f.plane, x[1] * half, x[2] * half, in[inAileron] - m.aileron, in[inRudder] - m.rudder,
	}
	for c := range f.coefficient {
		sum := m.own[c]
		p := m.common[c*lateralTerms : (c+1)*lateralTerms]
		for t, value := range f.terms {
			sum += p[t] * value
		}
		f.coefficient[c] = sum
	}
	return f
}

func (m *lateral) rate(x *state, in *instant, dx *state) {
	f := m.flow(x, in)
	m.rates(&f, x, in, dx)
}

func (m *lateral) rates(f *acrossFlow, x *state, in *instant, dx *state) {
	const g = atmosphere.Gravity
	b := &m.body
	m.push(f.coefficient, f.pressure, dx)
	q, p, r := in[inPitchRate], x[1], x[2]
	sinPitch, cosPitch := math.Sincos(in[inPitch])
	sin, cos := math.Sincos(x[3])
	roll := (b.Iy-b.Iz)*q*r + b.Ixz*p*q
	yaw := (b.Ix-b.Iy)*p*q - b.Ixz*q*r
	dx[0] += p*(in[inDown]+m.own[downError]) - r*(in[inForward]+m.own[forwardError]) + g*cosPitch*sin
	dx[1] += (b.Iz*roll + b.Ixz*yaw) / m.determinant
	dx[2] += (b.Ixz*roll + b.Ix*yaw) / m.determinant
	dx[3] = p + sinPitch/cosPitch*(q*sin+r*cos)
}

// push turns coefficients about the moment point into rates.
func (m *lateral) push(c [lateralCoefficients]float64, pressure float64, rate *state) {
	b := &m.body
	side := pressure * c[0]
	roll := b.Mass * (pressure*m.span*c[1] + m.z*side)
	yaw := b.Mass * (pressure*m.span*c[2] - m.x*side)
	*rate = state{side, (b.Iz*roll + b.Ixz*yaw) / m.determinant, (b.Ixz*roll + b.Ix*yaw) / m.determinant, 0}
}

func (m *lateral) linearise(x *state, in *instant, l *linearised) {
	f := m.flow(x, in)
	m.rates(&f, x, in, &l.rate)
	for c := range lateralCoefficients {
		copy(l.terms[c][:], f.terms[:])
		l.terms[c][lateralTerms] = 1
		var one [lateralCoefficients]float64
		one[c] = 1
		m.push(one, f.pressure, &l.byForce[c])
		l.outForce[c] = [mostOutputs]float64{2: l.byForce[c][0]}
	}
	l.byForce[turning], l.outForce[turning] = state{1}, [mostOutputs]float64{}
	l.terms[turning] = [mostTerms]float64{-x[2], x[1]}
	for s, t := range [mostSurfaces]int{byAileron, byRudder} {
		column := m.column(t)
		copy(l.surface[s][:], column[:])
	}
	m.byStates(x, in, &f, l)
	gust := m.column(bySideslip)
	for c := range gust {
		gust[c] /= f.plane
	}
	m.push(gust, f.pressure, &l.gust[0])
	l.outGust[0] = [mostOutputs]float64{2: l.gust[0][0]}
	l.out = [mostOutputs]float64{x[1], x[2], f.pressure * f.coefficient[0], x[3]}
}

// column are the three derivatives by one term.
func (m *lateral) column(t int) [lateralCoefficients]float64 {
	return [lateralCoefficients]float64{m.common[t], m.common[lateralTerms+t], m.common[2*lateralTerms+t]}
}

// byStates fills the derivatives by the states.
func (m *lateral) byStates(x *state, in *instant, f *acrossFlow, l *linearised) {
	v, p, r, w := x[0], x[1], x[2], f.plane
	half := m.span / (2 * in[inAirspeed])
	var by [3][lateralCoefficients]float64
	for c := range lateralCoefficients {
		d := m.common[c*lateralTerms:]
		by[0][c] = d[bySideslip] * (1/w + (p*m.z-r*m.x)*v/(w*w*w))
		by[1][c] = d[bySideslip]*m.z/w + d[byRollRate]*half
		by[2][c] = -d[bySideslip]*m.x/w + d[byYawRate]*half
	}
	for j := range by {
		var rate state
		m.push(by[j], f.pressure, &rate)
		for i := range states {
			l.byState[i][j] = rate[i]
		}
		for i := range l.outState {
			l.outState[i][j] = 0
		}
		l.outState[2][j] = rate[0]
	}
	m.byKinematics(x, in, l)
}

// byKinematics adds what does not come from the air.
func (m *lateral) byKinematics(x *state, in *instant, l *linearised) {
	const g = atmosphere.Gravity
	b, q, r := &m.body, in[inPitchRate], x[2]
	l.byState[0][1] += in[inDown] + m.own[downError]
	l.byState[0][2] -= in[inForward] + m.own[forwardError]
	l.byState[1][1] += q * (b.Iz*b.Ixz + b.Ixz*(b.Ix-b.Iy)) / m.determinant
	l.byState[1][2] += q * (b.Iz*(b.Iy-b.Iz) - b.Ixz*b.Ixz) / m.determinant
	l.byState[2][1] += q * (b.Ixz*b.Ixz + b.Ix*(b.Ix-b.Iy)) / m.determinant
	l.byState[2][2] += q * (b.Ixz*(b.Iy-b.Iz) - b.Ix*b.Ixz) / m.determinant
	sin, cos := math.Sincos(x[3])
	sinPitch, cosPitch := math.Sincos(in[inPitch])
	tan := sinPitch / cosPitch
	l.byState[3][1]++
	l.byState[3][2] += tan * cos
	for i := range states {
		l.byState[i][3] = 0
	}
	l.byState[0][3] = g * cosPitch * cos
	l.byState[3][3] = tan * (q*cos - r*sin)
	for i := range l.outState {
		l.outState[i][3] = 0
	}
	l.outState[0][1], l.outState[1][2], l.outState[3][3] = 1, 1, 1
}
