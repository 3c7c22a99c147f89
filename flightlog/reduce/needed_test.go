package reduce

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

func TestUnnamedTellsWhatAMapLacks(t *testing.T) {
	named := func(all ...flightlog.Quantity) (m flightlog.Map) {
		for _, q := range all {
			m.Columns = append(m.Columns, flightlog.Column{Column: string(q), Is: q})
		}
		return m
	}
	enough := []flightlog.Quantity{flightlog.Airspeed, flightlog.ForwardAcceleration, flightlog.DownAcceleration, flightlog.RollAngle,
		flightlog.Elevator, flightlog.PitchAngle, flightlog.StaticPressure, flightlog.Throttle}
	require.Empty(t, Unnamed(named(enough...)))
	for i, q := range enough {
		if q == flightlog.StaticPressure {
			continue
		}
		require.Equal(t, []flightlog.Quantity{q}, Unnamed(named(append(enough[:i:i], enough[i+1:]...)...)), q)
	}
	require.Equal(t, []flightlog.Quantity{flightlog.Altitude}, Unnamed(named(append(enough[:6:6], flightlog.Throttle)...)), "one of height and pressure")
	require.Empty(t, Unnamed(named(append(enough[:5:5], flightlog.AngleOfAttack, flightlog.Altitude, flightlog.Throttle)...)), "a vane replaces the pitch angle")
}
