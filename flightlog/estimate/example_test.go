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

// Six decelerations of three flights (invented figures), slowed by half a metre a second each second; in one of them the wing let go first.
func ExampleMaximumLifts() {
	var stalls []estimate.Stall
	add := func(flight, first string, lift float64) {
		stalls = append(stalls, estimate.Stall{Flight: flight, CG: 2.30, Lift: lift, LiftSD: 0.02, Alpha: 0.2, Slowing: 0.5, Broke: true, First: first, Power: "idle"})
	}
	add("F05", "foreplane", 1.27)
	add("F05", "foreplane", 1.24)
	add("F06", "foreplane", 1.30)
	add("F06", "foreplane", 1.26)
	add("F07", "foreplane", 1.25)
	add("F07", "wing", 1.22)
	lifts, _ := estimate.MaximumLifts(stalls, estimate.Systematics{AirspeedScale: 0.01}, nil)
	lift := lifts[0]
	fmt.Printf("%s: %.2f, 95 %% from %.2f to %.2f\n", lift.State, *lift.Value, *lift.Low, *lift.High)
	for _, w := range lift.Warnings {
		fmt.Println(w)
	}
	// Output:
	// weak: 1.26, 95 % from 1.18 to 1.33
	// in 1 of 6 decelerations the wing let go first: F07: a danger; do not slow this configuration to the stall again before the cause is known
	// the foreplane let go first in 5 of 6 decelerations
	// stands on 2 degrees of freedom; more flights, or scatter pooled over configurations, narrow it
}

// Five flights with steady turns at 45 and 60 degrees of bank beside their level points (invented figures).
func ExampleManoeuvrePoint() {
	var points []estimate.Point
	var loads []estimate.Load
	for i, cg := range []float64{2.30, 2.30, 2.36, 2.42, 2.42} {
		flight := fmt.Sprintf("F%d", i+1)
		slope := 0.2 - 0.95*(cg-2.30) + 0.002*float64(i%2) // dδe/dCL
		for _, lift := range []float64{0.3, 0.5, 0.8} {
			points = append(points, estimate.Point{Flight: flight, CG: cg, Lift: lift, Elevator: slope * lift, Power: "level"})
		}
		for _, n := range []float64{1.41, 2} {
			rate := 0.4 * 0.0075 * (n - 1/n) // q·c/2V
			loads = append(loads, estimate.Load{Flight: flight, CG: cg, Kind: "turn", LoadFactor: n, Lift: 0.4 * n, PitchRate: rate,
				Elevator: slope*0.4*n + 8*rate, Power: "level"})
		}
	}
	point, perG := estimate.ManoeuvrePoint(loads, points, estimate.Systematics{CG: 0.003}, nil)
	fmt.Printf("%s: %.3f m, 95 %% from %.3f to %.3f m\n", point.State, *point.Value, *point.Low, *point.High)
	for _, g := range perG {
		fmt.Printf("CG %.2f m: %.4f rad for each g\n", g.CG, *g.Value)
	}
	// Output:
	// determined: 2.575 m, 95 % from 2.565 to 2.585 m
	// CG 2.30 m: 0.1043 rad for each g
	// CG 2.36 m: 0.0815 rad for each g
	// CG 2.42 m: 0.0587 rad for each g
}
