package prediction

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

// stallAltitude is where full size stalls, m: stalls near the ground are the ones that matter, and section maxima change little with height.
const stallAltitude = 0

// scaled is one size of the aircraft in the air in which it stalls.
type scaled struct {
	size   string // evidence.ModelScale or evidence.FullSize
	ratio  float64
	weight func(full float64) float64 // mass [kg] of this size where full size has the given one
	air    atmosphere.State
}

// sizesOf are the model at the altitude of the field, ballasted to dynamic similarity, and full size at sea level, both in
// the standard atmosphere.
func sizesOf(p *program.Program) ([]scaled, error) {
	full, err := atmosphere.Standard(stallAltitude)
	if err != nil {
		return nil, err
	}
	sizes := []scaled{{size: evidence.FullSize, ratio: 1, weight: func(m float64) float64 { return m }, air: full}}
	if ratio := p.Model.LengthRatio; ratio > 0 {
		air, err := atmosphere.Standard(p.Model.TestAltitude)
		if err != nil {
			return nil, fmt.Errorf("altitude of the model's field: %w", err)
		}
		similar := ratio * ratio * ratio * air.Density / full.Density // NASA TP-1435: m scales with the cube of length and with density
		sizes = append([]scaled{{size: evidence.ModelScale, ratio: ratio, weight: func(m float64) float64 { return m * similar }, air: air}}, sizes...)
	}
	return sizes, nil
}

// leastLift bounds the speed at angles of attack with hardly any lift; nothing stalls there.
const leastLift = 0.2

// speed is the true airspeed, m/s, at which a lift coefficient carries a mass [kg, of this size] on an area [m², full size].
func (s scaled) speed(lift, mass, area float64) float64 {
	area *= s.ratio * s.ratio
	return math.Sqrt(2 * mass * atmosphere.Gravity / (s.air.Density * area * math.Max(lift, leastLift)))
}

// reynolds is that of a length [m, full size] at a speed of this size.
func (s scaled) reynolds(speed, length float64) float64 {
	return s.air.Density * speed * length * s.ratio / s.air.Viscosity
}

// loadedPoint is a flying loading with its mass [kg] and CG [m aft of datum].
type loadedPoint struct {
	name    string
	mass, x float64
}

// loadedExtremes are the flying loadings with the CG furthest forward and furthest aft; without an empty weight, the CG
// about which moments are predicted with the gross mass. what says in words what was put in place of what is missing.
func loadedExtremes(p *program.Program, x float64) (forward, aft loadedPoint, what string) {
	from, to, ok := LoadedRange(p)
	if !ok {
		at := loadedPoint{name: "gross mass", mass: p.FullSize.Mass.Value, x: x}
		return at, at, fmt.Sprintf("no loading that flies with an empty weight: one CG, %.3f m aft of datum, stands for the aft and the forward end; add [[loading]] and full_size.empty_mass_kg", x)
	}
	for _, l := range FlyingLoadings(p) {
		mass, cg := LoadedCG(p.FullSize, l)
		if cg == from && forward.name == "" {
			forward = loadedPoint{l.Name, mass, cg}
		}
		if cg == to && aft.name == "" {
			aft = loadedPoint{l.Name, mass, cg}
		}
	}
	return forward, aft, ""
}
