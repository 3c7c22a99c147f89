package decide

import (
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
)

// state is one draw of all that a requirement rests on, or its stated values.
type state struct {
	beliefs []float64 // full size, in the order of the requirement's beliefs
	cg      empty     // loaded
	inertia [3]float64
}

// evaluator is a judged quantity at one loading, given by its place among the requirement's loadings.
type evaluator func(loading int, x *state) float64

// Standard sea level, to which equivalent airspeeds refer (U.S. Standard Atmosphere, 1976).
const (
	gravity         = 9.80665 // m/s²
	seaLevelDensity = 1.225   // kg/m³
)

// endless is the time in s that stands for a spiral which does not diverge, and the speed in m/s for one that is never reached.
const endless = 1000.0

// evaluator of a requirement in one configuration, whose nose-up stop of the elevator [rad] and whose response surfaces of
// motions, by loading, are given. Static margin is in percent of the mean chord, fuel travel is the CG
// station itself: the travel between loadings is taken by the caller.
func (r requirement) evaluator(a Aircraft, stop float64, surfaces []*surface) evaluator {
	switch r.Quantity {
	case evidence.StaticMargin:
		return func(_ int, x *state) float64 { return 100 * (x.beliefs[0] - x.cg.x) / a.MeanChord }
	case evidence.StallingSpeed:
		return func(_ int, x *state) float64 { return speedAt(x.cg.mass, a.WingArea, x.beliefs[0]) }
	case evidence.RotationSpeed:
		return func(_ int, x *state) float64 { return a.rotation(x.cg, x.beliefs[0]) }
	case evidence.ElevatorRoom:
		up := math.Copysign(1, stop) // trailing edge down on a foreplane, up on a tail
		return func(_ int, x *state) float64 { return up * (stop - a.trimElevator(x)) }
	case evidence.TipBackAngle:
		return func(_ int, x *state) float64 { return a.Gear.tipBack(x.cg) }
	case evidence.NoseGearShare:
		return func(_ int, x *state) float64 { return a.Gear.noseShare(x.cg) }
	case evidence.OverturnAngle:
		return func(_ int, x *state) float64 { return a.Gear.overturn(x.cg) }
	case evidence.FuelTravel:
		return func(_ int, x *state) float64 { return x.cg.x }
	}
	if r.kind() == restsOnMotion {
		return func(loading int, x *state) float64 { return surfaces[loading].at(r.Quantity, x) }
	}
	return func(_ int, x *state) float64 { return x.beliefs[0] }
}

// speedAt is the equivalent airspeed [m/s] at which a lift coefficient carries a mass: √(2·m·g/(ρ0·S·CL)).
func speedAt(mass, area, lift float64) float64 {
	if !(lift > 0) {
		return endless
	}
	return math.Min(endless, math.Sqrt(2*mass*gravity/(seaLevelDensity*area*lift)))
}

// rotation is the equivalent airspeed [m/s] at which the moment about the main wheels lifts the nose:
// ½·ρ0·V²·S·c·Cm = m·g·(main − CG). Zero when the CG lies behind the wheels.
func (a Aircraft) rotation(cg empty, moment float64) float64 {
	arm := math.Max(0, a.Gear.MainX-cg.x)
	if !(moment > 0) {
		return endless
	}
	return math.Min(endless, math.Sqrt(2*cg.mass*gravity*arm/(seaLevelDensity*a.WingArea*a.MeanChord*moment)))
}

// trimElevator is the elevator [rad] that trims at the approach speed: δ0 + rate·(CG − NP)·CL, from beliefs in the order
// neutral point, trim rate, zero-lift elevator.
func (a Aircraft) trimElevator(x *state) float64 {
	lift := 2 * x.cg.mass * gravity / (seaLevelDensity * a.ApproachSpeed * a.ApproachSpeed * a.WingArea)
	return x.beliefs[2] + x.beliefs[1]*(x.cg.x-x.beliefs[0])*lift
}
