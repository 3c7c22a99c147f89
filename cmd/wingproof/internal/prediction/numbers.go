package prediction

import (
	"math"
	"slices"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
)

// Number is one predicted quantity.
type Number struct {
	Quantity string
	Unit     string
	Value    float64 // NaN where it does not exist, such as elevator slopes without an elevator
	Grid     float64 // estimated discretisation error, absolute; NaN when it was not asked for
}

// Names of predicted quantities that evidence has no use for.
const (
	Alpha              = "alpha"                               // rad, of the datum x axis
	LiftCoefficient    = "lift_coefficient"                    //
	PitchingMoment     = "pitching_moment"                     // coefficient about the moment point, nose up positive
	TrimElevator       = "trim_elevator"                       // rad
	ElevatorPerLift    = "elevator_per_lift"                   // rad per unit lift coefficient
	PitchStiffness     = "pitch_stiffness"                     // Cm_α
	PitchDamping       = "pitch_damping"                       // Cm_q
	LiftByPitchRate    = "lift_by_pitch_rate"                  // CL_q
	ElevatorPower      = "elevator_power"                      // Cm_δe
	ElevatorLift       = "elevator_lift"                       // CL_δe
	SideForceSlope     = "side_force_slope"                    // CY_β
	DihedralEffect     = "dihedral_effect"                     // Cl_β
	RollDamping        = "roll_damping"                        // Cl_p
	YawDamping         = "yaw_damping"                         // Cn_r
	YawDueToRoll       = "yaw_due_to_roll"                     // Cn_p
	RollDueToYaw       = "roll_due_to_yaw"                     // Cl_r
	AileronPower       = "aileron_power"                       // Cl_δa
	RudderPower        = "rudder_power"                        // Cn_δr, per rudder
	InducedDrag        = "induced_drag"                        // coefficient, far field
	SpanEfficiency     = "span_efficiency"                     //
	HingeMoment        = "elevator_hinge_moment"               // coefficient, ideal flow, positive in the control's own sense
	HingeByAlpha       = "elevator_hinge_moment_by_alpha"      // C_h,α
	HingeByDeflection  = "elevator_hinge_moment_by_deflection" // C_h,δ
	BestSpanEfficiency = "best_span_efficiency"                // that the trace of all mirrored surfaces allows
)

// Value of a quantity; NaN when the analysis has none of that name.
func (a *Analysis) Value(quantity string) float64 { return a.Number(quantity).Value }

// Number of a quantity; its value is NaN when the analysis has none of that name.
func (a *Analysis) Number(quantity string) Number {
	for _, n := range a.Numbers {
		if n.Quantity == quantity {
			return n
		}
	}
	return Number{Quantity: quantity, Value: math.NaN(), Grid: math.NaN()}
}

