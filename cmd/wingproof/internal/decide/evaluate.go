package decide

import (
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
)

// sample is all that a requirement rests on at one loading, in every draw: each list holds one number a draw. What is stated is a sample of
// one.
type sample struct {
	beliefs [][]float64 // full size, in the order of the requirement's beliefs
	loaded  loadedDraws
	inertia [3][]float64 // of motions only
}

// cg is mass and CG of one draw.
func (x *sample) cg(i int) empty { return empty{x.loaded.mass[i], x.loaded.x[i], x.loaded.z[i]} }

// evaluator writes a judged quantity at one loading, given by its place among the requirement's loadings, in every draw of a sample.
type evaluator func(loading int, x *sample, out []float64)

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
	if r.kind() == restsOnMotion {
		return func(loading int, x *sample, out []float64) { surfaces[loading].write(r.Quantity, x, out) }
	}
	value := r.formula(a, stop)
	return func(_ int, x *sample, out []float64) {
		for i := range out {
			out[i] = value(x, i)
		}
	}
}

// formula is a judged quantity that is no motion in one draw.
func (r requirement) formula(a Aircraft, stop float64) func(x *sample, i int) float64 {
	switch r.Quantity {
	case evidence.StaticMargin:
		return func(x *sample, i int) float64 { return 100 * (x.beliefs[0][i] - x.loaded.x[i]) / a.MeanChord }
	case evidence.StallingSpeed:
		return func(x *sample, i int) float64 { return speedAt(x.loaded.mass[i], a.WingArea, x.beliefs[0][i]) }
	case evidence.RotationSpeed:
		return func(x *sample, i int) float64 { return a.rotation(x.cg(i), x.beliefs[0][i]) }
	case evidence.ElevatorRoom:
		up := math.Copysign(1, stop) // trailing edge down on a foreplane, up on a tail
		return func(x *sample, i int) float64 { return up * (stop - a.trimElevator(x, i)) }
	case evidence.TipBackAngle:
		return func(x *sample, i int) float64 { return a.Gear.tipBack(x.cg(i)) }
	case evidence.NoseGearShare:
		return func(x *sample, i int) float64 { return a.Gear.noseShare(x.cg(i)) }
	case evidence.OverturnAngle:
		return func(x *sample, i int) float64 { return a.Gear.overturn(x.cg(i)) }
	case evidence.FuelTravel:
		return func(x *sample, i int) float64 { return x.loaded.x[i] }
	}
	return func(x *sample, i int) float64 { return x.beliefs[0][i] }
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

// trimElevator is the elevator [rad] that trims at the approach speed in one draw: δ0 + rate·(CG − NP)·CL, from beliefs in the order
// neutral point, trim rate, zero-lift elevator.
func (a Aircraft) trimElevator(x *sample, i int) float64 {
	lift := 2 * x.loaded.mass[i] * gravity / (seaLevelDensity * a.ApproachSpeed * a.ApproachSpeed * a.WingArea)
	return x.beliefs[2][i] + x.beliefs[1][i]*(x.loaded.x[i]-x.beliefs[0][i])*lift
}
