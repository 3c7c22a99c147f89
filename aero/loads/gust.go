package loads

import (
	"fmt"

	"wingproof/aero/atmosphere"
)

// Derived gust velocities, m/s, from sea level to 20,000 ft. Source: 14 CFR 23.333(c) as it stood before 2017, 50 and
// 25 ft/s, from memory.
const (
	CruiseGust = 50 * 0.3048 // at the design cruising speed
	DiveGust   = 25 * 0.3048 // at the design diving speed
)

// Gust is a vertical gust that is met at a speed.
type Gust struct {
	Name     string  // how a list names it, such as "at the cruising speed"
	Velocity float64 // derived gust velocity, equivalent, m/s, from below or from above alike
	Speed    float64 // equivalent airspeed, m/s
	Density  float64 // of the air there, kg/m³; 0 is sea level in the standard atmosphere
}

// density is that of the air, with its default.
func (g Gust) density() float64 {
	if g.Density == 0 {
		return atmosphere.SeaLevelDensity
	}
	return g.Density
}

// GustWing is what turns a gust into lift.
type GustWing struct {
	Area      float64 // reference area, m²
	MeanChord float64 // mean geometric chord, area over span, m; the longer mean aerodynamic chord gives less load
	LiftSlope float64 // of the whole aircraft, untrimmed, per rad
}

// GustMassRatio is μ = 2(m/S)/(ρ·c·a): the mass of the aircraft over that of the air that it has to move.
func GustMassRatio(w GustWing, mass, density float64) float64 {
	return 2 * mass / w.Area / (density * w.MeanChord * w.LiftSlope)
}

// GustAlleviation is K = 0.88·μ/(5.3 + μ): how much of a sharp-edged gust a rigid aircraft feels that begins to
// rise while the gust builds up over 12.5 chords and its lift lags behind.
//
// Source: 14 CFR 23.341(c), from memory.
func GustAlleviation(massRatio float64) float64 { return 0.88 * massRatio / (5.3 + massRatio) }

// GustLoadFactor gives the load factors in level flight through a gust from below and from above,
// 1 ± K·ρ0·U·V·a/(2·W/S), with W = m·g.
//
// A gust of true velocity u turns the wind at true speed v by u/v: it adds the lift ½ρv²·S·a·u/v = ½ρ·v·u·S·a.
// Equivalent velocities V = v·√(ρ/ρ0), U = u·√(ρ/ρ0) make that ½ρ0·V·U·S·a, and over the weight that is
// the load factor. The rule in American units has K·U·V·a/(498·W/S) with U in ft/s, V in knots, W/S in lb/ft²:
//
//	ρ0 = 0.0023769 slug/ft³,  1 kt = 1.68781 ft/s,  ½·0.0023769·1.68781 = 1/498.5
//
// so that the printed 498 is 0.1 % on the heavy side, and nothing else differs.
//
// Source: 14 CFR 23.341(c) and CS-23.341(c) as they stood before 2017, from memory. 23.341(b), from memory, lets a foreplane
// aircraft use it only when the loads are shown to be on the heavy side: foreplane and wing meet the gust one after the
// other, which the formula does not know.
//
// An error names the figure that does not fit.
func GustLoadFactor(g Gust, w GustWing, mass float64) (below, above float64, err error) {
	figures := []struct {
		name, unit string
		value      float64
	}{
		{"gust velocity", "m/s", g.Velocity}, {"speed", "m/s", g.Speed}, {"air density", "kg/m³", g.density()},
		{"reference area", "m²", w.Area}, {"mean chord", "m", w.MeanChord}, {"lift slope", "per rad", w.LiftSlope}, {"mass", "kg", mass},
	}
	for _, f := range figures {
		if !positive(f.value) {
			return 0, 0, fmt.Errorf("gust %s: the %s is %.4g %s; it has to be positive", g.Name, f.name, f.value, f.unit)
		}
	}
	k := GustAlleviation(GustMassRatio(w, mass, g.density()))
	step := k * atmosphere.SeaLevelDensity * g.Velocity * g.Speed * w.LiftSlope / (2 * mass * gravity / w.Area)
	return 1 + step, 1 - step, nil
}
