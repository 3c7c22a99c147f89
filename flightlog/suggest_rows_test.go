package flightlog_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// sensorRows writes a flight with one row a sensor, one letter a column and no units: rates, forces, angles, air data, satellite and
// throttle, each a millisecond behind the one before. Nose down counts as positive pitch rate, and the Z axis points up.
func sensorRows(l rehearse.Log) string {
	blocks := [][]cellOf{
		{{head: "P", is: flightlog.RollRate, unit: "deg_s"}, {head: "Q", is: flightlog.PitchRate, unit: "deg_s", sign: -1}, {head: "R", is: flightlog.YawRate, unit: "deg_s"}},
		{{head: "X", is: flightlog.ForwardAcceleration, unit: "gee"}, {head: "Y", is: flightlog.RightAcceleration, unit: "gee"}, {head: "Z", is: flightlog.DownAcceleration, unit: "gee", sign: -1}},
		{{head: "F", is: flightlog.RollAngle, unit: "deg"}, {head: "N", is: flightlog.PitchAngle, unit: "deg"}, {head: "K", is: flightlog.Heading, unit: "deg"}},
		{{head: "V", is: flightlog.Airspeed, unit: "m_s"}, {head: "B", is: flightlog.StaticPressure, unit: "pa"}, {head: "H", is: flightlog.Altitude, unit: "m"}},
		{{head: "G", is: flightlog.GroundSpeed, unit: "m_s"}, {head: "S", is: flightlog.GroundTrack, unit: "deg"}, {head: "U", is: flightlog.ClimbRate, unit: "m_s"}},
		{{head: "W", is: flightlog.Throttle, unit: "share"}},
	}
	at := map[flightlog.Quantity]int{}
	for i, q := range rehearse.Quantities() {
		at[q] = i
	}
	var b strings.Builder
	b.WriteString("T")
	columns := 0
	for _, block := range blocks {
		for _, c := range block {
			b.WriteString("\t" + c.head)
			columns++
		}
	}
	for row, t := range l.Time {
		first := 0
		for k, block := range blocks {
			cells := make([]string, columns)
			for j, c := range block {
				cells[first+j] = c.number(l.Columns[at[c.is]][row])
			}
			first += len(block)
			if text := strings.Join(cells, "\t"); strings.Trim(text, "\t") != "" {
				fmt.Fprintf(&b, "\n%.0f\t%s", 1000*t+float64(k), text)
			}
		}
	}
	return b.String() + "\n"
}

// A column with blanks in most rows shows its sign and what it is, as one without does.
func TestSuggestWithARowForEachSensor(t *testing.T) {
	overFlights(t, func(t *testing.T, log rehearse.Log) {
		s, err := flightlog.Sniff(strings.NewReader(sensorRows(log)), "rows.csv")
		require.NoError(t, err)
		_, guesses := flightlog.SuggestMap(s)
		by, unknown := map[string]flightlog.Guess{}, 0
		for _, g := range guesses {
			by[g.Column] = g
			require.NotEqual(t, "sure", g.Sure, "letters without units")
			if g.Sure == "unknown" {
				unknown++
			}
		}
		require.Equal(t, flightlog.PitchRate, by["Q"].Is)
		require.Equal(t, -1.0, by["Q"].Sign)
		require.Contains(t, by["Q"].Why, "so the sign is turned")
		require.Equal(t, flightlog.DownAcceleration, by["Z"].Is, by["Z"].Why)
		require.Equal(t, -1.0, by["Z"].Sign)
		require.Equal(t, "gee", by["Z"].Unit)
		for head, is := range map[string]flightlog.Quantity{"N": flightlog.PitchAngle, "B": flightlog.StaticPressure, "K": flightlog.Heading, "F": flightlog.RollAngle, "X": flightlog.ForwardAcceleration, "U": flightlog.ClimbRate} {
			require.Equal(t, is, by[head].Is, "%s: %s", head, by[head].Why)
			require.Equal(t, 1.0, by[head].Sign, head)
		}
		require.LessOrEqual(t, unknown, 4)
	})
}
