package estimate

import (
	"maps"
	"math"
	"slices"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/flightlog/identify"
)

// Derivatives without which a half of the motion cannot be computed, and those that matter little and count as zero when nobody gave them.
func neededAlong() []string {
	return []string{identify.LiftCurveSlope, identify.PitchStiffness, identify.PitchDamping}
}

func helpfulAlong() []string { return []string{identify.LiftByPitchRate} }

func neededAcross() []string {
	return []string{identify.SideForceSlope, identify.DihedralEffect, identify.RollDamping, identify.RollDueToYaw,
		identify.DirectionalStiff, identify.YawDueToRoll, identify.YawDamping}
}

func helpfulAcross() []string {
	return []string{identify.SideForceByRollRate, identify.SideForceByYawRate}
}

// modeState is one set of numbers from which the motions follow: as reported, or with errors added.
type modeState struct {
	values   []float64 // in the order of ModeInput.Derivatives
	aircraft ModeAircraft
}

func (in ModeInput) reported() modeState {
	s := modeState{values: make([]float64, len(in.Derivatives)), aircraft: in.Aircraft}
	for i, d := range in.Derivatives {
		s.values[i] = d.Value
	}
	return s
}

// sources lists every shared source in order.
func (in ModeInput) sources() []string {
	names := map[string]bool{}
	e := in.Aircraft.Errors
	all := []map[string]float64{e.Mass, e.InertiaX, e.InertiaY, e.InertiaZ, e.Speed, e.Density, e.CG, e.Alpha, e.Drag}
	for _, d := range in.Derivatives {
		all = append(all, d.Common)
	}
	for _, m := range all {
		for name, v := range m {
			if v != 0 {
				names[name] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(names))
}

// withSource moves one shared source by a number of its standard deviations: every derivative and every figure of the aircraft that it touches.
func (in ModeInput) withSource(s modeState, name string, by float64) modeState {
	out := modeState{values: slices.Clone(s.values), aircraft: s.aircraft}
	touch := in.touchOf(name)
	touch.move(&out, by)
	return out
}

// sourceTouch is what one standard deviation of a shared source does to each derivative, and to the figures of the aircraft, relative but for
// CG, angle of attack and drag. Looked up once, for thousands of draws.
type sourceTouch struct {
	values                           []float64
	mass, ix, iy, iz, speed, density float64
	cg, alpha, drag                  float64
}

func (in ModeInput) touchOf(name string) sourceTouch {
	e := in.Aircraft.Errors
	out := sourceTouch{
		mass: e.Mass[name], ix: e.InertiaX[name], iy: e.InertiaY[name], iz: e.InertiaZ[name], speed: e.Speed[name], density: e.Density[name],
		cg: e.CG[name], alpha: e.Alpha[name], drag: e.Drag[name],
	}
	for _, d := range in.Derivatives {
		out.values = append(out.values, d.Common[name])
	}
	return out
}

// move changes a state by a number of standard deviations.
func (e *sourceTouch) move(s *modeState, by float64) {
	for i, v := range e.values {
		s.values[i] += by * v
	}
	a := &s.aircraft
	a.Body.Mass *= 1 + by*e.mass
	a.Body.Ix *= 1 + by*e.ix
	a.Body.Iy *= 1 + by*e.iy
	a.Body.Iz *= 1 + by*e.iz
	a.Speed *= 1 + by*e.speed
	a.Density *= 1 + by*e.density
	a.CGX += by * e.cg
	a.Alpha += by * e.alpha
	a.Drag += by * e.drag
}

// lift is the coefficient of level flight.
func (a ModeAircraft) lift() float64 {
	return 2 * a.Body.Mass * atmosphere.Gravity / (a.Density * a.Speed * a.Speed * a.Reference.Area)
}

// derivatives are those of a state about the CG of the aircraft that moves.
func (in ModeInput) derivatives(s modeState) aero.Derivatives {
	v := map[string]float64{}
	for i, d := range in.Derivatives {
		v[d.Quantity] = s.values[i]
	}
	a := s.aircraft
	in.steady(v)
	scale := in.Aircraft.Reference.MeanChord / in.Reference.MeanChord
	d := aero.Derivatives{
		Reference: a.Reference, MomentPoint: in.MomentX * scale, MomentZ: in.MomentZ * scale, Alpha: a.Alpha,
		At:          aero.Coefficients{Lift: a.lift(), Drag: a.Drag},
		ByAlpha:     aero.Coefficients{Lift: v[identify.LiftCurveSlope], Drag: a.DragByAlpha, Pitch: v[identify.PitchStiffness]},
		ByPitchRate: aero.Coefficients{Lift: v[identify.LiftByPitchRate], Pitch: v[identify.PitchDamping]},
		ByBeta:      aero.Coefficients{Side: v[identify.SideForceSlope], Roll: v[identify.DihedralEffect], Yaw: v[identify.DirectionalStiff]},
		ByRollRate:  aero.Coefficients{Side: v[identify.SideForceByRollRate], Roll: v[identify.RollDamping], Yaw: v[identify.YawDueToRoll]},
		ByYawRate:   aero.Coefficients{Side: v[identify.SideForceByYawRate], Roll: v[identify.RollDueToYaw], Yaw: v[identify.YawDamping]},
	}
	return stability.Moved(d, a.CGX, a.CGZ)
}

// steady takes out of what a manoeuvre shows what Cm_α̇ added there; see package identify.
func (in ModeInput) steady(v map[string]float64) {
	rate := v[identify.PitchByAlphaRate]
	if rate == 0 || !(in.Mass > 0 && in.Density > 0) {
		return
	}
	kappa := in.Density * in.Reference.Area * in.Reference.MeanChord / (4 * in.Mass)
	v[identify.PitchStiffness] += kappa * v[identify.LiftCurveSlope] * rate
	v[identify.PitchDamping] -= (1 - kappa*v[identify.LiftByPitchRate]) * rate
}

// along and across give the two halves of the motion of a state.
func (in ModeInput) along(s modeState) (stability.Modes, error) {
	return stability.LongitudinalModes(in.derivatives(s), s.aircraft.Body, in.condition(s))
}

func (in ModeInput) across(s modeState) (stability.Modes, error) {
	return stability.LateralModes(in.derivatives(s), s.aircraft.Body, in.condition(s))
}

func (in ModeInput) condition(s modeState) stability.Condition {
	out := stability.Condition{Density: s.aircraft.Density, Speed: s.aircraft.Speed, Gravity: atmosphere.Gravity * math.Cos(s.aircraft.Bank)}
	if i := slices.IndexFunc(in.Derivatives, func(d ModeDerivative) bool { return d.Quantity == identify.PitchByAlphaRate }); i >= 0 && in.Mass > 0 && in.Density > 0 {
		out.AlphaRate.Pitch = s.values[i]
	}
	return out
}
