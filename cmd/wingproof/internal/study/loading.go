package study

import "wingproof/cmd/wingproof/internal/program"

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

// loadedCGSD is the standard deviation of that station [m]: the empty CG counts by its share of the mass,
// the empty mass by its arm to the loaded CG.
func loadedCGSD(f program.FullSize, l program.Loading) float64 {
	mass, x := LoadedCG(f, l)
	byStation := f.EmptyMass.Value / mass * f.EmptyX.SD
	byMass := (f.EmptyX.Value - x) / mass * f.EmptyMass.SD
	return hypot(byStation, byMass)
}

// flyingLoadings lists the loadings that fly, in the order of the file.
func flyingLoadings(p *program.Program) []program.Loading {
	var flying []program.Loading
	for _, l := range p.Loadings {
		if l.Flies {
			flying = append(flying, l)
		}
	}
	return flying
}

// referenceCG is the station about which moments are predicted: the mean of the CGs flown, else of the
// loadings that fly. ok is false when the folder knows neither.
func referenceCG(p *program.Program) (x float64, ok bool) {
	var sum float64
	var n int
	for _, f := range p.Flights {
		if f.Use && f.CG != 0 {
			sum += f.CG
			n++
		}
	}
	if n == 0 && p.FullSize.EmptyMass.Value > 0 {
		for _, l := range flyingLoadings(p) {
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

// aftmostLoading is the CG of the flying loading that lies furthest aft; false without loadings.
func aftmostLoading(p *program.Program) (x float64, ok bool) {
	if p.FullSize.EmptyMass.Value <= 0 {
		return 0, false
	}
	for i, l := range flyingLoadings(p) {
		if _, cg := LoadedCG(p.FullSize, l); i == 0 || cg > x {
			x, ok = cg, true
		}
	}
	return x, ok
}
