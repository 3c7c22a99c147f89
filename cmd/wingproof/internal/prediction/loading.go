package prediction

import (
	"math"

	"wingproof/cmd/wingproof/internal/program"
)

// LoadedCG returns mass [kg] and CG station [m aft of datum] of the empty aircraft with a loading.
func LoadedCG(f program.FullSize, l program.Loading) (mass, x float64) {
	mass = f.EmptyMass.Value
	moment := mass * f.EmptyX.Value
	for _, item := range l.Items {
		mass += item.Mass
		moment += item.Mass * item.X
	}
	return mass, moment / mass
}

// Names of the errors of the empty weight, which every loading and every configuration share.
const (
	SourceEmptyCG   = "empty_cg"
	SourceEmptyMass = "empty_mass"
)

// LoadedCGErrors is how that station [m] moves when the empty CG and the empty mass lie one standard deviation higher: the
// empty CG counts by its share of the mass, the empty mass by its arm to the loaded CG.
func LoadedCGErrors(f program.FullSize, l program.Loading) map[string]float64 {
	mass, x := LoadedCG(f, l)
	return map[string]float64{
		SourceEmptyCG:   f.EmptyMass.Value / mass * f.EmptyX.SD,
		SourceEmptyMass: (f.EmptyX.Value - x) / mass * f.EmptyMass.SD,
	}
}

// FlyingLoadings lists the loadings that fly, in the order of the file.
func FlyingLoadings(p *program.Program) []program.Loading {
	var flying []program.Loading
	for _, l := range p.Loadings {
		if l.Flies {
			flying = append(flying, l)
		}
	}
	return flying
}

// ReferenceCG is the station about which moments are predicted: the mean of the CGs flown, else of the
// loadings that fly. ok is false when the folder knows neither.
func ReferenceCG(p *program.Program) (x float64, ok bool) {
	var sum float64
	var n int
	for _, f := range p.Flights {
		if f.Use {
			sum += f.CG
			n++
		}
	}
	if n == 0 && p.FullSize.EmptyMass.Value > 0 {
		for _, l := range FlyingLoadings(p) {
			_, cg := LoadedCG(p.FullSize, l)
			sum += cg
			n++
		}
	}
	if n == 0 {
		return 0, false
	}
	return sum / float64(n), true
}

// LoadedRange gives the CGs of the flying loadings that lie furthest forward and furthest aft; false when no
// loading flies or the empty weight is not stated.
func LoadedRange(p *program.Program) (forward, aft float64, ok bool) {
	if p.FullSize.EmptyMass.Value <= 0 {
		return 0, 0, false
	}
	forward, aft = math.Inf(1), math.Inf(-1)
	for _, l := range FlyingLoadings(p) {
		_, cg := LoadedCG(p.FullSize, l)
		forward, aft, ok = math.Min(forward, cg), math.Max(aft, cg), true
	}
	return forward, aft, ok
}
