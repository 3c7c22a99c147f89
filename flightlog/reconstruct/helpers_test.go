package reconstruct

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// canard is an invented derivative set with the CG ten percent of the chord ahead of the neutral point.
func canard() aero.Derivatives {
	return aero.Derivatives{
		Reference:   aero.Reference{Area: 12.6, Span: 8.6, MeanChord: 1.7, MeanChordLeadingEdge: 4.0},
		MomentPoint: 3.9, MomentZ: 0.05, Alpha: 0.05,
		At:          aero.Coefficients{Lift: 0.35, Drag: 0.03, Pitch: 0.01},
		ByAlpha:     aero.Coefficients{Lift: 4.4, Drag: 0.2, Pitch: -0.44},
		ByBeta:      aero.Coefficients{Side: -0.55, Roll: -0.09, Yaw: 0.06},
		ByRollRate:  aero.Coefficients{Side: -0.05, Roll: -0.45, Yaw: -0.04},
		ByPitchRate: aero.Coefficients{Lift: 3.2, Drag: 0.1, Pitch: -9.5},
		ByYawRate:   aero.Coefficients{Side: 0.25, Roll: 0.12, Yaw: -0.13},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.45, Drag: 0.02, Pitch: 0.95},
			"aileron":  {Roll: 0.15, Yaw: -0.01},
			"rudder":   {Side: 0.12, Roll: 0.01, Yaw: -0.05},
		},
	}
}

// model is a quarter-scale aircraft of 15 kg with that set; it stalls at 15 m/s.
func model() rehearse.Aircraft {
	body := stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3}
	return rehearse.DefaultAircraft(canard(), 0.25, 3.9, 0.05, body, rehearse.Polar{Min: 0.028, Factor: 0.05, LiftAtMin: 0.1}, 1.3)
}

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
	rng := stream(seed)
	ins := rehearse.DrawInstruments(rehearse.DefaultInstruments(), rehearse.DefaultProgrammeErrors(), rng)
	if change != nil {
		change(&ins)
	}
	log, err := rehearse.Fly(model(), testCards(), w, ins, rng)
	require.NoError(t, err)
	return log
}

// prepared is a filter ready to run over a recording.
func prepared(t testing.TB, rec *flightlog.Recording, s Setup) *forward {
	in, findings := gather(rec, s)
	require.NotNil(t, in, findings)
	in.shiftSatellite(s)
	f, _, _ := newForward(in, s, airborneSpan(in.measured[airspeed]))
	return f
}
