package prediction

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/program"
)

// TrimmedElevator is the elevator [rad] that trims a solved airframe at a lift coefficient about another CG [m aft of datum], fuselage
// included. Deflections are not limited to any travel.
func TrimmedElevator(a *Analysis, s Setup, lift, cg float64) (float64, error) {
	r := a.Solution.Reference()
	state, err := a.Solution.Balanced(lattice.Balance{
		Lift: lift, Control: s.elevator(), MomentPoint: r3.Vec{X: cg, Y: s.CG.Y, Z: s.CG.Z}, MomentSlope: a.Body.Pitch / (r.Area * r.MeanChord),
	})
	return state.Controls[s.elevator()], err
}

// Approach is the lift coefficient and the CG [m aft of datum] of the foremost loading that flies at the approach speed: the
// state in which most elevator is needed. ok is false when the program states no approach speed, no empty weight or no such loading.
func Approach(p *program.Program, area float64) (lift, cg float64, ok bool) {
	v := p.FullSize.ApproachSpeed
	if _, _, ok = LoadedRange(p); !ok || !(v > 0 && area > 0) {
		return 0, 0, false
	}
	at, _, _ := loadedExtremes(p, 0)
	return 2 * at.mass * atmosphere.Gravity / (atmosphere.SeaLevelDensity * v * v * area), at.x, true
}

// ZeroLiftElevator is δ0 in δ = δ0 + rate·(CG − NP)·CL, the elevator [rad] that trims. It is what the lattice needs in trim at a lift
// coefficient and a CG, less what rate and neutral point say of it there, so that the line touches the lattice where it is judged. On the way
// to no lift the lattice's own curvature departs from the line, by about a degree on the invented aircraft of the demo.
//
// It is NaN when the airframe is not trimmed by an elevator.
func ZeroLiftElevator(a *Analysis, s Setup, neutralPoint, rate, lift, cg float64) (float64, error) {
	if !a.Trimmed {
		return math.NaN(), nil
	}
	there, err := TrimmedElevator(a, s, lift, cg)
	return there - rate*(cg-neutralPoint)*lift, err
}

// NoseUpStop is the travel of the elevator [rad] that raises the nose: trailing edge down on a foreplane, up on a surface behind the CG. ok is
// false when no hinge states it.
func NoseUpStop(airframe aero.Airframe, s Setup) (stop float64, ok bool) {
	return noseUpStop(airframe, s.elevator())
}
