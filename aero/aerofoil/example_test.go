package aerofoil_test

import (
	"fmt"
	"math"

	"wingproof/aero/aerofoil"
)

func ExampleThinAerofoil() {
	section, err := aerofoil.Named("NACA 2412")
	if err != nil {
		fmt.Println(err)
		return
	}
	thin := aerofoil.ThinAerofoil(section.Line)
	fmt.Printf("zero lift at %.2f°, moment %.3f\n", thin.ZeroLiftAlpha*180/math.Pi, thin.QuarterChordMoment)
	// Output: zero lift at -2.08°, moment -0.053
}
