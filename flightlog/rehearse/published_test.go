package rehearse

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// The sets give the modes that were published for them, or recomputed from them, so that they are transcribed rightly.
func TestPublishedSetsHaveTheirModes(t *testing.T) {
	const nelson = "Nelson, Flight Stability and Automatic Control, Navion example, printed roots, from memory"
	const listing = "second public listing of the Navion example, phugoid printed to four digits"
	const recomputed = "recomputed from the set of Seckel and Morris, FAA-RD-71-6, with CL from level flight, CD 0.04 and CD_α 0, six decimals"
	all := PublishedAircraft()
	modes := func(p Published, change func(*Published)) stability.Modes {
		change(&p)
		m, err := stability.FindModes(p.Aircraft.Derivatives, p.Body, p.Condition)
		require.NoError(t, err)
		return m
	}
	m := modes(all[0], func(p *Published) { p.Aircraft.Derivatives.ByPitchRate.Lift = 0 }) // the example leaves CL_q out
	require.InDelta(t, -2.51, real(m.ShortPeriod.Root), 5e-3, nelson)
	require.InDelta(t, 2.59, imag(m.ShortPeriod.Root), 5e-3, nelson)
	require.InDelta(t, 0.2137, m.Phugoid.Frequency, 1e-3, "%s; gravity of 32.2 ft/s² there", listing)
	require.InDelta(t, -0.487, real(m.DutchRoll.Root), 5e-4, nelson)
	require.InDelta(t, 2.335, imag(m.DutchRoll.Root), 0.02, nelson)
	require.InDelta(t, -8.435, m.Roll.Root, 5e-4, nelson)

	m = modes(all[1], func(p *Published) {
		d := &p.Aircraft.Derivatives
		d.ByPitchRate.Lift, d.ByAlpha.Drag, d.At.Drag = 0, 0, 0.04
	})
	require.InDelta(t, -3.193281, real(m.ShortPeriod.Root), 1e-6, recomputed)
	require.InDelta(t, 3.031234, imag(m.ShortPeriod.Root), 1e-6, recomputed)
	require.InDelta(t, 0.158409, imag(m.Phugoid.Root), 2e-6, recomputed)
	require.InDelta(t, -0.368811, real(m.DutchRoll.Root), 1e-6, recomputed)
	require.InDelta(t, 2.852318, imag(m.DutchRoll.Root), 1e-6, recomputed)
	require.InDelta(t, -7.409016, m.Roll.Root, 1e-6, recomputed)
	require.InDelta(t, 0.000121, m.Spiral.Root, 1e-6, recomputed)
}

// Models are similar: at √λ of the speed in sea-level air every root of the full size comes back times 1/√λ = 2.
func TestPublishedModelsAreSimilar(t *testing.T) {
	for _, p := range PublishedAircraft() {
		full, err := stability.FindModes(p.Aircraft.Derivatives, p.Body, p.Condition)
		require.NoError(t, err)
		f := frame(t, p.Aircraft)
		d := f.d
		d.Reference.Area, d.Reference.Span, d.Reference.MeanChord = f.area, f.span, f.chord
		condition := stability.Condition{Density: atmosphere.SeaLevelDensity, Speed: p.Condition.Speed / 2, AlphaRate: f.alphaRate}
		small, err := stability.FindModes(d, f.Body, condition)
		require.NoError(t, err)
		for i, want := range full.LongitudinalRoots {
			require.InDelta(t, 2*real(want), real(small.LongitudinalRoots[i]), 1e-6, p.Name)
			require.InDelta(t, 2*imag(want), imag(small.LongitudinalRoots[i]), 1e-6, p.Name)
		}
		for i, want := range full.LateralRoots {
			require.InDelta(t, 2*real(want), real(small.LateralRoots[i]), 1e-6, p.Name)
		}
		require.Negative(t, f.elevator.Pitch)
		require.NotEmpty(t, p.Source)
		require.NotEmpty(t, p.Missing)
	}
}

// Every sheet, in light gusts, by twenty seeds: none meets the ground, every card comes to what it is about.
func TestPublishedAircraftFly(t *testing.T) {
	seeds := uint64(20)
	if testing.Short() {
		seeds = 3
	}
	for _, p := range PublishedAircraft() {
		t.Run(p.Name, func(t *testing.T) {
			t.Parallel()
			stall := p.Aircraft.StallSpeed(atmosphere.SeaLevelDensity)
			for seed := range seeds {
				w := DefaultWeather()
				w.WindFrom = float64(seed)
				for i, sheet := range [][]Card{TrimCards(stall), TrimAndElevatorCards(stall), LateralCards(stall), SlowAndTurningCards(stall)} {
					log, err := Fly(p.Aircraft, sheet, w, DefaultInstruments(), seeded(seed))
					require.False(t, errors.Is(err, ErrGround), "seed %d, sheet %d", seed, i)
					require.NoError(t, err)
					lowest := math.Inf(1)
					for k, time := range log.Time {
						if time > 40 {
							lowest = math.Min(lowest, log.Truth.Height[k])
						}
					}
					require.Greater(t, lowest, 35.0)
					for _, s := range log.Stretches {
						if s.Card.Kind != Climb {
							require.Less(t, s.From, s.To, "seed %d: %s at %.1f m/s", seed, s.Card.Kind, s.Card.Speed)
						}
					}
				}
			}
		})
	}
}
