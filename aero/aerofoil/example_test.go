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

func ExampleParseNACA() {
	for _, name := range []string{"NACA 23012", "23112"} {
		section, err := aerofoil.ParseNACA(name)
		if err != nil {
			fmt.Println(err)
			return
		}
		thin := aerofoil.ThinAerofoil(section.Line)
		fmt.Printf("%s: zero lift at %.2f°, moment %+.3f\n", section.Name, thin.ZeroLiftAlpha*180/math.Pi, thin.QuarterChordMoment)
	}
	// Output:
	// NACA 23012: zero lift at -1.09°, moment -0.013
	// NACA 23112: zero lift at -0.75°, moment +0.001
}

// What does a taller winglet cost in profile drag? The wing's share, and its error, cancel.
func ExampleStripDrag() {
	wing := aerofoil.Strip{Surface: "wing", Area: 8, Chord: 1, Reynolds: 3e6, Thickness: 0.15, Transition: aerofoil.TransitionAt(0.3)}
	winglet := aerofoil.Strip{Surface: "winglet", Area: 0.4, Chord: 0.4, Reynolds: 1.2e6, Thickness: 0.12, Transition: aerofoil.TransitionAt(0.3)}
	taller := winglet
	taller.Area = 0.7
	small, err := aerofoil.StripDrag([]aerofoil.Strip{wing, winglet})
	if err != nil {
		fmt.Println(err)
		return
	}
	tall, err := aerofoil.StripDrag([]aerofoil.Strip{wing, taller})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("small winglet: %.4f ± %.4f m²\n", small.Drag, small.Deviation)
	more, deviation := tall.Minus(small)
	fmt.Printf("tall winglet: %.4f ± %.4f m² more\n", more, deviation)
	// Output:
	// small winglet: 0.0613 ± 0.0061 m²
	// tall winglet: 0.0025 ± 0.0003 m² more
}

func ExamplePolar_MaxLift() {
	polar, err := aerofoil.NewPolar([]aerofoil.PolarRow{ // invented
		{Reynolds: 4e5, State: aerofoil.Clean, MaxLift: 1.25, ProfileDrag: 0.011, Source: "invented"},
		{Reynolds: 1.6e6, State: aerofoil.Clean, MaxLift: 1.45, ProfileDrag: 0.008, Source: "invented"},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, reynolds := range []float64{2e5, 8e5} {
		value, inside, err := polar.MaxLift(reynolds, 0, aerofoil.Clean)
		fmt.Printf("%.2f inside: %t %v\n", value, inside, err)
	}
	_, _, err = polar.MaxLift(8e5, 0, aerofoil.Contaminated)
	fmt.Println(err)
	// Output:
	// 1.25 inside: false <nil>
	// 1.35 inside: true <nil>
	// polar: there are no rows for the state "contaminated", only for clean; add rows for it
}
