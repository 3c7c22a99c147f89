package estimate_test

import (
	"fmt"

	"wingproof/flightlog/estimate"
)

// Five flights at three CGs (invented figures): elevator in radians, trailing edge down positive, at three lift coefficients each.
func ExampleNeutralPoint() {
	var points []estimate.Point
	add := func(flight string, cg float64, elevator ...float64) {
		for i, e := range elevator {
			points = append(points, estimate.Point{Flight: flight, CG: cg, Lift: 0.4 + 0.2*float64(i), Elevator: e, Power: "level"})
		}
	}
	add("1", 2.30, 0.070, 0.111, 0.149)
	add("2", 2.30, 0.074, 0.113, 0.155)
	add("3", 2.36, 0.052, 0.080, 0.107)
	add("4", 2.42, 0.041, 0.057, 0.072)
	add("5", 2.42, 0.037, 0.053, 0.070)

	r, slopes := estimate.NeutralPoint(points, estimate.Systematics{CG: 0.003}, nil)
	fmt.Printf("%s: %.4f m, 95 %% from %.4f to %.4f m, %g degrees of freedom\n", r.State, *r.Value, *r.Low, *r.High, r.Degrees)
	for i, cg := range slopes.CG {
		fmt.Printf("CG %.2f m: %.4f rad per unit CL\n", cg, slopes.Slope[i])
	}
	margin := estimate.StaticMargin(r, 2.38, 0.9)
	fmt.Printf("static margin at 2.38 m: %.1f %%\n", *margin.Value)
	// Output:
	// determined: 2.4995 m, 95 % from 2.4865 to 2.5143 m, 3 degrees of freedom
	// CG 2.30 m: 0.2000 rad per unit CL
	// CG 2.36 m: 0.1375 rad per unit CL
	// CG 2.42 m: 0.0800 rad per unit CL
	// static margin at 2.38 m: 13.3 %
}
