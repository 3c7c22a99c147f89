package flightlog

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Heads in a language of their own: the unit names the candidates, and gravity and the air outside show in the numbers.
func TestSuggestForHeadsWithoutKnownWords(t *testing.T) {
	text := madeLog([]string{"nü [ms]", "vey [rad/s]", "zug-1 [m/s²]", "zug-3 [m/s²]", "tryk [Pa]", "foreklap [µs]", "luv [m/s]", "gazo", "pressure setpoint [Pa]"},
		func(t, theta, rate float64) []float64 {
			return []float64{1000 * t, rate, 9.81 * math.Sin(theta), -9.81 * math.Cos(theta), 99500, 1500, 21, 3, 99000}
		}, ",", "\t")
	_, m, guess := suggested(t, text)
	require.Equal(t, TimeColumn{"nü [ms]", "ms"}, m.Time)
	require.Len(t, m.Columns, 2)
	require.Equal(t, Column{Column: "zug-3 [m/s²]", Is: DownAcceleration, Unit: "m_s2", Sign: 1, Scale: 1}, m.Columns[0])
	require.Equal(t, Column{Column: "tryk [Pa]", Is: StaticPressure, Unit: "pa", Sign: 1, Scale: 1}, m.Columns[1])
	require.Equal(t, "guess", guess["tryk [Pa]"].Sure)
	require.Equal(t, "guess", guess["zug-3 [m/s²]"].Sure)

	require.Equal(t, "rad_s", guess["vey [rad/s]"].Unit)
	require.Contains(t, guess["vey [rad/s]"].Why, "the unit is that of roll_rate, pitch_rate or yaw_rate")
	require.Contains(t, guess["zug-1 [m/s²]"].Why, "the unit is that of forward_acceleration or right_acceleration")
	require.Contains(t, guess["foreklap [µs]"].Why, "elevator, aileron, rudder_left, rudder_right or throttle")
	require.Contains(t, guess["luv [m/s]"].Why, "airspeed, ground_speed or climb_rate")
	require.Contains(t, guess["foreklap [µs]"].Why, "a measured calibration")
	require.Empty(t, guess["foreklap [µs]"].Unit, "the unit is that of the calibrated angle")
	require.Empty(t, guess["gazo"].Unit)
	require.Equal(t, noWord, guess["gazo"].Why)
	require.False(t, guess["pressure setpoint [Pa]"].Mapped, "what somebody asked for is no measurement")
}

// Gravity that reads positive is turned, whatever the head is called.
func TestSuggestTurnsUnnamedGravity(t *testing.T) {
	text := madeLog([]string{"t", "zug-3 [g]"}, func(t, theta, rate float64) []float64 { return []float64{t, math.Cos(theta)} }, ".", ";")
	_, m, _ := suggested(t, text)
	require.Len(t, m.Columns, 1)
	require.Equal(t, DownAcceleration, m.Columns[0].Is)
	require.Equal(t, -1.0, m.Columns[0].Sign)
}
