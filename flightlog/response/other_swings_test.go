package response

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// noisy adds white noise.
func noisy(values []float64, sd float64, random *rand.Rand) []float64 {
	for i := range values {
		values[i] += sd * random.NormFloat64()
	}
	return values
}

func TestShortPeriod(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 8))
	pitch := func(damping float64) Stretch {
		return Stretch{Step: 0.01, Signals: []Signal{{"pitch rate", noisy(swing(7, damping, 0.3, 0.5, 0.01, 0, 0.01, 250), 0.003, random)}}}
	}
	light := FindShortPeriod(pitch(0.2))
	require.True(t, light.Determined, light.Why)
	require.InDelta(t, 7, light.Frequency, 4*light.FrequencySD)
	require.InDelta(t, 0.2, light.Damping, 4*light.DampingSD)
	require.Less(t, light.FrequencySD, 0.1)

	heavy := FindShortPeriod(pitch(0.7)) // as most aircraft have it
	require.False(t, heavy.Determined)
	require.Contains(t, heavy.Why, "short period not determined, because only")
	require.Contains(t, heavy.Why, "rely on the derivatives")
}

func TestPhugoid(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 9))
	speed := Stretch{Step: 0.04, Signals: []Signal{{"pitch angle", noisy(swing(0.5, 0.05, 0.1, 0.5, 0.04, 0.0001, 0.04, 750), 0.003, random)}}}
	m := FindPhugoid(speed)
	require.True(t, m.Determined, m.Why)
	require.InDelta(t, 0.5, m.Frequency, 4*m.FrequencySD)
	require.InDelta(t, 0.05, m.Damping, 4*m.DampingSD)
	m = FindPhugoid(speed.Cut(300, len(speed.Signals[0].Values)))
	require.False(t, m.Determined)
	require.Contains(t, m.Why, "18.0 s were flown with the controls held, and 20 s are needed")
}

func TestNotDeterminedInWords(t *testing.T) {
	s := pureStretch(5, 0.15, 1, 0, 600)
	s.Controls = []Control{{"rudder", make([]float64, 600)}}
	for i := 300; i < 600; i++ {
		s.Controls[0].Values[i] = 0.05
	}
	require.Contains(t, FindDutchRoll(s).Why, "the rudder moved by 2.9°")

	s = pureStretch(5, 0.15, 1, 0, 600)
	s.Airspeed = make([]float64, 600)
	for i := range s.Airspeed {
		s.Airspeed[i] = 20 + 0.02*float64(i)
	}
	require.Contains(t, FindDutchRoll(s).Why, "the airspeed went from 20.0 to 32.0 m/s")

	require.Contains(t, FindDutchRoll(Stretch{}).Why, "no recording")
	require.Contains(t, FindDutchRoll(pureStretch(5, 0.15, 1, 0, 100)).Why, "only 1.0 s")
	require.Contains(t, FindDutchRoll(Stretch{Step: 0.01, Signals: []Signal{{"yaw rate", make([]float64, 500)}}}).Why, "do not move")

	quiet := Stretch{Step: 0.01, Signals: []Signal{{"yaw rate", noisy(make([]float64, 500), 0.01, rand.New(rand.NewPCG(4, 4)))}}}
	require.False(t, FindDutchRoll(quiet).Determined, "noise alone is no motion")
}

// The stretch is the longest rest behind the input, a wait after its begin and up to where the pilot takes over; a control that never comes to rest
// leaves nothing.
func TestHandsOff(t *testing.T) {
	rudder := make([]float64, 1000)
	for i := 100; i < 200; i++ {
		rudder[i] = 0.1
	}
	aileron := make([]float64, 1000)
	aileron[250] = -0.05
	from, to := HandsOff(0.01, 0.3, []Control{{"rudder", rudder}, {"aileron", aileron}})
	require.Equal(t, 281, from)
	require.Equal(t, 1000, to)
	for i := 900; i < 1000; i++ { // a hand that levels the wings
		aileron[i] = 0.008 * math.Sin(float64(i)/20)
	}
	from, to = HandsOff(0.01, 0.3, []Control{{"rudder", rudder}, {"aileron", aileron}})
	require.Equal(t, 281, from)
	require.InDelta(t, 900, to, 8)
	for i := range aileron {
		aileron[i] = 0.05 * float64(i%40)
	}
	from, to = HandsOff(0.01, 0.3, []Control{{"aileron", aileron}})
	require.Equal(t, to, from)
}

// A gust steps the sideslip and leaves the yaw rate alone: gusts without an input swing too, and must not pass for a free response.
func TestGustsAloneAreNoFreeResponse(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 1))
	passed := 0
	for range 20 {
		f := gustsAlone(t, 0.5, 6, random)
		if FindDutchRoll(f).Determined {
			passed++
		}
	}
	require.LessOrEqual(t, passed, 2)
}
