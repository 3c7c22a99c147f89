package body_test

import (
	"fmt"

	"wingproof/aero"
	"wingproof/aero/body"
)

// An invented pusher: a pod of 4.6 m with the foreplane on its nose and the wing root at its stern. The
// flow ahead of the wing is 1.1 here; a lattice would give it at every x.
func Example() {
	b, err := body.New([]body.Station{
		{X: 0}, {X: 0.6, Width: 0.5, Height: 0.5, Z: 0.05}, {X: 1.8, Width: 1.0, Height: 1.1, Z: 0.2},
		{X: 3.2, Width: 1.0, Height: 1.1, Z: 0.2}, {X: 4.4, Width: 0.4, Height: 0.5, Z: 0.15}, {X: 4.6, Z: 0.15},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	upwash := func(float64) float64 { return 1.1 }
	nose, err := body.WithRoot(body.Root{LeadingEdge: 0.35, TrailingEdge: 0.75}, upwash)
	if err != nil {
		fmt.Println(err)
		return
	}
	flow, err := body.WithWing(body.Root{LeadingEdge: 2.4, TrailingEdge: 4.5}, 4.6, nose)
	if err != nil {
		fmt.Println(err)
		return
	}
	d := aero.Derivatives{
		Reference: aero.Reference{Area: 9, Span: 8.6, MeanChord: 1.1},
		ByAlpha:   aero.Coefficients{Lift: 5, Pitch: -0.8}, ByBeta: aero.Coefficients{Yaw: 0.09},
	}
	effect := b.Effect(flow, nil)
	shift, deviation := body.NeutralPointShift(d, effect)
	corrected := body.Correct(d, effect)
	fmt.Printf("volume %.2f m³, fineness %.1f\n", b.Volume(), b.Fineness())
	fmt.Printf("neutral point %+.0f mm, one standard deviation %.0f mm\n", 1000*shift, 1000*deviation)
	fmt.Printf("Cm_α %.3f, with the body %.3f\n", d.ByAlpha.Pitch, corrected.ByAlpha.Pitch)
	fmt.Printf("Cn_β %.3f, with the body %.3f\n", d.ByBeta.Yaw, corrected.ByBeta.Yaw)
	// Output:
	// volume 2.40 m³, fineness 4.4
	// neutral point -39 mm, one standard deviation 10 mm
	// Cm_α -0.800, with the body -0.623
	// Cn_β 0.090, with the body 0.035
}
