package identify

import (
	"math"

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
	inWeight   // g·cos θ, m/s²
	inTanPitch // tan θ
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
	force           float64 // ½ρS/m
	span            float64
	x, z            float64 // m, from the moment point to the CG, forward and down
	aileron, rudder float64 // the linear terms count from here

	// What set works out once for all states: side acceleration and angular accelerations by the air over its pressure ½ρSV²/m, and
	// angular accelerations by the turning of the other axis.
	unit  [lateralCoefficients]state // for a coefficient of one
	slope [lateralTerms]state        // for a term of one
	zero  state                      // with all terms zero
	gyro  [2][2]float64              // of (ṗ, ṙ) by (p, r), over q
}

func (m *lateral) set(common, own []float64) {
	m.common, m.own = common, own
	b := &m.body
	determinant := b.Ix*b.Iz - b.Ixz*b.Ixz
	turned := func(side, roll, yaw float64) state {
		return state{side, (b.Iz*roll + b.Ixz*yaw) / determinant, (b.Ixz*roll + b.Ix*yaw) / determinant, 0}
	}
	arm := b.Mass * m.span
	m.unit = [lateralCoefficients]state{turned(1, b.Mass*m.z, -b.Mass*m.x), turned(0, arm, 0), turned(0, 0, arm)}
	m.zero = m.together([lateralCoefficients]float64(own))
	for t := range m.slope {
		m.slope[t] = m.together(m.column(t))
	}
	byRoll := turned(0, b.Ixz, b.Ix-b.Iy)
	byYaw := turned(0, b.Iy-b.Iz, -b.Ixz)
	m.gyro = [2][2]float64{{byRoll[1], byYaw[1]}, {byRoll[2], byYaw[2]}}
}

// together are the accelerations of three coefficients.
func (m *lateral) together(c [lateralCoefficients]float64) (out state) {
	for i, v := range c {
		out.along(&out, v, &m.unit[i])
	}
	return out
}

// column are the three derivatives by one term.
func (m *lateral) column(t int) [lateralCoefficients]float64 {
	return [lateralCoefficients]float64{m.common[t], m.common[lateralTerms+t], m.common[2*lateralTerms+t]}
}

// acrossFlow is what the air needs to know of a state.
type acrossFlow struct {
	plane    float64 // speed in the plane of symmetry
	pressure float64 // ½ρSV²/m
	half     float64 // b/2V
	terms    [lateralTerms]float64
}

func (m *lateral) flow(x *state, in *instant, f *acrossFlow) {
	v := in[inAirspeed]
	f.plane = math.Sqrt(v*v - x[0]*x[0])
	f.pressure = m.force * v * v
	f.half = m.span / (2 * v)
	f.terms = [lateralTerms]float64{
		math.Atan(x[0]/f.plane) + (x[1]*m.z-x[2]*m.x)/f.plane, x[1] * f.half, x[2] * f.half, in[inAileron] - m.aileron, in[inRudder] - m.rudder,
	}
}

// air is one acceleration by the air.
func (m *lateral) air(f *acrossFlow, i int) float64 {
	s, t := &m.slope, &f.terms
	return f.pressure * (m.zero[i] + s[0][i]*t[0] + s[1][i]*t[1] + s[2][i]*t[2] + s[3][i]*t[3] + s[4][i]*t[4])
}

func (m *lateral) rate(x *state, in *instant, dx *state) {
	var f acrossFlow
	m.flow(x, in, &f)
	q, p, r := in[inPitchRate], x[1], x[2]
	sin, cos := math.Sincos(x[3])
	dx[0] = m.air(&f, 0) + p*(in[inDown]+m.own[downError]) - r*(in[inForward]+m.own[forwardError]) + in[inWeight]*sin
	dx[1] = m.air(&f, 1) + q*(m.gyro[0][0]*p+m.gyro[0][1]*r)
	dx[2] = m.air(&f, 2) + q*(m.gyro[1][0]*p+m.gyro[1][1]*r)
	dx[3] = p + in[inTanPitch]*(q*sin+r*cos)
}

func (m *lateral) outputs(x *state, in *instant) [mostOutputs]float64 {
	var f acrossFlow
	m.flow(x, in, &f)
	return [mostOutputs]float64{x[1], x[2], m.air(&f, 0), x[3]}
}
