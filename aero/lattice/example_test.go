package lattice_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/lattice"
)

// A flat rectangular wing of aspect ratio 6.
func ExampleSolve() {
	station := func(y float64) aero.Station {
		return aero.Station{LeadingEdge: r3.Vec{Y: y}, TrailingEdge: r3.Vec{X: 1, Y: y}}
	}
	wing := aero.Surface{Name: "wing", Role: aero.RoleWing, Mirrored: true, Stations: []aero.Station{station(0), station(3)}}
	solution, err := lattice.Solve(aero.Airframe{Surfaces: []aero.Surface{wing}}, lattice.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	level := lattice.State{Alpha: 0.1}
	slope := solution.Derivatives(level, r3.Vec{}).ByAlpha.Lift
	fmt.Printf("lift curve slope %.1f per radian\n", slope)
	fmt.Printf("neutral point %.0f %% of the chord\n", 100*solution.NeutralPoint(level))
	fmt.Printf("span efficiency %.2f\n", solution.SpanEfficiency(level))
	// Output:
	// lift curve slope 4.2 per radian
	// neutral point 24 % of the chord
	// span efficiency 0.98
}
