package reconstruct

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// testCards holds a climb, level runs, a full circle, doublets on each axis, sideslips and glides.
func testCards() []rehearse.Card {
	const size = 4 * degree
	return []rehearse.Card{
		{Kind: rehearse.Climb, Speed: 24, Duration: 24},
		{Kind: rehearse.Level, Speed: 23, Duration: 10},
		{Kind: rehearse.Circle, Speed: 23, Duration: 60, Bank: 0.6, Turns: 1},
		{Kind: rehearse.Doublet, Speed: 24, Duration: 9, Control: "elevator", Size: size, Width: 0.5},
		{Kind: rehearse.Doublet, Speed: 24, Duration: 9, Control: "rudder", Size: 2 * size, Width: 0.7},
		{Kind: rehearse.Doublet, Speed: 24, Duration: 8, Control: "aileron", Size: size, Width: 0.5},
		{Kind: rehearse.Sideslip, Speed: 24, Duration: 10, Size: 2 * size},
		{Kind: rehearse.Sideslip, Speed: 24, Duration: 10, Size: -2 * size},
		{Kind: rehearse.Climb, Speed: 24, Duration: 16},
		{Kind: rehearse.Glide, Speed: 21, Duration: 15},
		{Kind: rehearse.Climb, Speed: 24, Duration: 16},
		{Kind: rehearse.Glide, Speed: 30, Duration: 12},
	}
}

func stream(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1908)) }

// flown is one rehearsed flight with programme errors drawn from its seed.
func flown(t testing.TB, seed uint64, w rehearse.Weather, change func(*rehearse.Instruments)) rehearse.Log {
	log, err := fly(seed, w, change)
	require.NoError(t, err)
	return log
}

// fly is the same for other goroutines than the test's own.
func fly(seed uint64, w rehearse.Weather, change func(*rehearse.Instruments)) (rehearse.Log, error) {
	rng := stream(seed)
	ins := rehearse.DrawInstruments(rehearse.DefaultInstruments(), rehearse.DefaultProgrammeErrors(), rng)
	if change != nil {
		change(&ins)
	}
	return rehearse.Fly(rehearse.ExampleAircraft(), testCards(), w, ins, rng)
}

// prepared is a filter ready to run over a recording.
func prepared(t testing.TB, rec *flightlog.Recording, s Setup) *forward {
	in, findings := gather(rec, s)
	require.NotNil(t, in, findings)
	in.shiftSatellite(s)
	f, _, _ := newForward(in, s, airborneSpan(in.measured[airspeed]))
	return f
}
