package demo

import (
	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/flightlog/identify"
)

// longitudinalOf lists what doublets of the elevator should find, by quantity.
func longitudinalOf(d aero.Derivatives) map[string]float64 {
	elevator := d.ByControl[stability.Elevator]
	return map[string]float64{
		identify.LiftCurveSlope: d.ByAlpha.Lift, identify.LiftByPitchRate: d.ByPitchRate.Lift, identify.ElevatorLift: elevator.Lift,
		identify.PitchStiffness: d.ByAlpha.Pitch, identify.PitchDamping: d.ByPitchRate.Pitch, identify.ElevatorPower: elevator.Pitch,
	}
}

// lateralOf lists what doublets of aileron and rudder should find. The power of the rudder is that of one of two.
func lateralOf(d aero.Derivatives) map[string]float64 {
	aileron, rudder := d.ByControl["aileron"], d.ByControl["rudder"].Times(0.5)
	return map[string]float64{
		identify.SideForceSlope: d.ByBeta.Side, identify.DihedralEffect: d.ByBeta.Roll, identify.DirectionalStiff: d.ByBeta.Yaw,
		identify.SideForceByRollRate: d.ByRollRate.Side, identify.RollDamping: d.ByRollRate.Roll, identify.YawDueToRoll: d.ByRollRate.Yaw,
		identify.SideForceByYawRate: d.ByYawRate.Side, identify.RollDueToYaw: d.ByYawRate.Roll, identify.YawDamping: d.ByYawRate.Yaw,
		identify.SideForceByAileron: aileron.Side, identify.AileronPower: aileron.Roll, identify.YawByAileron: aileron.Yaw,
		identify.SideForceByRudder: rudder.Side, identify.RollByRudder: rudder.Roll, identify.RudderPower: rudder.Yaw,
	}
}
