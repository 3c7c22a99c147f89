package program

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

const placed = `sensors = { inertial = { x_mm = 905, y_in = 0, z_mm = 40 }, antenna = { x_ft = 3, y_mm = -120, z_cm = 6 } }
time = { column`

// Places stay at model size, in metres; what is not stated stays nil.
func TestReadSensorsAndDelays(t *testing.T) {
	files := sandreed()
	change(t, files, "program.toml", "time = { column", placed)
	change(t, files, "program.toml", "sign = -1", "sign = -1, delay_ms = 45")
	p, err := Load(build(t, files))
	require.NoError(t, err)
	m := p.Loggers[0]
	require.Equal(t, &flightlog.Place{X: 0.905, Z: 0.04}, m.Sensors.Inertial)
	require.InDelta(t, 3*0.3048, m.Sensors.Antenna.X, 1e-12)
	require.InDelta(t, -0.12, m.Sensors.Antenna.Y, 1e-12)
	require.InDelta(t, 0.06, m.Sensors.Antenna.Z, 1e-12)
	require.Nil(t, m.Sensors.Tube)
	require.Nil(t, m.Sensors.Vanes)
	delays := map[flightlog.Quantity]float64{}
	for _, c := range m.Columns {
		delays[c.Is] = c.Delay
	}
	require.InDelta(t, 0.045, delays[flightlog.PitchRate], 1e-15)
	require.Zero(t, delays[flightlog.Elevator])
}

func TestMistakesInSensorsAndDelays(t *testing.T) {
	for _, s := range []slip{
		{"a coordinate is missing", "", "{ x_mm = 905, y_in = 0, ", "‸{ x_mm = 905, ", `sensor inertial has no y_mm; add y_mm = ...`},
		{"a coordinate without its unit", "", "y_in = 0", "‸y = 0", `"y" does not say its unit; write y_mm; units of length are cm, ft, in, m, mm`},
		{"metres for millimetres", "", "x_mm = 905", "x_m = ‸905", `x_m = 905 is out of range; write at least -20 and at most 20 m`},
		{"unknown sensor", "", "antenna =", "‸antena =", `sensors has no key "antena"; did you mean antenna?`},
		{"place that is no table", "", "{ x_ft = 3, y_mm = -120, z_cm = 6 }", "‸3", `antenna is a number, not a table of keys; write antenna = { ... }`},
		{"unknown coordinate", "", "z_cm = 6", "z_cm = 6, ‸colour = 3", `sensor antenna has no key "colour"; keys here are x_mm, y_mm, z_mm`},
		{"delay without its unit", "", "sign = -1", "sign = -1, ‸delay = 0.2", `"delay" does not say its unit; write delay_s; units of time are h, min, ms, s, us`},
		{"delay out of range", "", "sign = -1", "sign = -1, delay_s = ‸200", `delay_s = 200 is out of range; write at least 0 and at most 10 s`},
		{"delay before its time", "", "sign = -1", "sign = -1, delay_s = ‸-0.2", `delay_s = -0.2 is out of range; write at least 0 and at most 10 s`},
	} {
		t.Run(s.name, func(t *testing.T) {
			files := sandreed()
			change(t, files, "program.toml", "time = { column", placed)
			s.file = "program.toml"
			requireSlipIn(t, files, s)
		})
	}
}
