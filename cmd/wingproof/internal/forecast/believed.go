package forecast

import (
	"fmt"
	"math"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/identify"
)

// usualLift is the greatest trimmed lift coefficient of a model where no deceleration was flown; baseDrag its drag coefficient at no lift
// where no glide was. Common practice, no source.
const (
	usualLift = 1.2
	baseDrag  = 0.033
)

// profileShare is by how much drag due to lift exceeds the induced drag: profile drag grows with lift as well. Common practice, no source.
const profileShare = 1.12

// theoryShare is one standard deviation of theory, relative, where nobody states it; vagueShare is that of a measurement which says less than the
// lattice. Common practice, no source.
const (
	theoryShare = 0.1
	vagueShare  = 0.3
)

// configurationOf finds a configuration of a study by its levels.
func configurationOf(st *study.Study, levels map[string]string) (study.Configuration, error) {
	for _, c := range st.Configurations {
		if c.Name == evidence.Name(levels) {
			return c, nil
		}
	}
	return study.Configuration{}, &study.InputError{What: "there is no configuration " + evidence.Name(levels), Right: "name one level of every choice of program.toml"}
}

// believed is the value of a quantity of a configuration at model scale with one standard deviation: anchored, else of theory.
func believed(st *study.Study, configuration, quantity string, theory float64) (value, sd float64) {
	for _, e := range st.Estimates {
		if e.Origin == evidence.Anchored && e.Scale == evidence.ModelScale && e.Configuration == configuration && e.Quantity == quantity && e.Value != nil && e.SD != nil {
			return *e.Value, *e.SD
		}
	}
	return theory, theoryShare * math.Abs(theory)
}

// derivativesOf are those of a configuration as they are believed, about the moment point of the predictions.
func derivativesOf(st *study.Study, c study.Configuration) (aero.Derivatives, error) {
	d := c.Derivatives
	if _, ok := d.ByControl[stability.Elevator]; !ok {
		return d, &study.InputError{What: "program.toml: no surface has a hinge that moves the elevator, so that nothing trims the model", Right: `add hinges = [{ control = "elevator", ... }] to the foreplane`}
	}
	if d.ByControl["aileron"].Roll <= 0 {
		return d, &study.InputError{What: "program.toml: no surface has a hinge that moves the aileron, so that the simulated pilot cannot hold the wings level", Right: `add hinges = [{ control = "aileron", ... }] to the wing`}
	}
	d = withMeasured(d, st, c.Name)
	var b belief
	b.NeutralPoint, b.neutralPointSD = believed(st, c.Name, evidence.NeutralPoint, c.NeutralPoint)
	b.LiftSlope, b.liftSlopeSD = believed(st, c.Name, evidence.LiftCurveSlope, c.LiftSlope)
	b.TrimRate, b.trimRateSD = believed(st, c.Name, evidence.ElevatorTrimRate, c.ElevatorTrimRate)
	if math.IsNaN(b.TrimRate) || b.TrimRate >= 0 {
		return d, fmt.Errorf("%s: the elevator does not trim, so that nothing can be rehearsed", c.Name)
	}
	stiffness, _ := believed(st, c.Name, evidence.DirectionalStiffness, c.DirectionalStiffness)
	b.MoreStiffness = stiffness - stability.Moved(d, c.StiffnessCG, d.MomentZ).ByBeta.Yaw
	b = b.withLines(linesOf(pointsOf(st, c.Name)), b.Of(d).ByControl[stability.Elevator].Lift)
	return b.Of(d), nil
}

// withMeasured puts what flights say of the other derivatives of a configuration in the place of the lattice's, each about the CG that it is stated
// about: the anchored belief where flights of this configuration are in it, else what these measured, weak or not, else the belief that others
// give. A model that swings otherwise than those already flown would look like scatter between flights.
func withMeasured(d aero.Derivatives, st *study.Study, configuration string) aero.Derivatives {
	x, z := d.MomentPoint, d.MomentZ
	seen := map[string]bool{}
	for _, usable := range []func(evidence.Estimate) bool{
		func(e evidence.Estimate) bool { return e.Origin == evidence.Anchored && len(e.Flights) > 0 },
		func(e evidence.Estimate) bool {
			return e.Origin == evidence.Measured && e.State != evidence.NotDetermined && e.SDOwn != nil && *e.SDOwn < vagueShare*math.Abs(*e.Value)
		},
		func(e evidence.Estimate) bool { return e.Origin == evidence.Anchored },
	} {
		for _, e := range st.Estimates { // of several roads, what all say together comes first
			if e.Scale != evidence.ModelScale || e.Configuration != configuration || e.Value == nil || e.At.CG == nil || seen[e.Quantity] || !usable(e) {
				continue
			}
			seen[e.Quantity] = true
			moved := stability.Moved(d, *e.At.CG, z) // has a map of its own
			if put(&moved, e.Quantity, *e.Value) {
				d = stability.Moved(moved, x, z)
			}
		}
	}
	return d
}

// put sets one derivative. Rudder power is stated for one of two rudders. Those that Shape sets are left alone.
func put(d *aero.Derivatives, quantity string, v float64) bool {
	aileron, rudder := d.ByControl["aileron"], d.ByControl["rudder"]
	switch quantity {
	case identify.PitchDamping:
		d.ByPitchRate.Pitch = v
	case identify.SideForceSlope:
		d.ByBeta.Side = v
	case identify.DihedralEffect:
		d.ByBeta.Roll = v
	case identify.RollDamping:
		d.ByRollRate.Roll = v
	case identify.YawDueToRoll:
		d.ByRollRate.Yaw = v
	case identify.RollDueToYaw:
		d.ByYawRate.Roll = v
	case identify.YawDamping:
		d.ByYawRate.Yaw = v
	case identify.AileronPower:
		aileron.Roll = v
	case identify.YawByAileron:
		aileron.Yaw = v
	case identify.RudderPower:
		rudder.Yaw = 2 * v
	case identify.RollByRudder:
		rudder.Roll = 2 * v
	case identify.SideForceByRudder:
		rudder.Side = 2 * v
	default:
		return false
	}
	d.ByControl["aileron"] = aileron
	if _, ok := d.ByControl["rudder"]; ok {
		d.ByControl["rudder"] = rudder
	}
	return true
}
