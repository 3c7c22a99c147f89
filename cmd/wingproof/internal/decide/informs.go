package decide

import "wingproof/cmd/wingproof/internal/evidence"

// readFromFlights tells whether this program reads evidence on a quantity out of flights: neutral point and
// elevator trim rate from trim slopes over the CG, lift-curve slope, greatest lift, directional stiffness and zero-lift drag from direct fits,
// the other derivatives from input manoeuvres. Only
// on these may the board ask for a flight. Whoever teaches the reduction another quantity adds it here.
func readFromFlights(quantity string) bool {
	switch quantity {
	case evidence.NeutralPoint, evidence.ElevatorTrimRate, evidence.LiftCurveSlope, evidence.MaxLift, evidence.DirectionalStiffness, evidence.ZeroLiftDrag,
		evidence.PitchDamping, evidence.SideForceSlope, evidence.DihedralEffect, evidence.RollDamping, evidence.YawDamping,
		evidence.YawDueToRoll, evidence.RollDueToYaw:
		return true
	default:
		return false
	}
}
