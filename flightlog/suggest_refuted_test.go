package flightlog

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A single letter is no proof: where the numbers speak against it, the column that they speak for is taken.
func TestALetterGivesWayToTheNumbers(t *testing.T) {
	text := madeLog([]string{"t [s]", "pitch angle [rad]", "height [m]", "airspeed [m/s]", "Fin Q", "wupp"}, func(t, theta, rate float64) []float64 {
		height := 0.0
		if t > 4 {
			height = 20 * 0.2 * (1 - math.Cos(t-4)) // of a path along the nose at 20 m/s, to the second order
		}
		return []float64{t, theta, height, 20, 8 * math.Copysign(1, math.Sin(1.7*t+0.9)), rate * 180 / math.Pi}
	}, ".", ",")
	_, m, guess := suggested(t, text)
	require.Equal(t, PitchAngle, guess["pitch angle [rad]"].Is)
	require.Equal(t, "unknown", guess["Fin Q"].Sure)
	require.Contains(t, guess["Fin Q"].Why, "a word of the head may mean pitch_rate, but its numbers do not go with the change of the attitude angles")
	require.Equal(t, PitchRate, guess["wupp"].Is)
	require.Equal(t, "guess", guess["wupp"].Sure)
	for _, c := range m.Columns {
		require.NotEqual(t, "Fin Q", c.Column)
	}
}
