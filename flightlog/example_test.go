package flightlog_test

import (
	"fmt"
	"strings"

	"wingproof/flightlog"
)

// A log as a spreadsheet saves it, read through the user's own map. A blank cell is no new sample.
func ExampleRead() {
	log := "Zeit;wy;v\n0,00;1,5;72\n0,02;-3,0;\n0,04;-4,5;73,8\n"
	rec, err := flightlog.Read(strings.NewReader(log), "morning.csv", flightlog.Map{
		Name: "field box",
		Time: flightlog.TimeColumn{Column: "Zeit", Unit: "s"},
		Columns: []flightlog.Column{
			{Column: "wy", Is: flightlog.PitchRate, Unit: "deg/s", Sign: -1, Scale: 1},
			{Column: "v", Is: flightlog.Airspeed, Unit: "km/h", Sign: 1, Scale: 1},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f s: %.4f rad/s\n", rec.Channels[flightlog.PitchRate].Time, rec.Channels[flightlog.PitchRate].Value)
	fmt.Printf("%.2f s: %.1f m/s\n", rec.Channels[flightlog.Airspeed].Time, rec.Channels[flightlog.Airspeed].Value)
	// Output:
	// [0.00 0.02 0.04] s: [-0.0262 0.0524 0.0785] rad/s
	// [0.00 0.04] s: [20.0 20.5] m/s
}

// A draft of a map for a log that nobody has described yet.
func ExampleSuggestMap() {
	log := "time [s],gyro y [deg/s],airspeed [kt],elevator_us\n0.00,1.5,40,1500\n0.02,-3.0,41,1510\n"
	s, err := flightlog.Sniff(strings.NewReader(log), "morning.csv")
	if err != nil {
		fmt.Println(err)
		return
	}
	_, guesses := flightlog.SuggestMap(s)
	for _, g := range guesses {
		fmt.Printf("%s: %s in %s (%s)\n", g.Column, g.Is, g.Unit, g.Sure)
	}
	// Output:
	// time [s]:  in s (sure)
	// gyro y [deg/s]: pitch_rate in deg_s (guess)
	// airspeed [kt]: airspeed in kt (sure)
	// elevator_us: elevator in deg (unknown)
}
