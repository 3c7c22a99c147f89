package rehearse

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/unit"
)

func written(t *testing.T, l Log, d Dialect) string {
	var b bytes.Buffer
	require.NoError(t, l.WriteCSV(&b, d))
	return b.String()
}

func shortLog(t *testing.T) Log {
	log, err := Fly(model(3.9), []Card{{Kind: Climb, Speed: 23, Duration: 8}}, DefaultWeather(), DefaultInstruments(), seeded(4))
	require.NoError(t, err)
	return log
}

// Whatever the dialect, its own map leads back to the log, to half of the last digit written.
func TestEveryDialectReadsBack(t *testing.T) {
	log := shortLog(t)
	for _, d := range []Dialect{
		{},
		{Separator: ';', DecimalComma: true, Milliseconds: true},
		{Separator: '\t', Radians: true, ServoPulse: true, Blank: "NaN"},
		{ServoPulse: true, Time: "clock", Heads: map[flightlog.Quantity]string{flightlog.Airspeed: "tube"}},
	} {
		m, err := d.Map("field box")
		require.NoError(t, err)
		reader := csv.NewReader(strings.NewReader(written(t, log, d)))
		reader.Comma = d.separator()
		rows, err := reader.ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, len(log.Time)+1)
		require.Equal(t, m.Time.Column, rows[0][0])
		for i, c := range m.Columns {
			require.Equal(t, c.Column, rows[0][i+1])
			require.Equal(t, Quantities()[i], c.Is)
			for k, want := range log.Columns[i] {
				cell := strings.Replace(rows[k+1][i+1], ",", ".", 1)
				if math.IsNaN(want) {
					require.Equal(t, d.Blank, cell)
					continue
				}
				number, err := strconv.ParseFloat(cell, 64)
				require.NoError(t, err)
				u, ok := unit.Lookup(c.Unit, c.Is.Dimension())
				require.True(t, ok)
				half := 0.5 * math.Pow(10, -float64(digits(u.Name))) * u.Factor
				if c.Calibration != nil {
					number = (number - PulseCentre) / PulsePerDegree
					half = 0.5 / PulsePerDegree * u.Factor
				}
				require.InDelta(t, want, u.SI(number), 1.001*half, "%s", c.Is)
			}
		}
	}
}

// The calibration table of a pulse column is the line that the writer used.
func TestPulseCalibration(t *testing.T) {
	m, err := Dialect{ServoPulse: true}.Map("field box")
	require.NoError(t, err)
	for _, c := range m.Columns {
		switch c.Is {
		case flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
			require.True(t, strings.HasSuffix(c.Column, "_pulse_us"))
			for _, p := range c.Calibration {
				require.InDelta(t, PulseCentre+PulsePerDegree*p[1], p[0], 1e-9)
			}
			require.Less(t, c.Calibration[0][0], c.Calibration[1][0])
		default:
			require.Nil(t, c.Calibration)
		}
	}
}

// Every head carries the suffix of its unit.
func TestHeadsCarryUnits(t *testing.T) {
	for _, d := range []Dialect{{}, {Radians: true}, {ServoPulse: true}} {
		m, err := d.Map("x")
		require.NoError(t, err)
		for _, c := range m.Columns {
			dimension := c.Is.Dimension()
			if c.Calibration != nil {
				dimension = unit.PulseWidth
			}
			_, _, ok := unit.Suffix(c.Column, dimension)
			require.True(t, ok, c.Column)
		}
	}
}

func TestDialectRefuses(t *testing.T) {
	_, err := Dialect{DecimalComma: true}.Map("x")
	require.ErrorContains(t, err, "semicolon")
	require.ErrorContains(t, Log{}.WriteCSV(&bytes.Buffer{}, Dialect{Separator: '|'}), "separator")
	require.ErrorContains(t, Log{}.WriteCSV(&bytes.Buffer{}, Dialect{}), "columns")
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteErrorIsReported(t *testing.T) {
	require.ErrorContains(t, shortLog(t).WriteCSV(full{}, Dialect{}), "disk full")
}

func TestRecordingLeavesBlanksOut(t *testing.T) {
	log := shortLog(t)
	r := log.Recording("rehearsed")
	require.Equal(t, len(log.Time), r.Rows)
	require.Len(t, r.Channels, columns)
	require.Len(t, r.Channels[flightlog.PitchRate].Time, r.Rows)
	require.InDelta(t, r.Rows/5, len(r.Channels[flightlog.GroundSpeed].Time), 1)
	for _, c := range r.Channels {
		require.Equal(t, len(c.Time), len(c.Value))
	}
}