// values takes every quantity at the point, always the same ones in the same order.
func (p *point) values() ([]Number, error) {
	d, r := p.derivatives, p.solution.Reference()
	neutral, err := stability.NeutralPoint(d)
	if err != nil {
		return nil, err
	}
	best, err := p.solution.BestSpanEfficiency()
	if err != nil {
		return nil, err
	}
	c := p.solution.Coefficients(p.state, p.setup.CG)
	c.Pitch += p.body.Pitch / (r.Area * r.MeanChord) * p.state.Alpha
	nan := math.NaN()
	rate, trimmed, perLift := nan, nan, nan
	elevator, hasElevator := p.control(p.setup.elevator())
	if hasElevator {
		if rate, err = stability.ElevatorTrimRate(d); err != nil {
			return nil, err
		}
		if trimmed, err = stability.TrimmedLiftSlope(d); err != nil {
			return nil, err
		}
		perLift = elevatorPerLift(d, elevator)
	}
	hinge := p.elevatorHinge()
	aileron, _ := p.control("aileron")
	rudder, _ := p.control("rudder")
	deflection := nan
	if p.trimmed {
		deflection = p.state.Controls[p.setup.elevator()]
	}
	list := []Number{
		{Quantity: Alpha, Unit: "rad", Value: p.state.Alpha},
		{Quantity: LiftCoefficient, Unit: "1", Value: c.Lift},
		{Quantity: PitchingMoment, Unit: "1", Value: c.Pitch},
		{Quantity: TrimElevator, Unit: "rad", Value: deflection},
		{Quantity: evidence.NeutralPoint, Unit: "m", Value: neutral},
		{Quantity: evidence.NeutralPointPercent, Unit: "%", Value: r.Percent(neutral)},
		{Quantity: evidence.StaticMargin, Unit: "%", Value: 100 * (neutral - p.setup.CG.X) / r.MeanChord},
		{Quantity: evidence.LiftCurveSlope, Unit: "1/rad", Value: d.ByAlpha.Lift},
		{Quantity: evidence.TrimmedLiftSlope, Unit: "1/rad", Value: trimmed},
		{Quantity: ElevatorPerLift, Unit: "rad", Value: perLift},
		{Quantity: evidence.ElevatorTrimRate, Unit: "rad/m", Value: rate},
		{Quantity: ElevatorPower, Unit: "1/rad", Value: elevator.Pitch},
		{Quantity: ElevatorLift, Unit: "1/rad", Value: elevator.Lift},
		{Quantity: PitchStiffness, Unit: "1/rad", Value: d.ByAlpha.Pitch},
		{Quantity: PitchDamping, Unit: "1/rad", Value: d.ByPitchRate.Pitch},
		{Quantity: LiftByPitchRate, Unit: "1/rad", Value: d.ByPitchRate.Lift},
		{Quantity: HingeMoment, Unit: "1", Value: hinge[0]},
		{Quantity: HingeByAlpha, Unit: "1/rad", Value: hinge[1]},
		{Quantity: HingeByDeflection, Unit: "1/rad", Value: hinge[2]},
		{Quantity: SideForceSlope, Unit: "1/rad", Value: d.ByBeta.Side},
		{Quantity: evidence.DirectionalStiffness, Unit: "1/rad", Value: d.ByBeta.Yaw},
		{Quantity: DihedralEffect, Unit: "1/rad", Value: d.ByBeta.Roll},
		{Quantity: RollDamping, Unit: "1/rad", Value: d.ByRollRate.Roll},
		{Quantity: YawDamping, Unit: "1/rad", Value: d.ByYawRate.Yaw},
		{Quantity: YawDueToRoll, Unit: "1/rad", Value: d.ByRollRate.Yaw},
		{Quantity: RollDueToYaw, Unit: "1/rad", Value: d.ByYawRate.Roll},
		{Quantity: AileronPower, Unit: "1/rad", Value: aileron.Roll},
		{Quantity: RudderPower, Unit: "1/rad", Value: rudder.Yaw / rudders(p.airframe)},
		{Quantity: InducedDrag, Unit: "1", Value: c.Drag},
		{Quantity: SpanEfficiency, Unit: "1", Value: p.solution.SpanEfficiencyAbout(p.state, p.setup.CG)},
		{Quantity: BestSpanEfficiency, Unit: "1", Value: best},
	}
	for i := range list {
		list[i].Grid = nan
	}
	return list, nil
}

// elevatorHinge is the elevator's hinge-moment coefficient and its slopes by angle of attack and by its own deflection; NaN without
// an elevator. Of several surfaces with elevators the first counts.
func (p *point) elevatorHinge() [3]float64 {
	name := p.setup.elevator()
	for _, h := range p.solution.HingeDerivatives(p.state, p.setup.CG) {
		if h.Control == name {
			return [3]float64{h.Coefficient, h.ByAlpha, h.ByControl[name]}
		}
	}
	return [3]float64{math.NaN(), math.NaN(), math.NaN()}
}

// rudders counts the rudders of an airframe, both sides; at least one.
func rudders(airframe aero.Airframe) float64 {
	count := 0.0
	for _, s := range airframe.Surfaces {
		if !slices.ContainsFunc(s.Hinges, func(h aero.Hinge) bool { return h.Control == "rudder" }) {
			continue
		}
		count++
		if s.Mirrored {
			count++
		}
	}
	return math.Max(1, count)
}

// control gives the derivatives by a control; NaN and false where there is none.
func (p *point) control(name string) (aero.Coefficients, bool) {
	if c, ok := p.derivatives.ByControl[name]; ok {
		return c, true
	}
	nan := math.NaN()
	return aero.Coefficients{Lift: nan, Drag: nan, Side: nan, Roll: nan, Pitch: nan, Yaw: nan}, false
}

// elevatorPerLift is dδe/dCL in trim: CL_α dα + CL_δ dδ = dCL with Cm_α dα + Cm_δ dδ = 0.
func elevatorPerLift(d aero.Derivatives, elevator aero.Coefficients) float64 {
	return -d.ByAlpha.Pitch / (d.ByAlpha.Lift*elevator.Pitch - d.ByAlpha.Pitch*elevator.Lift)
}
