package manoeuvre_test

import (
	"fmt"
	"math/rand/v2"

	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/rehearse"
)

// A rehearsed flight of four cards of an invented model, and what its recording tells of them.
func ExampleFind() {
	cards := []rehearse.Card{
		{Kind: rehearse.Climb, Speed: 23, Duration: 20},
		{Kind: rehearse.Doublet, Speed: 23, Duration: 12, Control: "elevator", Size: 3 * degree, Width: 0.5},
		{Kind: rehearse.Turn, Speed: 23, Duration: 12, Bank: 0.5},
		{Kind: rehearse.Glide, Speed: 21, Duration: 15},
	}
	log, err := rehearse.Fly(rehearse.ExampleAircraft(), cards, rehearse.Weather{}, rehearse.DefaultInstruments(), rand.New(rand.NewPCG(1, 1)))
	if err != nil {
		fmt.Println(err)
		return
	}
	rec := log.Recording("rehearsed")
	for _, m := range manoeuvre.Find(&rec) {
		fmt.Println(m.Kind)
	}
	for _, f := range manoeuvre.Missing(&rec) {
		fmt.Println(f.What)
	}
	// Output:
	// climb
	// doublet
	// turn
	// glide
	// rudder never moves in this recording
}
