package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// aircraft is an invented linear foreplane aircraft: CL = CL0 + CL_α·α + CL_δe·δe, and Cm about x = reference.
type aircraft struct {
	lift0, liftAlpha, liftElevator       float64
	moment0, momentAlpha, momentElevator float64
	reference, chord                     float64
	dragMin, k, liftMin                  float64
	speed                                float64 // at CL 1, m/s
	liftRate, momentRate                 float64 // by q·c/2V, about x = reference
	kappa                                float64 // ρ·S·c/(4·m)
	sideBeta, sideRudder, sideAileron    float64
	rollBeta, rollRudder, rollAileron    float64
	yawBeta, yawRudder, yawAileron       float64
	maxLift, maxLiftPerCG                float64 // at x = reference, slowed by 0.5 m/s²
	slowing, slowingAngle                float64 // effect of one m/s² of slowing: relative, rad
	stallExtra                           float64 // rad beyond the straight lift curve at maximum lift
}

// canard has Cm_δe > 0 and its neutral point at 2.5 m.
func canard() aircraft {
	return aircraft{lift0: 0.12, liftAlpha: 5.2, liftElevator: 0.45, moment0: 0.05, momentAlpha: -1.04, momentElevator: 0.92,
		reference: 2.3, chord: 1, dragMin: 0.028, k: 0.055, liftMin: 0.15, speed: 13,
		liftRate: 4.1, momentRate: -9, kappa: 0.0075,
		sideBeta: -0.48, sideRudder: 0.16, sideAileron: 0.01, rollBeta: -0.085, rollRudder: 0.012, rollAileron: 0.17,
		yawBeta: 0.078, yawRudder: -0.066, yawAileron: -0.006,
		maxLift: 1.25, maxLiftPerCG: 0.6, slowing: 0.05, slowingAngle: 0.01, stallExtra: 0.03}
}

func (a aircraft) neutralPoint() float64 { return a.reference - a.chord*a.momentAlpha/a.liftAlpha }

// trim solves CL and Cm = 0 about the CG for angle of attack and elevator.
func (a aircraft) trim(lift, cg float64) (alpha, elevator float64) { return a.pitching(lift, 0, cg) }

// pitching is trim at a steady pitch rate q·c/2V. The reference point, ahead of the CG by arm chords, goes up as the nose does, so its
// angle of attack is less than that of the CG by 2·arm·q·c/2V.
func (a aircraft) pitching(lift, rate, cg float64) (alpha, elevator float64) {
	arm := (cg - a.reference) / a.chord
	l := lift - a.lift0 - (a.liftRate-2*arm*a.liftAlpha)*rate
	m := -a.moment0 - lift*arm - (a.momentRate-2*arm*a.momentAlpha)*rate
	det := a.liftAlpha*a.momentElevator - a.liftElevator*a.momentAlpha
	return (l*a.momentElevator - a.liftElevator*m) / det, (a.liftAlpha*m - a.momentAlpha*l) / det
}

// manoeuvrePoint is the CG at which a pull-up at constant speed takes no elevator.
func (a aircraft) manoeuvrePoint() float64 {
	return a.neutralPoint() - a.chord*a.kappa*(a.momentRate-a.momentAlpha*a.liftRate/a.liftAlpha)
}

// perG is the elevator for each g in a pull-up at the speed of level flight at lift1.
func (a aircraft) perG(lift1, cg float64) float64 {
	_, one := a.pitching(lift1, 0, cg)
	_, two := a.pitching(2*lift1, lift1*a.kappa, cg)
	return two - one
}

// powerAtNeutralPoint is Cm_δe about the neutral point.
func (a aircraft) powerAtNeutralPoint() float64 {
	return a.momentElevator + a.liftElevator*(a.neutralPoint()-a.reference)/a.chord
}

// slip solves steady sideslip: rudder and aileron from yaw and roll, side force from all three.
func (a aircraft) slip(beta float64) (rudder, aileron, side float64) {
	det := a.yawRudder*a.rollAileron - a.yawAileron*a.rollRudder
	rudder = (-a.yawBeta*a.rollAileron + a.yawAileron*a.rollBeta) * beta / det
	aileron = (-a.rollBeta*a.yawRudder + a.rollRudder*a.yawBeta) * beta / det
	return rudder, aileron, a.sideBeta*beta + a.sideRudder*rudder + a.sideAileron*aileron
}

// stall is the peak of a deceleration: lift and angle of attack.
func (a aircraft) stall(cg, slowing float64) (lift, alpha float64) {
	top := a.maxLift + a.maxLiftPerCG*(cg-a.reference)
	alpha, _ = a.trim(top, cg)
	return top * (1 + a.slowing*(slowing-standardSlowing)), alpha + a.stallExtra + a.slowingAngle*(slowing-standardSlowing)
}

// trimmedSlope is dCL/dα in trim at a CG.
func (a aircraft) trimmedSlope(cg float64) float64 {
	high, _ := a.trim(1, cg)
	low, _ := a.trim(0, cg)
	return 1 / (high - low)
}

func (a aircraft) drag(lift float64) float64 { return a.dragMin + a.k*square(lift-a.liftMin) }

// instruments are the standard deviations of a synthetic programme.
type instruments struct {
	elevatorFlight, elevatorPoint float64 // rad: zero a flight, reading a point
	alphaPoint                    float64 // rad
	vertical                      float64 // m/s a flight
	liftFlight, liftPoint         float64 // relative
	dragPoint                     float64
}

func errors1() instruments {
	return instruments{elevatorFlight: 0.3 * math.Pi / 180, elevatorPoint: 0.25 * math.Pi / 180, alphaPoint: 0.3 * math.Pi / 180,
		vertical: 0.2, liftFlight: 0.02, liftPoint: 0.015, dragPoint: 0.0012}
}

// programme flies one configuration: flights take the CGs in turn, five to eight points each.
func (a aircraft) programme(random *rand.Rand, flights int, cgs []float64, e instruments) []Point {
	var points []Point
	for i := range flights {
		cg := cgs[i%len(cgs)]
		zero, vertical := e.elevatorFlight*random.NormFloat64(), e.vertical*random.NormFloat64()
		scale := 1 + e.liftFlight*random.NormFloat64()
		n := 5 + random.IntN(4)
		for j := range n {
			lift := 0.3 + 0.6*(float64(j)+random.Float64())/float64(n)
			alpha, elevator := a.trim(lift, cg)
			speed := a.speed / math.Sqrt(lift)
			points = append(points, Point{
				Flight: fmt.Sprintf("F%02d", i), CG: cg, Power: idlePower, HasDrag: true, Airspeed: speed, Reynolds: 4e5,
				Alpha: alpha + vertical/speed + e.alphaPoint*random.NormFloat64(), AlphaSD: e.alphaPoint,
				Lift: lift * scale * (1 + e.liftPoint*random.NormFloat64()), LiftSD: e.liftPoint * lift,
				Elevator: elevator + zero + e.elevatorPoint*random.NormFloat64(), ElevatorSD: e.elevatorPoint,
				Drag: a.drag(lift) + vertical/speed*lift + e.dragPoint*random.NormFloat64(), DragSD: e.dragPoint,
			})
		}
	}
	return points
}
