package decide

import "wingproof/cmd/wingproof/internal/evidence"

// Kinds of quantity by what they rest on.
const (
	restsOnBelief  = iota // one belief at full size
	restsOnBoth           // beliefs at full size, and weight
	restsOnWeight         // weight alone, or weight and wheels
	restsOnBending        // bending and allowable of a built part
	restsOnMotion         // a mode of motion: derivatives, weight and inertia
)

// judged is what a quantity rests on and how it is written.
type judged struct {
	kind     int
	unit     string
	beliefs  []string // the first is the one that flights inform it through
	optional []string // beliefs that count where they are predicted
	wheels   bool     // needs the undercarriage; holds for loadings that only stand on the ground, too
}

// judgedAs describes a quantity that a limit may be put on. A quantity not named here is one belief, judged by itself.
func judgedAs(quantity string) judged {
	switch quantity {
	case evidence.StaticMargin:
		return judged{kind: restsOnBoth, beliefs: []string{evidence.NeutralPoint}}
	case evidence.StallingSpeed:
		return judged{kind: restsOnBoth, beliefs: []string{evidence.MaxLift}}
	case evidence.RotationSpeed:
		return judged{kind: restsOnBoth, beliefs: []string{evidence.RotationMoment}}
	case evidence.ElevatorRoom:
		return judged{kind: restsOnBoth, beliefs: []string{evidence.NeutralPoint, evidence.ElevatorTrimRate, evidence.ZeroLiftElevator}}
	case evidence.FuelTravel:
		return judged{kind: restsOnWeight}
	case evidence.TipBackAngle, evidence.NoseGearShare, evidence.OverturnAngle:
		return judged{kind: restsOnWeight, wheels: true}
	case evidence.BendingRatio:
		return judged{kind: restsOnBending, beliefs: []string{evidence.RootBendingMoment}}
	}
	if main := mainDerivative(quantity); main != "" {
		return judged{kind: restsOnMotion, beliefs: []string{main}, optional: motionBeliefs()}
	}
	return judged{kind: restsOnBelief, beliefs: []string{quantity}}
}

// mainDerivative is the derivative that most of a mode of motion hangs on; empty for what is no motion.
func mainDerivative(quantity string) string {
	switch quantity {
	case evidence.ShortPeriodDamping:
		return evidence.PitchDamping
	case evidence.ControlAnticipation, evidence.PhugoidDamping:
		return evidence.NeutralPoint
	case evidence.DutchRollFrequency:
		return evidence.DirectionalStiffness
	case evidence.DutchRollDamping:
		return evidence.YawDamping
	case evidence.RollTimeConstant:
		return evidence.RollDamping
	case evidence.SpiralTimeToDouble:
		return evidence.DihedralEffect
	default:
		return ""
	}
}

// motionBeliefs lists the beliefs that modes of motion are computed from, as far as they are predicted.
func motionBeliefs() []string {
	return []string{evidence.NeutralPoint, evidence.LiftCurveSlope, evidence.PitchDamping, evidence.ZeroLiftDrag,
		evidence.DirectionalStiffness, evidence.DihedralEffect, evidence.SideForceSlope, evidence.RollDamping,
		evidence.YawDamping, evidence.YawDueToRoll, evidence.RollDueToYaw}
}

// unitOf is the unit that a quantity is judged in.
func unitOf(quantity string) string {
	switch quantity {
	case evidence.StaticMargin, evidence.NoseGearShare, evidence.FuelTravel, evidence.NeutralPointPercent:
		return "%"
	case evidence.TipBackAngle, evidence.OverturnAngle, evidence.StallOrderMargin, evidence.ZeroLiftElevator, evidence.ElevatorRoom:
		return "rad"
	case evidence.DirectionalStiffness, evidence.LiftCurveSlope, evidence.TrimmedLiftSlope, evidence.SideForceSlope, evidence.DihedralEffect:
		return "1/rad"
	case evidence.NeutralPoint:
		return "m"
	case evidence.ElevatorTrimRate:
		return "rad/m"
	case evidence.RootBendingMoment:
		return "N·m"
	case evidence.StallingSpeed, evidence.RotationSpeed:
		return "m/s"
	case evidence.RollTimeConstant, evidence.SpiralTimeToDouble:
		return "s"
	case evidence.DutchRollFrequency:
		return "rad/s"
	case evidence.ControlAnticipation:
		return "rad/s² per g"
	default:
		return "-"
	}
}
