package aerofoil

import (
	"math"

	"wingproof/aero"
)

// thinSteps is the number of midpoint steps of θ in the integrals below; 4000 give seven figures even
// across the jump of curvature of a four-digit mean line.
const thinSteps = 4000

// Thin holds what thin-aerofoil theory says about a mean line.
type Thin struct {
	ZeroLiftAlpha      float64 // angle of attack of the chord at zero lift, rad
	QuarterChordMoment float64 // moment coefficient about the quarter chord, nose up positive
	LiftAtZero         float64 // lift coefficient at zero angle of attack
	IdealAlpha         float64 // angle of attack at which the flow meets the leading edge smoothly, rad
	IdealLift          float64 // lift coefficient there
}

// ThinAerofoil integrates the slope of a mean line; nil is a flat plate.
//
// With x = (1 − cos θ)/2 and A_n = (2/π) ∫ z′ cos nθ dθ over 0…π (half of it for n = 0),
//
//	α_L0 = A0 − A1/2,  cm_c/4 = π/4 (A2 − A1),  α_ideal = A0,  cl_ideal = π A1
//
// Source: H. Glauert, The Elements of Aerofoil and Airscrew Theory, chapter 7.
func ThinAerofoil(line aero.MeanLine) Thin {
	if line == nil {
		return Thin{}
	}
	var a [3]float64
	for i := range thinSteps {
		theta := (float64(i) + 0.5) * math.Pi / thinSteps
		slope := line.Slope((1 - math.Cos(theta)) / 2)
		for n := range a {
			a[n] += 2 * slope * math.Cos(float64(n)*theta) / thinSteps
		}
	}
	a[0] /= 2
	zero := a[0] - a[1]/2
	return Thin{
		ZeroLiftAlpha:      zero,
		QuarterChordMoment: math.Pi / 4 * (a[2] - a[1]),
		LiftAtZero:         -2 * math.Pi * zero,
		IdealAlpha:         a[0],
		IdealLift:          math.Pi * a[1],
	}
}
