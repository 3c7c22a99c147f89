package estimate_test

import (
	"fmt"

	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// stiffness is a lateral fit of one flight with one number (invented figures).
func stiffness(flight string, value float64) identify.Fit {
	return identify.Fit{Axis: identify.Lateral, Method: "output error", Flights: []string{flight}, Segments: 4, Power: "idle", MomentX: 0.58, LiftCoefficient: 0.5,
		Derivatives: []identify.Derivative{{Quantity: identify.DirectionalStiff, Value: value, SD: 0.004, Determined: true,
			Common: map[string]float64{estimate.SourceAirspeedScale: -0.04 * value}}}}
}

// Two winglets, three flights each: each number, and their difference, in which a wrong airspeed all but cancels.
func ExampleDerivatives() {
	mid := []identify.Fit{stiffness("1", 0.118), stiffness("2", 0.124), stiffness("3", 0.121)}
	tall := []identify.Fit{stiffness("4", 0.146), stiffness("5", 0.139), stiffness("6", 0.143)}
	pooled := estimate.PoolDerivatives([][]identify.Fit{mid, tall})
	first, second := estimate.Derivatives(tall, nil, 0.25, pooled)[0], estimate.Derivatives(mid, nil, 0.25, pooled)[0]
	fmt.Printf("tall %.3f, 95 %% from %.3f to %.3f, about %.2f m aft of datum\n", *first.Value, *first.Low, *first.High, first.CG)
	fmt.Println(estimate.DifferenceWords("tall", "mid", estimate.Difference(first, second)))
	// Output:
	// tall 0.143, 95 % from 0.131 to 0.154, about 2.32 m aft of datum
	// tall against mid: directional stiffness is larger by 0.02167 1/rad (95 % from 0.01441 to 0.02892)
}

// Input manoeuvres and steady sideslips: the second borrows rudder power, twice of which goes into the number, from the fit that gave
// the first.
func ExampleRoads() {
	number := func(value, sd float64, degrees float64) estimate.Result {
		low, high := value-2*sd, value+2*sd
		return estimate.Result{Quantity: identify.DirectionalStiff, Unit: "1/rad", Power: "idle", State: estimate.Determined, Value: &value, SD: &sd, SDOwn: &sd, Low: &low, High: &high, Degrees: degrees}
	}
	loan := estimate.Loan{
		Derivatives: []estimate.Lent{{Quantity: identify.DirectionalStiff, Value: 0.121, SD: 0.004}, {Quantity: identify.RudderPower, Value: -0.060, SD: 0.002}},
		Covariance:  [][]float64{{0.004 * 0.004, 0.3 * 0.004 * 0.002}, {0.3 * 0.004 * 0.002, 0.002 * 0.002}},
	}
	agreement := estimate.Roads(identify.DirectionalStiff, []estimate.Road{
		{Name: "manoeuvres", Result: number(0.121, 0.004, 12), Borrowed: map[string]float64{identify.DirectionalStiff: 1}},
		{Name: "steady sideslips", Result: number(0.127, 0.006, 12), Borrowed: map[string]float64{identify.RudderPower: -2}},
	}, loan)
	fmt.Printf("%.4f ± %.4f, weights %.2f, agree: %t\n", *agreement.Pooled.Value, *agreement.Pooled.SD, agreement.Weights, agreement.Agree)
	// Output:
	// 0.1230 ± 0.0031, weights [0.66 0.34], agree: true
}
