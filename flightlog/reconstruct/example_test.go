package reconstruct

import (
	"fmt"

	"wingproof/flightlog"
)

// A recording without accelerometers has no path; the finding says so in plain words.
func ExampleRun() {
	rec := flightlog.Recording{Source: "F01.csv", Channels: map[flightlog.Quantity]flightlog.Channel{}}
	straight := flightlog.Channel{}
	for i := range 100 {
		straight.Time, straight.Value = append(straight.Time, 0.04*float64(i)), append(straight.Value, 0)
	}
	for _, q := range flightlog.Quantities() {
		switch q {
		case flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration:
		default:
			rec.Channels[q] = straight
		}
	}
	path, findings := Run(&rec, Setup{})
	fmt.Println("enough:", path.Enough)
	for _, f := range findings {
		fmt.Printf("%s; %s\n", f.What, f.Consequence)
	}
	// Output:
	// enough: false
	// there is no usable forward acceleration, right acceleration, down acceleration; the path of the model through the air cannot be reconstructed: angle of attack is taken as pitch angle less path angle, and there is no sideslip
}
