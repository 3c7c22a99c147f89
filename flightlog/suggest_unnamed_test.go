package flightlog

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Heads in a language of their own: the unit names the candidates, and gravity and the air outside show in the numbers.
func TestSuggestForHeadsWithoutKnownWords(t *testing.T) {
	text := madeLog([]string{"Uhr [ms]", "Nickrate [rad/s]", "b vorn [m/s²]", "b unten [m/s²]", "Druck [Pa]", "Höhenruder [µs]", "Staurohr [m/s]", "Regler", "pressure setpoint [Pa]"},
		func(t, theta, rate float64) []float64 {
			return []float64{1000 * t, rate, 9.81 * math.Sin(theta), -9.81 * math.Cos(theta), 99500, 1500, 21, 3, 99000}
		}, ",", "\t")
	_, m, guess := suggested(t, text)
	require.Equal(t, TimeColumn{"Uhr [ms]", "ms"}, m.Time)
	require.Len(t, m.Columns, 2)
	require.Equal(t, Column{Column: "b unten [m/s²]", Is: DownAcceleration, Unit: "m_s2", Sign: 1, Scale: 1}, m.Columns[0])
	require.Equal(t, Column{Column: "Druck [Pa]", Is: StaticPressure, Unit: "pa", Sign: 1, Scale: 1}, m.Columns[1])
	require.Equal(t, "guess", guess["Druck [Pa]"].Sure)
	require.Equal(t, "guess", guess["b unten [m/s²]"].Sure)

	require.Equal(t, "rad_s", guess["Nickrate [rad/s]"].Unit)
	require.Contains(t, guess["Nickrate [rad/s]"].Why, "the unit is that of roll_rate, pitch_rate or yaw_rate")
	require.Contains(t, guess["b vorn [m/s²]"].Why, "the unit is that of forward_acceleration or right_acceleration")
	require.Contains(t, guess["Höhenruder [µs]"].Why, "elevator, aileron, rudder_left, rudder_right or throttle")
	require.Contains(t, guess["Staurohr [m/s]"].Why, "airspeed, ground_speed or climb_rate")
	require.Contains(t, guess["Höhenruder [µs]"].Why, "a measured calibration")
	require.Empty(t, guess["Höhenruder [µs]"].Unit, "the unit is that of the calibrated angle")
	require.Empty(t, guess["Regler"].Unit)
	require.Equal(t, noWord, guess["Regler"].Why)
	require.False(t, guess["pressure setpoint [Pa]"].Mapped, "what somebody asked for is no measurement")
}

// Gravity that reads positive is turned, whatever the head is called.
func TestSuggestTurnsUnnamedGravity(t *testing.T) {
	text := madeLog([]string{"t", "b hoch [g]"}, func(t, theta, rate float64) []float64 { return []float64{t, math.Cos(theta)} }, ".", ";")
	_, m, _ := suggested(t, text)
	require.Len(t, m.Columns, 1)
	require.Equal(t, DownAcceleration, m.Columns[0].Is)
	require.Equal(t, -1.0, m.Columns[0].Sign)
}
