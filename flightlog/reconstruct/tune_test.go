package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog/rehearse"
)

// A trial that begins at an event is the one over a flight that begins there: no stride leads to its start, and its own first seconds do
// not count.
func TestTrialBeginsAtItsStart(t *testing.T) {
	const from = 700
	log := flown(t, 2, rehearse.DefaultWeather(), nil)
	rec := log.Recording("rehearsed")
	f := prepared(t, &rec, Setup{})
	tallied := func(f *forward, from int) [kinds]tally {
		trial := f.trial(from)
		trial.pass(from, f.trialEnd(from))
		return trial.tallies
	}
	whole := tallied(f, from)
	cut := *f.tl
	cut.events = f.tl.events[from:]
	g := forward{tl: &cut, noise: f.noise, arms: f.arms, prior: func(i int, bias [3]float64) belief { return f.prior(i+from, bias) }}
	require.Equal(t, tallied(&g, 0), whole)
	first := 0.0
	for k := range kinds {
		if whole[k].count > 0 {
			first += float64(whole[k].count)
		}
	}
	require.Greater(t, first, 1000.0)
}

// Where the trials begin with the recording, the pass that goes on from the one that was picked is the pass from the start.
func TestFilterGoesOnFromTheTrial(t *testing.T) {
	log := flown(t, 2, rehearse.DefaultWeather(), nil)
	rec := log.Recording("rehearsed")
	f := prepared(t, &rec, Setup{})
	require.Equal(t, tuneEvents, f.reached)
	whole := f.trial(0)
	f.finish()
	whole.finish()
	require.Equal(t, whole.belief, f.belief)
	require.Equal(t, whole.checkpoints, f.checkpoints)
	require.Equal(t, whole.verdicts, f.verdicts)
	for k := range kinds {
		f.tallies[k].weighed, f.tallies[k].likelihood = false, 0
	}
	require.Equal(t, whole.tallies, f.tallies)
}

// A lag known to 0.1 s makes a satellite speed uncertain by a tenth of the acceleration: in a pull-up of 8 m/s² 0.8 m/s of climb rate, to the
// north next to nothing. A lag that is estimated adds nothing.
func TestUnknownLagCostsInAccelerations(t *testing.T) {
	b := estimate{n: plainStates, attitude: rotationOf(0, 0, 0.7)}
	b.x[atForceBias+2] = 0.1
	e := event{stride: stride{dt: 0.04, force: [3]float64{0, 0, 0.1 - 8 - atmosphere.Gravity}}}
	require.InDelta(t, 0.8, math.Sqrt(b.late(&e, climbRate, 0.1)), 1e-9)
	require.InDelta(t, 0, b.late(&e, northSpeed, 0.1), 1e-12)
	e.stride.force[0] = 2
	require.InDelta(t, 0.2*math.Cos(0.7), math.Sqrt(b.late(&e, northSpeed, 0.1)), 1e-9)
	require.InDelta(t, 0.2*math.Sin(0.7), math.Sqrt(b.late(&e, eastSpeed, 0.1)), 1e-9)
	e.stride.dt = 0
	require.Zero(t, b.late(&e, climbRate, 0.1), "at the first instant nothing is known of the acceleration")

	log := flown(t, 2, rehearse.DefaultWeather(), nil)
	rec := log.Recording("rehearsed")
	in, _ := gather(&rec, Setup{})
	in.shiftSatellite(Setup{})
	require.Zero(t, in.lagSD)
	for k := range 3 { // without a flight in common nothing tells the lag
		in.forces[k] = sampled(3, 0.04, math.Sin)
	}
	lag, _, _ := in.shiftSatellite(Setup{})
	require.True(t, lag.Assumed)
	for _, k := range []kind{northSpeed, eastSpeed, climbRate} {
		require.Equal(t, usualLagSD, in.lagSD[k])
	}
	require.Zero(t, in.lagSD[airspeed])

	f := prepared(t, &rec, Setup{})
	turning := &f.tl.events[len(f.tl.events)/2]
	state := f.fresh(len(f.tl.events)/2, &belief{})
	var plain, doubtful gain
	f.expect(&state, turning, measurement{climbRate, 0}, &plain)
	f.noise.lagSD[climbRate] = 0.1
	f.expect(&state, turning, measurement{climbRate, 0}, &doubtful)
	require.InDelta(t, state.late(turning, climbRate, 0.1), doubtful.variance-plain.variance, 1e-9)
	require.Greater(t, doubtful.variance, plain.variance)
}
