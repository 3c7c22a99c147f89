package identify

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// Common parameters of the longitudinal model; dragZero and dragLiftSquared are the parabola of drag against lift, which is not given out.
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
	longitudinalTerms
)

// Own constants; forwardBias is that of the forward accelerometer, whose reading is an input.
const (
	liftZero = iota
	pitchZero
	forwardBias
	longitudinalConstants
)

// The longitudinal inputs.
const (
	inElevator = iota
	inRollRate
	inYawRate
	inSinRoll
	inCosRoll
	inFactor       // airspeed over the speed in the plane of symmetry
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
	sin, cos           float64 // of α at the CG
	sinPitch, cosPitch float64 // of θ
	forward, across    float64 // x·cos α + z·sin α, x·sin α − z·cos α
	sinFlow, cosFlow   float64 // of the flow angle at the moment point
	pressure           float64 // ½ρSV²/m there
	speed, factor      float64 // V at the CG, and over the speed in the plane
	alpha, rate        float64 // regressors
	weight             float64 // regressor: what weight adds to α̇c/2V
	elevator           float64
	lift, drag, pitch  float64
	dragByLift         float64 // ∂CD/∂CL
	x, z               float64 // specific force of the air in body axes
}

func (m *longitudinal) flow(x *state, in *instant, f *alongFlow) {
	p, o := (*[longitudinalTerms]float64)(m.common), (*[longitudinalConstants]float64)(m.own)
	over := 1 / x[0]
	f.sin, f.cos = math.Sincos(x[1])
	f.sinPitch, f.cosPitch = math.Sincos(x[3])
	f.forward, f.across = m.x*f.cos+m.z*f.sin, m.x*f.sin-m.z*f.cos
	flow := x[1] + x[2]*f.forward*over
	f.sinFlow, f.cosFlow = math.Sincos(flow)
	f.factor = in[inFactor]
	f.speed = x[0] * f.factor
	f.pressure = m.force * f.speed * f.speed * (1 + 2*x[2]*f.across*over)
	half := m.chord / (2 * f.speed)
	f.alpha = flow - m.alpha
	f.rate = x[2] * half
	f.elevator = in[inElevator] - m.elevator
	f.weight = atmosphere.Gravity * f.cosPitch * in[inCosRoll] * half / f.speed
	f.lift = o[liftZero] + p[liftAlpha]*f.alpha + p[liftRate]*f.rate + p[liftElevator]*f.elevator
	f.drag = p[dragZero] + p[dragLiftSquared]*f.lift*f.lift
	f.pitch = o[pitchZero] + p[pitchAlpha]*f.alpha + p[pitchRate]*f.rate + p[pitchElevator]*f.elevator + p[pitchWeight]*f.weight
	f.dragByLift = 2 * p[dragLiftSquared] * f.lift
	f.x = f.pressure * (f.lift*f.sinFlow - f.drag*f.cosFlow)
	f.z = -f.pressure * (f.lift*f.cosFlow + f.drag*f.sinFlow)
}

// accelerations along body X and Z: the measured force along X, that of the air along Z, gravity and the motion of the other axis.
func (m *longitudinal) accelerations(f *alongFlow, in *instant) (forward, down float64) {
	const g = atmosphere.Gravity
	return in[inAcceleration] - m.own[forwardBias] + in[inYawRate]*in[inSide] - g*f.sinPitch, f.z + g*in[inCosRoll]*f.cosPitch - in[inRollRate]*in[inSide]
}

func (m *longitudinal) rate(x *state, in *instant, dx *state) {
	var f alongFlow
	m.flow(x, in, &f)
	forward, down := m.accelerations(&f, in)
	p, r, b := in[inRollRate], in[inYawRate], &m.body
	dx[0] = f.cos*forward + f.sin*down
	dx[1] = x[2] + (f.cos*down-f.sin*forward)/x[0]
	dx[2] = (b.Mass*(f.pressure*m.chord*f.pitch-m.z*f.x+m.x*f.z) + (b.Iz-b.Ix)*p*r - b.Ixz*(p*p-r*r)) / b.Iy
	dx[3] = x[2]*in[inCosRoll] - r*in[inSinRoll]
}

func (m *longitudinal) outputs(x *state, in *instant) [mostOutputs]float64 {
	var f alongFlow
	m.flow(x, in, &f)
	return f.outputs(x)
}

func (f *alongFlow) outputs(x *state) [mostOutputs]float64 {
	return [mostOutputs]float64{x[2], f.z, x[3], f.speed}
}
