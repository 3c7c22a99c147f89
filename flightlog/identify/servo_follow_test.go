package identify

import (
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/source"
)

var followSeeds = flag.Int("follow-seeds", 4, "programmes for each servo and control in the study of servo times")

// Servos of several shapes, none of them known: the time is found within some milliseconds, and its interval holds it. A programme is
// two flights.
func TestFollowFindsTheTime(t *testing.T) {
	var all tally
	for _, servo := range []rehearse.Servo{{Delay: 0.02, Lag: 0.04, Rate: 60}, {Lag: 0.06, Rate: 60}, {Delay: 0.05, Lag: 0.05, Rate: 60}} {
		ac := rehearse.ExampleAircraft()
		ac.Servo = servo
		setup := setupOf(ac)
		setup.Servos = nil
		for _, c := range loopCases() {
			var each tally
			for seed := range uint64(*followSeeds) {
				var segments []Segment
				for k := range uint64(2) {
					segments = append(segments, flownCards(t, ac, inputCards(ac, c.name, c.size), rehearse.DefaultWeather(), rehearse.DefaultInstruments(), 10*seed+k).segments()...)
				}
				s, sd, err := Follow(segments, c.control, setup)
				require.NoError(t, err)
				require.Equal(t, sd, s.LagSD)
				require.Equal(t, "estimated from 2 flights", s.Source)
				each.add(s.EquivalentLag(), sd, servo.Delay+servo.Lag)
				all.add(s.EquivalentLag(), sd, servo.Delay+servo.Lag)
			}
			mean, sd, covered, bias, width := each.figures()
			t.Logf("delay %.2f s, lag %.2f s, %s: bias %.1f ms, sd %.1f ms, (value − truth)/sd %.2f ± %.2f, covered %.0f %%",
				servo.Delay, servo.Lag, c.name, 1000*bias, 1000*width, mean, sd, 100*covered)
		}
	}
	mean, sd, covered, bias, width := all.figures()
	t.Logf("all: bias %.1f ms, sd %.1f ms, (value − truth)/sd %.2f ± %.2f, covered %.0f %%", 1000*bias, 1000*width, mean, sd, 100*covered)
	require.InDelta(t, 0, bias, 0.004)
	require.Less(t, width, 0.006)
	require.GreaterOrEqual(t, covered, 0.85)
}

// With a servo that was estimated from the flights the damping is determined, and is that of the servo known.
func TestFollowedServoGivesDamping(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	segments := programme(t, ac, Longitudinal, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), 1)
	known, err := EquationError(segments, Longitudinal, setup)
	require.NoError(t, err)
	s, _, err := Follow(segments, flightlog.Elevator, setup)
	require.NoError(t, err)
	require.Equal(t, "estimated from one flight", s.Source)
	setup.Servos = map[flightlog.Quantity]Servo{flightlog.Elevator: s}
	followed, err := EquationError(segments, Longitudinal, setup)
	require.NoError(t, err)
	require.True(t, followed.Derivatives[4].Determined)
	d := followed.Derivatives[4]
	require.InDelta(t, known.Derivatives[4].Value, d.Value, 2*math.Hypot(d.SD, d.Common[source.Lag(flightlog.Elevator)]))
}

// Where nothing moved sharply, or hardly against the noise, it says so and does not guess.
func TestFollowRefuses(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	segments := programme(t, ac, Longitudinal, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), 1)
	_, _, err := Follow(segments, flightlog.Aileron, setup)
	require.ErrorContains(t, err, "no sharp step on the aileron")
	require.ErrorContains(t, err, "measure it on the bench")
	_, _, err = Follow(segments, flightlog.Throttle, setup)
	require.ErrorContains(t, err, "write elevator, aileron or rudder_left")
	noisy := rehearse.DefaultInstruments()
	noisy.RateNoise *= 40
	_, _, err = Follow(programme(t, ac, Longitudinal, rehearse.DefaultWeather(), noisy, 1), flightlog.Elevator, setup)
	require.ErrorContains(t, err, "cannot be told apart from damping")
	for i := range segments {
		segments[i].Body.Iy = 0
	}
	_, sd, err := Follow(segments, flightlog.Elevator, setup)
	require.NoError(t, err, "the inertia need not be known")
	require.Less(t, sd, 0.008)
}
