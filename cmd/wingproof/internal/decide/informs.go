package decide

import "wingproof/cmd/wingproof/internal/evidence"

// readFromFlights tells whether this program reads evidence on a quantity out of flights: neutral point and
// elevator trim rate from trim slopes over the CG, lift-curve slope, directional stiffness and zero-lift drag from direct fits. Only
// on these may the board ask for a flight. Whoever teaches the reduction another quantity adds it here.
func readFromFlights(quantity string) bool {
	switch quantity {
	case evidence.NeutralPoint, evidence.ElevatorTrimRate, evidence.LiftCurveSlope, evidence.DirectionalStiffness, evidence.ZeroLiftDrag:
		return true
	default:
		return false
	}
}
