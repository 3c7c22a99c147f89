package aerofoil

import "math"

// LaminarFriction is the mean friction coefficient of one side of a flat plate with a laminar boundary
// layer, 1.328/√R, with the Reynolds number R of its length; NaN unless R is positive.
//
// Source: H. Blasius, Grenzschichten in Flüssigkeiten mit kleiner Reibung, 1908.
func LaminarFriction(reynolds float64) float64 {
	if !(reynolds > 0) {
		return math.NaN()
	}
	return 1.328 / math.Sqrt(reynolds)
}

// lowestTurbulent lies just below the Reynolds number, 1.2e4, where the two laws of friction cross.
const lowestTurbulent = 1e4

// TurbulentFriction is the mean friction coefficient of one side of a smooth flat plate whose boundary
// layer is turbulent from the leading edge, 0.455/(log₁₀ R)^2.58; NaN unless the Reynolds number R is positive.
// Below R = 1.2e4, where this would fall under the laminar value, it is the laminar value.
// The law was fitted from 5e5 to 1e9; below that a turbulent layer needs a trip.
//
// Source: the Prandtl–Schlichting formula of 1932, in H. Schlichting, Boundary-Layer Theory, chapter XXI.
func TurbulentFriction(reynolds float64) float64 {
	laminar := LaminarFriction(reynolds)
	if !(reynolds > lowestTurbulent) {
		return laminar
	}
	return math.Max(laminar, 0.455/math.Pow(math.Log10(reynolds), 2.58))
}

// Transition says where a boundary layer turns turbulent. The zero value is the leading edge.
type Transition struct {
	fraction float64
	reynolds float64 // 0 when fraction rules
}

// TransitionAt puts transition at a fraction of the chord, limited to 0 … 1, whatever the Reynolds number: a trip, or
// the end of a favourable pressure gradient.
func TransitionAt(fraction float64) Transition {
	return Transition{fraction: math.Min(math.Max(fraction, 0), 1)}
}

// TransitionAtReynolds puts transition where the Reynolds number of the distance from the leading edge
// reaches the given one, as on a smooth plate at 5e5 to 3e6; a plate that ends before stays laminar. What is
// not positive means the leading edge.
func TransitionAtReynolds(reynolds float64) Transition {
	return Transition{reynolds: math.Max(reynolds, 0)}
}

// Fraction is where the layer turns turbulent at a Reynolds number of the chord, fraction of the chord.
func (t Transition) Fraction(reynolds float64) float64 {
	if t.reynolds > 0 {
		return math.Min(1, t.reynolds/reynolds)
	}
	return t.fraction
}

// Friction is the mean friction coefficient of one side of a flat plate that is laminar up to transition
// and turbulent behind it; NaN unless the Reynolds number is positive.
//
// The turbulent layer counts as if it had begun at the leading edge, less its own friction ahead of transition:
//
//	cf(R) = cf_turbulent(R) − x (cf_turbulent(x R) − cf_laminar(x R)), x the chord fraction of transition
//
// Source: L. Prandtl, Über den Reibungswiderstand strömender Luft, 1927, as in Schlichting, Boundary-Layer
// Theory, chapter XXI.
func Friction(reynolds float64, transition Transition) float64 {
	turbulent := TurbulentFriction(reynolds)
	x := transition.Fraction(reynolds)
	if !(x > 0) {
		return turbulent
	}
	return turbulent - x*(TurbulentFriction(x*reynolds)-LaminarFriction(x*reynolds))
}
