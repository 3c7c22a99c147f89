package lattice

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Newton's iterations stop at this residual and give up after this many steps.
const (
	trimResidual = 1e-12
	trimSteps    = 30
)

// AlphaForLift is the angle of attack, rad, at a lift coefficient in level symmetric flight with the
// controls given.
//
// It returns an error when no angle within ±90° gives that lift.
func (s *Solution) AlphaForLift(cl float64, controls map[string]float64) (float64, error) {
	state := State{Controls: controls}
	for range trimSteps {
		miss := s.Coefficients(state, r3.Vec{}).Lift - cl
		if math.Abs(miss) < trimResidual {
			return state.Alpha, nil
		}
		state.Alpha -= miss / s.Derivatives(state, r3.Vec{}).ByAlpha.Lift
		if !(math.Abs(state.Alpha) < math.Pi/2) {
			break
		}
	}
	return 0, fmt.Errorf("no angle of attack gives a lift coefficient of %.4g", cl)
}

// Trim is the steady symmetric state in which the lift coefficient is cl and the pitching moment about
// momentPoint is zero, by angle of attack and one control.
//
// It returns an error when the control does not exist or does not pitch the aircraft.
func (s *Solution) Trim(cl float64, controlName string, momentPoint r3.Vec) (State, error) {
	if !slices.Contains(s.Controls(), controlName) {
		return State{}, fmt.Errorf("trimming: no surface has a control %q; there are %q", controlName, s.Controls())
	}
	state := State{Controls: map[string]float64{controlName: 0}}
	for range trimSteps {
		c := s.Coefficients(state, momentPoint)
		lift, pitch := c.Lift-cl, c.Pitch
		if math.Hypot(lift, pitch) < trimResidual {
			return state, nil
		}
		d := s.Derivatives(state, momentPoint)
		power := d.ByControl[controlName]
		det := d.ByAlpha.Lift*power.Pitch - d.ByAlpha.Pitch*power.Lift
		if math.Abs(det) < 1e-9 {
			break
		}
		state.Alpha -= (lift*power.Pitch - pitch*power.Lift) / det
		state.Controls[controlName] -= (d.ByAlpha.Lift*pitch - d.ByAlpha.Pitch*lift) / det
		if !(math.Abs(state.Alpha) < math.Pi/2) {
			break
		}
	}
	return State{}, fmt.Errorf("trimming: control %q cannot balance a lift coefficient of %.4g about x = %.4g m", controlName, cl, momentPoint.X)
}
