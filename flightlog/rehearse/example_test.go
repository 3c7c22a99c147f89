package rehearse_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/flightlog/rehearse"
)

// A climb and a glide of an invented quarter-scale model, written as its recorder would.
func ExampleFly() {
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: 12.6, Span: 8.6, MeanChord: 1.7, MeanChordLeadingEdge: 4.0},
		MomentPoint: 3.9,
		Alpha:       0.05,
		At:          aero.Coefficients{Lift: 0.35},
		ByAlpha:     aero.Coefficients{Lift: 4.4, Pitch: -0.44},
		ByBeta:      aero.Coefficients{Side: -0.55, Roll: -0.09, Yaw: 0.06},
		ByRollRate:  aero.Coefficients{Roll: -0.45, Yaw: -0.04},
		ByPitchRate: aero.Coefficients{Lift: 3.2, Pitch: -9.5},
		ByYawRate:   aero.Coefficients{Side: 0.25, Roll: 0.12, Yaw: -0.13},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.45, Pitch: 0.95},
			"aileron":  {Roll: 0.15, Yaw: -0.01},
		},
	}
	body := stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3}
	polar := rehearse.Polar{Min: 0.028, Factor: 0.05, LiftAtMin: 0.1}
	ac := rehearse.DefaultAircraft(d, 0.25, 3.9, 0, body, polar, 1.3)

	cards := []rehearse.Card{
		{Kind: rehearse.Climb, Speed: 23, Duration: 30},
		{Kind: rehearse.Glide, Speed: 22, Duration: 15},
	}
	log, err := rehearse.Fly(ac, cards, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), rand.New(rand.NewPCG(1, 1)))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range log.Stretches {
		fmt.Printf("%s at %g m/s\n", s.Card.Kind, s.Card.Speed)
	}
	var file bytes.Buffer
	if err := log.WriteCSV(&file, rehearse.Dialect{Separator: ';', DecimalComma: true}); err != nil {
		fmt.Println(err)
		return
	}
	head, _ := file.ReadBytes(';')
	fmt.Printf("%s\n", head)
	// Output:
	// climb at 23 m/s
	// glide at 22 m/s
	// time_s;
}
