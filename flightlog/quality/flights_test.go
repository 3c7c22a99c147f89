package quality

import (
	"maps"
	"math"
	"math/rand/v2"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// inventedModel is an invented quarter-scale foreplane model whose centre of gravity lies a tenth of the chord ahead of the neutral point.
func inventedModel() rehearse.Aircraft { return rehearse.ExampleAircraft() }

// modelAircraft is what the crew states about it.
func modelAircraft() Aircraft {
	r := inventedModel().Derivatives.Reference
	return Aircraft{Mass: 15, WingArea: r.Area / 16, AspectRatio: r.Span * r.Span / r.Area, ForeplaneElevator: true}
}

// stream is the random stream of one purpose of one seed.
func stream(seed uint64, purpose uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, purpose)) }

// flightOptions choose one flight.
type flightOptions struct {
	sheet int     // 0 trim points; 1 inputs on every control; 2 turns, circles and sideslips; 3 decelerations to the stall
	exact bool    // the pilot's hand is exact
	rate  float64 // Hz
	apart bool    // the sensors sit far from the centre of gravity
}

// usualOptions change sheet and sample rate with the seed.
func usualOptions(seed uint64) flightOptions {
	return flightOptions{sheet: int(seed / 2 % 4), rate: [...]float64{25, 100}[seed%2]}
}

// sloppyFlight flies a sheet by the sloppy pilot. Wind, gusts and instruments change with the seed.
func sloppyFlight(ac rehearse.Aircraft, seed uint64) (rehearse.Log, error) {
	return flown(ac, seed, usualOptions(seed))
}

func flown(ac rehearse.Aircraft, seed uint64, o flightOptions) (rehearse.Log, error) {
	rng := stream(seed, 1)
	stall := ac.StallSpeed(1.225)
	sheets := append([][]rehearse.Card{rehearse.TrimCards(stall)}, rehearse.ManoeuvreCards(stall)...)
	w := rehearse.DefaultWeather()
	w.WindSpeed = 5 * rng.Float64()
	w.WindFrom = 2 * math.Pi * rng.Float64()
	w.Turbulence = 0.05 + 0.15*rng.Float64()
	w.Temperature = 275 + 25*rng.Float64()
	w.Pressure = 96000 + 6000*rng.Float64()
	ins := rehearse.DrawInstruments(rehearse.DefaultInstruments(), rehearse.DefaultProgrammeErrors(), rng)
	ins.FastRate, ins.AirRate = o.rate, o.rate
	if o.rate >= 100 {
		ins.AirRate, ins.SatelliteRate = o.rate/2, 10
	}
	ins.Vanes = rehearse.DefaultVanes()
	if o.apart { // the centre of gravity is 0.975 m aft of the datum
		ins.Sensors = flightlog.Sensors{Inertial: &flightlog.Place{X: 0.8, Y: 0.04, Z: 0.05}, Tube: &flightlog.Place{Y: 0.3},
			Vanes: &flightlog.Place{Y: -0.3}, Antenna: &flightlog.Place{X: 1.3, Z: 0.1}}
	}
	cards := sheets[o.sheet]
	if !o.exact {
		cards = rehearse.Sloppy(cards, stream(seed, 2))
	}
	return rehearse.Fly(ac, cards, w, ins, stream(seed, 3))
}

// ofLog is the recording of a log.
func ofLog(l rehearse.Log) *flightlog.Recording {
	rec := l.Recording("rehearsed.csv")
	return &rec
}

// without is a recording that lacks channels.
func without(rec *flightlog.Recording, qs ...flightlog.Quantity) *flightlog.Recording {
	out := *rec
	out.Channels = maps.Clone(rec.Channels)
	for _, q := range qs {
		delete(out.Channels, q)
	}
	return &out
}
