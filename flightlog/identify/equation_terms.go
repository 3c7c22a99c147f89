package identify

import (
	"fmt"

	"wingproof/flightlog"
)

// regressor is one regressor of an axis.
type regressor struct {
	control flightlog.Quantity // when it is a surface
	words   string             // as a crew calls it
	rate    bool               // a rate of the body: its derivatives are damping, which a servo's lag counterfeits
	usual   float64            // size of it in an input manoeuvre, in the units of the regressor; common practice, no source
}

// axisTerms are the regressors of an axis, in the order of columns.
func axisTerms(axis Axis) []regressor {
	if axis == Longitudinal {
		return []regressor{
			{words: "the angle of attack", usual: 0.03},
			{words: "the pitch rate", rate: true, usual: 0.003},
			{words: "the elevator", control: flightlog.Elevator, usual: 0.04},
		}
	}
	return []regressor{
		{words: "the sideslip", usual: 0.05},
		{words: "the roll rate", rate: true, usual: 0.02},
		{words: "the yaw rate", rate: true, usual: 0.015},
		{words: "the ailerons", control: flightlog.Aileron, usual: 0.06},
		{words: "the rudder", control: flightlog.RudderLeft, usual: 0.12},
	}
}

// explained is one coefficient that is regressed.
type explained struct {
	name    string    // of the signal in a history
	names   []string  // of the derivatives, in the order of the terms
	usual   []float64 // size that these derivatives have on light aircraft, per radian; from memory
	moment  bool
	inertia []string // which must have been measured
}

// axisResponses are what an axis explains.
func axisResponses(axis Axis) []explained {
	if axis == Longitudinal {
		return []explained{
			{name: "lift_coefficient", names: []string{LiftCurveSlope, LiftByPitchRate, ElevatorLift}, usual: []float64{4.5, 4, 0.4}},
			{name: "pitching_moment_coefficient", names: []string{PitchStiffness, PitchDamping, ElevatorPower}, usual: []float64{0.5, 10, 1},
				moment: true, inertia: []string{"pitch"}},
		}
	}
	return []explained{
		{name: "side_force_coefficient", names: []string{SideForceSlope, SideForceByRollRate, SideForceByYawRate, SideForceByAileron, SideForceByRudder},
			usual: []float64{0.5, 0.1, 0.25, 0.05, 0.15}},
		{name: "rolling_moment_coefficient", names: []string{DihedralEffect, RollDamping, RollDueToYaw, AileronPower, RollByRudder},
			usual: []float64{0.08, 0.45, 0.12, 0.15, 0.015}, moment: true, inertia: []string{"roll", "yaw"}},
		{name: "yawing_moment_coefficient", names: []string{DirectionalStiff, YawDueToRoll, YawDamping, YawByAileron, RudderPower},
			usual: []float64{0.06, 0.05, 0.13, 0.01, 0.06}, moment: true, inertia: []string{"roll", "yaw"}},
	}
}

func checkAxis(axis Axis) error {
	if axis != Longitudinal && axis != Lateral {
		return fmt.Errorf("identify: axis %q; write %s or %s", axis, Longitudinal, Lateral)
	}
	return nil
}
