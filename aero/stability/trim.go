package stability

import (
	"errors"
	"fmt"

	"wingproof/aero"
)

// Elevator is the name of the control that trims.
const Elevator = "elevator"

// ErrNoLiftSlope says that lift does not change with angle of attack, so that no neutral point exists.
var ErrNoLiftSlope = errors.New("stability: lift does not change with angle of attack")

// NeutralPoint is the station [m aft of datum] at which the CG would make the aircraft neutral with the elevator held:
// x_NP = x − c·Cm_α/CL_α with x the moment point.
//
// Lift stands for the normal force, as in every textbook: the result is exact when the moment point is
// the CG in question or the neutral point itself, and off by (1 − CN_α/CL_α), well below one percent,
// of the distance between the two otherwise. It holds for a CG at the height of the moment point.
//
// Source: Nelson, Flight Stability and Automatic Control, section 2.3 (from memory).
func NeutralPoint(d aero.Derivatives) (float64, error) {
	if d.ByAlpha.Lift == 0 {
		return 0, ErrNoLiftSlope
	}
	return d.MomentPoint - d.Reference.MeanChord*d.ByAlpha.Pitch/d.ByAlpha.Lift, nil
}

// StaticMargin is 100·(x_NP − x_CG)/c in percent of the mean aerodynamic chord for a CG at a station
// [m aft of datum]; positive is stable.
func StaticMargin(d aero.Derivatives, cg float64) (float64, error) {
	if !(d.Reference.MeanChord > 0) {
		return 0, fmt.Errorf("stability: mean aerodynamic chord %g m is not positive", d.Reference.MeanChord)
	}
	x, err := NeutralPoint(d)
	if err != nil {
		return 0, err
	}
	return 100 * (x - cg) / d.Reference.MeanChord, nil
}

// determinant is CL_α·Cm_δ − CL_δ·Cm_α. It does not depend on the moment point as long as moments move
// with lift, because moving adds h·CL_α to Cm_α and h·CL_δ to Cm_δ, which cancel.
func determinant(d aero.Derivatives) (det float64, elevator aero.Coefficients, err error) {
	elevator, ok := d.ByControl[Elevator]
	if !ok {
		return 0, elevator, fmt.Errorf("stability: the derivatives hold no control named %q", Elevator)
	}
	det = d.ByAlpha.Lift*elevator.Pitch - elevator.Lift*d.ByAlpha.Pitch
	if det == 0 {
		return 0, elevator, errors.New("stability: the elevator cannot trim, CL_α·Cm_δe equals CL_δe·Cm_α")
	}
	return det, elevator, nil
}

// ElevatorPerLift is dδe/dCL [rad per unit lift coefficient] in trimmed straight flight with the CG at
// the moment point: −Cm_α/(CL_α·Cm_δe − CL_δe·Cm_α). On a stable foreplane aircraft it is positive.
//
// Derived from dCm = 0 and dCL = CL_α·dα + CL_δe·dδe.
func ElevatorPerLift(d aero.Derivatives) (float64, error) {
	det, _, err := determinant(d)
	if err != nil {
		return 0, err
	}
	return -d.ByAlpha.Pitch / det, nil
}

// ElevatorTrimRate is b1 [rad per m] in dδe/dCL = b1·(x_CG − x_NP), the rate at which the trim slope
// changes as the CG moves aft: b1 = −(CL_α/c)/(CL_α·Cm_δe − CL_δe·Cm_α). On a foreplane aircraft it is negative.
//
// The relation is exactly linear in x_CG while a moment moves with the lift, Cm(x) = Cm(x0) + CL·(x − x0)/c:
// the determinant is then the same for every CG. With the true normal force (drag and the tilt of lift
// included) it is linear to first order in the angle of attack, and exact when CN_α/CL_α = CN_δe/CL_δe.
func ElevatorTrimRate(d aero.Derivatives) (float64, error) {
	det, _, err := determinant(d)
	if err != nil {
		return 0, err
	}
	return -d.ByAlpha.Lift / (d.Reference.MeanChord * det), nil
}

// TrimmedLiftSlope is dCL/dα [1/rad] while the elevator keeps the pitching moment about the moment point
// at zero: CL_α − CL_δe·Cm_α/Cm_δe. On a stable foreplane aircraft it exceeds CL_α.
func TrimmedLiftSlope(d aero.Derivatives) (float64, error) {
	elevator, ok := d.ByControl[Elevator]
	if !ok || elevator.Pitch == 0 {
		return 0, fmt.Errorf("stability: the derivatives hold no control named %q with a pitching moment", Elevator)
	}
	return d.ByAlpha.Lift - elevator.Lift*d.ByAlpha.Pitch/elevator.Pitch, nil
}

// Trim returns angle of attack of the datum x axis [rad] and elevator [rad] at which the lift coefficient
// has the given value and the pitching moment about the moment point vanishes.
//
// The caller compares the elevator with its travel.
func Trim(d aero.Derivatives, lift float64) (alpha, elevator float64, err error) {
	det, e, err := determinant(d)
	if err != nil {
		return 0, 0, err
	}
	needLift, needPitch := lift-d.At.Lift, -d.At.Pitch
	alpha = d.Alpha + (needLift*e.Pitch-e.Lift*needPitch)/det
	elevator = (d.ByAlpha.Lift*needPitch - d.ByAlpha.Pitch*needLift) / det
	return alpha, elevator, nil
}
