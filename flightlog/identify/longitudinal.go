package identify

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// Common parameters of the longitudinal model; the last two are the parabola of drag against lift, which is not given out.
const (
	liftAlpha = iota
	liftRate
	liftElevator
	pitchAlpha
	pitchRate
	pitchElevator
	pitchWeight
	dragZero
	dragLiftSquared
)

// Own constants; the last is the bias of the forward accelerometer, whose reading is an input.
const (
	liftZero = iota
	pitchZero
	forwardBias
)

// The longitudinal inputs.
const (
	inElevator = iota
	inRollRate
	inYawRate
	inSinRoll
	inCosRoll
	inTanBeta
	inSide         // velocity along Y of the path, gusts apart, m/s
	inAcceleration // measured specific force along X, m/s²
)

// longitudinalLayout is the order of parameters and outputs.
func longitudinalLayout() *layout {
	const lift, drag, pitch, forward = 0, 1, 2, 3
	return &layout{
		axis:  Longitudinal,
		names: []string{LiftCurveSlope, LiftByPitchRate, ElevatorLift, PitchStiffness, PitchDamping, ElevatorPower, PitchByAlphaRate},
		common: []term{
			{lift, 0}, {lift, 1}, {lift, 2}, {pitch, 0}, {pitch, 1}, {pitch, 2}, {pitch, 4}, {drag, 0}, {drag, 1},
		},
		constant: []term{{lift, 3}, {pitch, 3}, {forward, 0}},
		known:    []prior{pitchWeight: pitchByAlphaRate, dragZero: dragAtZero, dragLiftSquared: dragByLiftSquared},
		outputs: []outputChannel{
			{"pitch_rate", "rad/s", rateBias}, {"down_acceleration", "m/s²", forceBias}, {"pitch_angle", "rad", 0}, {"airspeed", "m/s", 0},
		},
		biased: []int{0, 1}, gusts: 2, surfaces: 1, noisyInput: true,
	}
}

// longitudinal is the motion in the plane of symmetry; see the package comment for the equations.
type longitudinal struct {
	common, own     []float64
	body            stability.Body
	force           float64 // ½ρS/m
	chord           float64
	x, z            float64 // m, from the moment point to the CG, forward and down
	alpha, elevator float64 // the linear terms count from here, so that constants and slopes hardly correlate
}

func (m *longitudinal) set(common, own []float64) { m.common, m.own = common, own }

// alongFlow is what the forces need to know of a state.
type alongFlow struct {
	sin, cos          float64 // of α at the CG
	forward, across   float64 // x·cos α + z·sin α, x·sin α − z·cos α
	sinFlow, cosFlow  float64 // of the flow angle at the moment point
	pressure          float64 // ½ρSV²/m there
	speed, factor     float64 // V at the CG, and over the speed in the plane
	alpha, rate       float64 // regressors
	weight            float64 // regressor: what weight adds to α̇c/2V
	elevator          float64
	lift, drag, pitch float64
	dragByLift        float64 // ∂CD/∂CL
	x, z              float64 // specific force of the air in body axes
}

func (m *longitudinal) flow(x *state, in *instant) (f alongFlow) {
	p, o := m.common, m.own
	f.sin, f.cos = math.Sincos(x[1])
	f.forward, f.across = m.x*f.cos+m.z*f.sin, m.x*f.sin-m.z*f.cos
	flow := x[1] + x[2]*f.forward/x[0]
	f.sinFlow, f.cosFlow = math.Sincos(flow)
	f.factor = math.Sqrt(1 + in[inTanBeta]*in[inTanBeta])
	f.speed = x[0] * f.factor
	f.pressure = m.force * f.speed * f.speed * (1 + 2*x[2]*f.across/x[0])
	f.alpha = flow - m.alpha
	f.rate = x[2] * m.chord / (2 * f.speed)
	f.elevator = in[inElevator] - m.elevator
	f.weight = atmosphere.Gravity * math.Cos(x[3]) * in[inCosRoll] * m.chord / (2 * f.speed * f.speed)
	f.lift = o[liftZero] + p[liftAlpha]*f.alpha + p[liftRate]*f.rate + p[liftElevator]*f.elevator
	f.drag = p[dragZero] + p[dragLiftSquared]*f.lift*f.lift
	f.pitch = o[pitchZero] + p[pitchAlpha]*f.alpha + p[pitchRate]*f.rate + p[pitchElevator]*f.elevator + p[pitchWeight]*f.weight
	f.dragByLift = 2 * p[dragLiftSquared] * f.lift
	f.x = f.pressure * (f.lift*f.sinFlow - f.drag*f.cosFlow)
	f.z = -f.pressure * (f.lift*f.cosFlow + f.drag*f.sinFlow)
	return f
}

// carried are the measured force along X, gravity and the motion of the other axis, as accelerations along body X and Z.
func (m *longitudinal) carried(x *state, in *instant) (forward, down float64) {
	const g = atmosphere.Gravity
	sin, cos := math.Sincos(x[3])
	return in[inAcceleration] - m.own[forwardBias] + in[inYawRate]*in[inSide] - g*sin, g*in[inCosRoll]*cos - in[inRollRate]*in[inSide]
}

func (m *longitudinal) rate(x *state, in *instant, dx *state) {
	f := m.flow(x, in)
	m.rates(&f, x, in, dx)
}

func (m *longitudinal) rates(f *alongFlow, x *state, in *instant, dx *state) {
	forward, down := m.carried(x, in)
	down += f.z
	p, r, b := in[inRollRate], in[inYawRate], &m.body
	dx[0] = f.cos*forward + f.sin*down
	dx[1] = x[2] + (f.cos*down-f.sin*forward)/x[0]
	dx[2] = (b.Mass*(f.pressure*m.chord*f.pitch-m.z*f.x+m.x*f.z) + (b.Iz-b.Ix)*p*r - b.Ixz*(p*p-r*r)) / b.Iy
	dx[3] = x[2]*in[inCosRoll] - r*in[inSinRoll]
}
