package manoeuvre_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/rehearse"
)

// Pull-ups of sloppy pilots, from a gentle to a firm one, in gusts of nothing to 0.6 m/s: nine in ten are found with their load factor, and
// nothing else is taken for one.
func TestPullUpsAreFound(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	var cards []rehearse.Card
	for i, c := range []struct{ speed, load float64 }{{1.8, 1.6}, {1.8, 2}, {2.1, 2}, {2.1, 2.5}, {1.7, 1.4}, {2, 2}} {
		if i%3 == 0 {
			cards = append(cards, rehearse.Card{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24, Altitude: 135})
		}
		cards = append(cards, rehearse.Card{Kind: rehearse.PullUp, Speed: c.speed * stall, Size: c.load, Duration: 11})
	}
	flown, found, others := 0, 0, 0
	for seed := range uint64(10) {
		rng := rand.New(rand.NewPCG(seed, 77))
		w := rehearse.Weather{WindSpeed: float64(seed%5) + 0.01, Turbulence: 0.15}
		log, err := rehearse.Fly(ac, rehearse.Sloppy(cards, rng), w, rehearse.DefaultInstruments(), rng)
		require.NoError(t, err)
		rec := log.Recording("rehearsed")
		hits := 0
		for _, m := range manoeuvre.Find(&rec) {
			if m.Kind != manoeuvre.PullUp {
				continue
			}
			others++
			for _, s := range log.Stretches {
				if s.Card.Kind == rehearse.PullUp && overlaps(m.Start, m.End, s.From, s.To) {
					hits++
					require.Greater(t, m.Load, 1.2)
					require.Positive(t, m.Size, "a foreplane's elevator goes down")
					require.Equal(t, flightlog.Elevator, m.Control)
					require.InDelta(t, s.From, m.Start, 0.3)
					require.Contains(t, m.Detail, "times the weight")
				}
			}
		}
		for _, s := range log.Stretches {
			if s.Card.Kind == rehearse.PullUp && s.To > s.From {
				flown++
			}
		}
		found, others = found+hits, others-hits
	}
	t.Logf("%d of %d found, %d false", found, flown, others)
	require.Greater(t, float64(found), 0.9*float64(flown))
	require.LessOrEqual(t, others, 1)
}
