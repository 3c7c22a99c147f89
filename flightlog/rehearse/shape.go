package rehearse

import (
	"maps"

	"wingproof/aero"
	"wingproof/aero/stability"
)

// Shape is what is believed of an aircraft, to be put in the place of what theory says.
type Shape struct {
	NeutralPoint  float64 // full-size m aft of datum, elevator held
	LiftSlope     float64 // 1/rad, elevator held
	TrimRate      float64 // rad per unit of lift coefficient and full-size m of CG travel, see stability.ElevatorTrimRate
	MoreStiffness float64 // 1/rad, to be added to Cn_β: the side force being the same, the change is the same about any CG
}

// Of returns derivatives that have the shape, about the moment point that they had. The elevator's whole effect scales, lift and moment
// alike, so that the trim rate comes out; everything else stays.
func (s Shape) Of(d aero.Derivatives) aero.Derivatives {
	chord := d.Reference.MeanChord
	arm := s.NeutralPoint - d.MomentPoint
	d.ByAlpha.Lift = s.LiftSlope
	d.ByAlpha.Pitch = -s.LiftSlope * arm / chord
	d.ByBeta.Yaw += s.MoreStiffness
	effect := d.ByControl[stability.Elevator]
	// b1 = −(CL_α/c)/(CL_α·Cm_δe − CL_δe·Cm_α)
	now := d.ByAlpha.Lift*effect.Pitch - effect.Lift*d.ByAlpha.Pitch
	want := -d.ByAlpha.Lift / chord / s.TrimRate
	controls := maps.Clone(d.ByControl)
	controls[stability.Elevator] = effect.Times(want / now)
	d.ByControl = controls
	return d
}
