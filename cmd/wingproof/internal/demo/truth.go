package demo

import (
	"maps"
	"slices"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/rehearse"
)

// Model-scale drag of the invented aircraft before its own draw: skin friction and form drag at the
// model's Reynolds number (invented), the same for every size of winglet and foreplane.
const (
	baseDrag        = 0.0305
	dragMinimumLift = 0.15
)

// configurationTruth is what one configuration of the invented model really does at model scale.
type configurationTruth struct {
	Configuration        string            `json:"configuration"`
	Levels               map[string]string `json:"levels"`
	NeutralPoint         float64           `json:"neutral_point_m"`
	LiftCurveSlope       float64           `json:"lift_curve_slope_per_rad"`
	ElevatorTrimRate     float64           `json:"elevator_trim_rate_rad_per_m"`
	DirectionalStiffness float64           `json:"directional_stiffness_per_rad"` // about the CG below
	StiffnessCG          float64           `json:"directional_stiffness_cg_m"`
	ZeroLiftDrag         float64           `json:"zero_lift_drag"`
	DragDueToLift        float64           `json:"drag_due_to_lift"`
	ElevatorLift         float64           `json:"elevator_lift_per_rad"`
	ElevatorPower        float64           `json:"elevator_power_per_rad"` // about the reference CG
	GreatestLifts        []liftTruth       `json:"greatest_lift_in_trim"`  // of the CGs flown, the foremost first

	Longitudinal map[string]float64 `json:"derivatives_about_reference_cg"`             // by quantity, per rad
	Lateral      map[string]float64 `json:"derivatives_about_directional_stiffness_cg"` // by quantity, per rad, of one rudder

	derivatives aero.Derivatives // about ReferenceCG, truth
	letsGo      []study.LiftAt   // trimmed lift at which the foreplane lets go, the foremost CG first; between and beyond them a straight line
	stop        float64          // rad, travel of the elevator that raises the nose
}

// errorOf draws the model error of one quantity for one configuration by the stated distribution:
// one bias for the aircraft, one draw a level, one a configuration.
func errorOf(seed uint64, e decide.TheoryError, levels map[string]string) float64 {
	sum := draw(seed, e.Bias, "truth", e.Quantity, "bias")
	for _, choice := range slices.Sorted(maps.Keys(levels)) {
		sum += draw(seed, e.Level[choice], "truth", e.Quantity, choice, levels[choice])
	}
	return sum + draw(seed, e.Interaction, "truth", e.Quantity, evidence.Name(levels))
}

// truthOf moves the lattice's numbers by errors drawn from the stated distribution. The derivatives are
// changed so that neutral point, lift slope and elevator trim rate come out exactly as drawn. The lift at which the foreplane lets go is off by the
// same share at every CG.
// The configuration is that of a study as predicted gives it.
func truthOf(seed uint64, c study.Configuration, errors []decide.TheoryError) configurationTruth {
	drawn := map[string]float64{}
	for _, e := range errors {
		drawn[e.Quantity] = errorOf(seed, e, c.Levels)
	}
	t := configurationTruth{
		Configuration: c.Name, Levels: c.Levels,
		NeutralPoint:         c.NeutralPoint + drawn[evidence.NeutralPoint],
		LiftCurveSlope:       c.LiftSlope * (1 + drawn[evidence.LiftCurveSlope]),
		ElevatorTrimRate:     c.ElevatorTrimRate * (1 + drawn[evidence.ElevatorTrimRate]),
		DirectionalStiffness: c.DirectionalStiffness * (1 + drawn[evidence.DirectionalStiffness]),
		StiffnessCG:          c.StiffnessCG,
		ZeroLiftDrag:         baseDrag * (1 + drawn[evidence.ZeroLiftDrag]),
	}
	for _, predicted := range c.FullSize.ModelLifts {
		t.letsGo = append(t.letsGo, study.LiftAt{CG: predicted.CG, Lift: predicted.Lift * (1 + drawn[evidence.MaxLift])})
	}
	t.derivatives = shaped(c, t)
	induced := c.InducedDrag / (study.PredictionLift * study.PredictionLift)
	t.DragDueToLift = 1.12 * induced // profile drag grows with lift as well (invented share)
	effect := t.derivatives.ByControl[stability.Elevator]
	t.ElevatorLift, t.ElevatorPower = effect.Lift, effect.Pitch
	t.stop, _ = prediction.NoseUpStop(c.Airframe, prediction.Setup{})
	for _, name := range ballasts() {
		t.GreatestLifts = append(t.GreatestLifts, t.greatestLift(ballast(name)))
	}
	t.Longitudinal = longitudinalOf(t.derivatives)
	t.Lateral = lateralOf(stability.Moved(t.derivatives, t.StiffnessCG, t.derivatives.MomentZ))
	return t
}

// shaped returns derivatives about the reference CG with the drawn lift slope, neutral point, trim rate and
// directional stiffness.
func shaped(c study.Configuration, t configurationTruth) aero.Derivatives {
	return rehearse.Shape{NeutralPoint: t.NeutralPoint, LiftSlope: t.LiftCurveSlope, TrimRate: t.ElevatorTrimRate,
		MoreStiffness: t.DirectionalStiffness - c.DirectionalStiffness}.Of(c.Derivatives)
}
