package rehearse

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// The reader of real logs takes a rehearsed file through the dialect's map and gives the recording that
// the log itself gives, to the rounding of the text; it finds nothing to refuse.
func TestReaderTakesRehearsedFiles(t *testing.T) {
	log := shortLog(t)
	want := log.Recording("rehearsed")
	for _, d := range []Dialect{
		{},
		{Separator: ';', DecimalComma: true, Milliseconds: true, Blank: "NaN"},
		{Separator: '\t', Radians: true, ServoPulse: true},
	} {
		m, err := d.Map("field box")
		require.NoError(t, err)
		got, err := flightlog.Read(bytes.NewReader([]byte(written(t, log, d))), "rehearsed", m)
		require.NoError(t, err)
		require.Equal(t, want.Rows, got.Rows)
		for _, f := range got.Findings {
			require.NotEqual(t, flightlog.Refusal, f.Severity, f.What)
		}
		for _, q := range Quantities() {
			a, b := want.Channels[q], got.Channels[q]
			require.InDeltaSlice(t, a.Time, b.Time, 5.1e-4, "%s", q)
			rounding := 0.0012 // rad, m/s² and m/s; a servo pulse of 1 µs is 0.0015 rad
			switch q {
			case flightlog.StaticPressure, flightlog.AirTemperature:
				rounding = 0.051
			case flightlog.Airspeed, flightlog.Altitude, flightlog.GroundSpeed, flightlog.ClimbRate:
				rounding = 0.0051
			}
			require.InDeltaSlice(t, a.Value, b.Value, rounding, "%s", q)
		}
	}
}
