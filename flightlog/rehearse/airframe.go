package rehearse

import (
	"fmt"
	"math"

	"wingproof/aero"
	"wingproof/aero/stability"
)

// slowestFlow is the airspeed below which the air neither loads the model nor has a direction, m/s. Invented.
const slowestFlow = 0.1

// airframe is an Aircraft made ready for the integration: derivatives about the CG, model-size reference.
type airframe struct {
	Aircraft
	d                       aero.Derivatives // about the CG, model-size reference
	elevator, aileron, rudd aero.Coefficients
	area, span, chord       float64
	inertiaDeterminant      float64

	foreplaneSlope float64 // lift slope of the foreplane alone on the reference area, from the elevator's
	foreplaneArm   float64 // Cm per CL of lift on the foreplane
	foreplaneStall float64 // α + elevatorAsIncidence·δe at which it lets go
	wingStall      float64
	wingLoses      float64 // of its lift slope

	alphaRate, betaRate aero.Coefficients // about the CG
	unsteady            bool              // one of them is not zero
}

func newAirframe(a Aircraft) (*airframe, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	d := stability.Moved(a.Derivatives, a.CGX, a.CGZ)
	elevator, ok := d.ByControl[stability.Elevator]
	if !ok {
		return nil, fmt.Errorf("rehearse: the derivatives hold no control named %q", stability.Elevator)
	}
	f := &airframe{
		Aircraft: a, d: d, elevator: elevator, aileron: d.ByControl["aileron"], rudd: d.ByControl["rudder"],
		area:               d.Reference.Area * a.LengthRatio * a.LengthRatio,
		span:               d.Reference.Span * a.LengthRatio,
		chord:              d.Reference.MeanChord * a.LengthRatio,
		inertiaDeterminant: a.Body.Ix*a.Body.Iz - a.Body.Ixz*a.Body.Ixz,
	}
	if !(f.aileron.Roll > 0) {
		return nil, fmt.Errorf("rehearse: the pilot needs a control named \"aileron\" that rolls right when positive (Cl_δa %g)", f.aileron.Roll)
	}
	f.alphaRate, f.betaRate = a.aboutCG(a.AlphaRate), a.aboutCG(a.BetaRate)
	f.unsteady = f.alphaRate != aero.Coefficients{} || f.betaRate != aero.Coefficients{}
	return f, f.placeStall()
}

// loads are forces [N] and moments [N·m] in body axes at the CG, weight excluded.
type loads struct{ x, y, z, roll, pitch, yaw float64 }

// controls are the surface angles [rad] and the thrust setting 0 to 1 that act at one instant.
type controls struct{ elevator, aileron, rudder, thrust float64 }

// loads of the air and the propeller for an air-relative velocity (u, v, w) [m/s] and rates [rad/s]. The angles of the flow
// change by change, which is dimensionless.
func (f *airframe) loads(density, u, v, w, p, q, r float64, c controls, change change) loads {
	planeSpeed := u*u + w*w
	speed := math.Sqrt(planeSpeed + v*v)
	if speed < slowestFlow {
		return loads{}
	}
	planeSpeed = math.Sqrt(planeSpeed)
	alpha := math.Atan2(w, u)
	beta := math.Asin(v / speed)
	sin, cos := w/planeSpeed, u/planeSpeed

	lift, drag, pitch := f.along(alpha, q*f.chord/(2*speed), change.alpha, c)
	side, roll, yaw := f.across(alpha, beta, p*f.span/(2*speed), r*f.span/(2*speed), change.beta, c)
	force := 0.5 * density * speed * speed * f.area
	thrust := f.thrust(speed, c.thrust)
	l := loads{
		x:     force*(lift*sin-drag*cos) + thrust,
		y:     force * side,
		z:     force * (-lift*cos - drag*sin),
		roll:  force * f.span * roll,
		pitch: force*f.chord*pitch - thrust*f.Propulsion.Height,
		yaw:   force * f.span * yaw,
	}
	if p := &f.Propulsion; p.NormalForce > 0 {
		normal := force * p.NormalForce * c.thrust * (alpha + q*p.Aft/speed)
		l.z -= normal
		l.pitch -= normal * p.Aft
	}
	return l
}

// along gives lift, drag and pitching moment coefficients.
func (f *airframe) along(alpha, rate, change float64, c controls) (lift, drag, pitch float64) {
	da := alpha - f.d.Alpha
	lift = f.d.At.Lift + f.d.ByAlpha.Lift*da + f.d.ByPitchRate.Lift*rate + f.elevator.Lift*c.elevator + f.alphaRate.Lift*change
	pitch = f.d.At.Pitch + f.d.ByAlpha.Pitch*da + f.d.ByPitchRate.Pitch*rate + f.elevator.Pitch*c.elevator + f.alphaRate.Pitch*change
	lift, pitch = f.stalled(alpha, lift, pitch, c.elevator)
	away := lift - f.Polar.LiftAtMin
	drag = f.Polar.Min + f.Polar.Factor*away*away + f.Propulsion.WindmillDrag*idle(c.thrust)
	return lift, drag, pitch
}

// across gives side-force, rolling and yawing moment coefficients.
func (f *airframe) across(alpha, beta, p, r, change float64, c controls) (side, roll, yaw float64) {
	d := &f.d
	side = d.ByBeta.Side*beta + d.ByRollRate.Side*p + d.ByYawRate.Side*r + f.aileron.Side*c.aileron + f.rudd.Side*c.rudder + f.betaRate.Side*change
	roll = d.ByBeta.Roll*beta + d.ByRollRate.Roll*p + d.ByYawRate.Roll*r + f.aileron.Roll*c.aileron + f.rudd.Roll*c.rudder + f.betaRate.Roll*change
	yaw = d.ByBeta.Yaw*beta + d.ByRollRate.Yaw*p + d.ByYawRate.Yaw*r + f.aileron.Yaw*c.aileron + f.rudd.Yaw*c.rudder + f.betaRate.Yaw*change
	if f.Stall.First == WingFirst {
		roll += f.rolledOff(alpha, p)
	}
	return side, roll, yaw
}

func (f *airframe) thrust(speed, setting float64) float64 {
	return f.Propulsion.Static * setting * math.Max(0, 1-speed/f.Propulsion.ZeroThrustSpeed)
}

// idle is 1 with the throttle closed and 0 from a twentieth of full throttle on.
func idle(setting float64) float64 { return math.Max(0, 1-20*setting) }
