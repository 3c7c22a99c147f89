package lattice

import (
	"fmt"
	"maps"
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

// Balance is steady symmetric flight, level or in a pull-up, that one control balances.
type Balance struct {
	Lift        float64            // lift coefficient
	PitchRate   float64            // qc/2V, see PullUpRate
	Control     string             // the one that balances
	Others      map[string]float64 // deflections of other controls, rad
	MomentPoint r3.Vec             // the CG, datum axes, m
	Moment      float64            // pitching-moment coefficient of what the lattice does not know (body, thrust), nose up positive
	MomentSlope float64            // its change per radian of angle of attack; Moment is that at none
}

// PullUpRate is qc/2V in a steady pull-up at a load factor: q = (n − 1)g/V at the bottom of the circle, g in m/s².
func PullUpRate(loadFactor, g, meanChord, speed float64) float64 {
	return (loadFactor - 1) * g * meanChord / (2 * speed * speed)
}

// Trim is Balanced in level flight with all other controls neutral.
func (s *Solution) Trim(cl float64, controlName string, momentPoint r3.Vec) (State, error) {
	return s.Balanced(Balance{Lift: cl, Control: controlName, MomentPoint: momentPoint})
}

// Balanced is the steady symmetric state in which the lift coefficient is as asked and the pitching moment is zero, by angle
// of attack and one control. Deflections are not limited to any travel.
//
// It returns an error when the control does not exist or does not pitch the aircraft.
func (s *Solution) Balanced(b Balance) (State, error) {
	if !slices.Contains(s.Controls(), b.Control) {
		return State{}, fmt.Errorf("trimming: no surface has a control %q; there are %q", b.Control, s.Controls())
	}
	state := State{PitchRate: b.PitchRate, Controls: map[string]float64{b.Control: 0}}
	maps.Copy(state.Controls, b.Others)
	for range trimSteps {
		c := s.Coefficients(state, b.MomentPoint)
		lift, pitch := c.Lift-b.Lift, c.Pitch+b.Moment+b.MomentSlope*state.Alpha
		if math.Hypot(lift, pitch) < trimResidual {
			return state, nil
		}
		d := s.Derivatives(state, b.MomentPoint)
		d.ByAlpha.Pitch += b.MomentSlope
		power := d.ByControl[b.Control]
		det := d.ByAlpha.Lift*power.Pitch - d.ByAlpha.Pitch*power.Lift
		if math.Abs(det) < 1e-9 {
			break
		}
		state.Alpha -= (lift*power.Pitch - pitch*power.Lift) / det
		state.Controls[b.Control] -= (d.ByAlpha.Lift*pitch - d.ByAlpha.Pitch*lift) / det
		if !(math.Abs(state.Alpha) < math.Pi/2) {
			break
		}
	}
	return State{}, fmt.Errorf("trimming: control %q cannot balance a lift coefficient of %.4g about x = %.4g m", b.Control, b.Lift, b.MomentPoint.X)
}
