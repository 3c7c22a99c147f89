package reduce

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/stability"
	"wingproof/flightlog"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/rehearse"
)

// inputSheet flies every doublet and multistep at one speed behind a circle, which the path needs to know the wind.
func inputSheet(seed uint64, w rehearse.Weather) sheet {
	ac := rehearse.ExampleAircraft()
	stall := ac.StallSpeed(1.225)
	cards := rehearse.ManoeuvreCards(stall)[0][:7]
	circle := rehearse.Card{Kind: rehearse.Circle, Speed: 1.55 * stall, Duration: 60, Bank: 0.45}
	return sheet{aircraft: ac, cards: append([]rehearse.Card{cards[0], circle}, cards[1:]...), weather: w, seed: seed}
}

// off is the root mean square of a segment's series against a truth on its own times, mean difference aside and in it.
func off(s identify.Segment, series []float64, truth flightlog.Channel) (about, mean float64) {
	l := reader{Channel: truth}
	square := 0.0
	for i, v := range series {
		d := v - l.straight(s.Start+float64(i)*s.Step)
		mean += d / float64(len(series))
		square += d * d / float64(len(series))
	}
	return math.Sqrt(math.Max(0, square-mean*mean)), mean
}

// Every input that was flown gives a segment, which holds what really happened: of the errors of the sensors only the noise is left, the
// biases are a fraction of what they were, and the steps of the command are where they were given.
func TestSegmentsHoldWhatWasFlown(t *testing.T) {
	s := inputSheet(3, rehearse.DefaultWeather())
	for _, rate := range []float64{25, 50, 100, 200} {
		ins := rehearse.DefaultInstruments()
		ins.FastRate, ins.AirRate = rate, 25
		log, truth := s.fly(t, ins), s.fly(t, exact(ins))
		r := s.reduce(t, log)
		require.Equal(t, 6, len(r.Segments), "at %g Hz: %v", rate, r.Findings)
		for i, one := range r.Segments {
			card := s.cards[i+2]
			require.Equal(t, string(card.Kind), one.Kind)
			n := len(one.RollRate)
			for _, series := range [][]float64{one.PitchRate, one.YawRate, one.ForwardForce, one.RightForce, one.DownForce, one.Roll, one.Pitch,
				one.Airspeed, one.Alpha, one.Beta, one.Elevator, one.Aileron, one.Rudder} {
				require.Len(t, series, n)
			}
			require.InDelta(t, 1/math.Min(rate, 100), one.Step, 1e-9)
			noise := 1.0
			if rate > 100 {
				noise = 0.6 // of white noise the low-pass leaves √(2·0.35·100/200) = 0.59
			}
			q, bias := off(one, one.PitchRate, column(truth, flightlog.PitchRate))
			require.Less(t, q, 1.1*noise*ins.RateNoise)
			require.Less(t, math.Abs(bias), 0.06*degree)
			z, bias := off(one, one.DownForce, column(truth, flightlog.DownAcceleration))
			require.Less(t, z, 1.1*noise*ins.ForceNoise)
			require.Less(t, math.Abs(bias), 0.05)
			a, _ := off(one, one.Alpha, flightlog.Channel{Time: truth.Time, Value: truth.Truth.Alpha})
			v, _ := off(one, one.Airspeed, flightlog.Channel{Time: truth.Time, Value: truth.Truth.Airspeed})
			t.Logf("%g Hz %s %s: %.2f s, pitch rate %.3f°/s, force %.3f m/s², alpha %.2f°, airspeed %.3f m/s", rate, card.Control, card.Kind, float64(n)*one.Step, q/degree, z, a/degree, v)
		}
	}
}

func TestSegmentsNameBodyAndAir(t *testing.T) {
	s := inputSheet(3, rehearse.DefaultWeather())
	r := s.reduce(t, s.fly(t, rehearse.DefaultInstruments()))
	require.NotEmpty(t, r.Segments)
	for _, one := range r.Segments {
		require.Equal(t, stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3}, one.Body)
		require.InDelta(t, 0.975, one.CGX, 1e-12)
		require.InDelta(t, 1.21, one.Density, 0.01)
		require.Equal(t, "level", one.Power)
		require.Positive(t, one.Gusts)
	}
	require.Equal(t, manoeuvre.Doublet, manoeuvre.Kind(r.Segments[0].Kind))
}
