package flightlog

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// adviceMap reads two channels beside a time of day.
func adviceMap() Map {
	return Map{Name: "field box", Time: TimeColumn{"clock", "iso"}, Columns: []Column{
		{Column: "wy", Is: PitchRate, Unit: "deg_s"}, {Column: "speed", Is: Airspeed, Unit: "m_s"}}}
}

func TestTimeWithoutItsHoursIsASpreadsheets(t *testing.T) {
	_, err := Read(strings.NewReader("clock;wy;speed\n17:23,4;1,5;20,5\n17:23,5;1,5;20,5\n"), "a.csv", adviceMap())
	require.EqualError(t, err, `a.csv:2:1: column "clock" holds "17:23,4", which is no time in iso (ISO 8601); it looks like minutes and seconds, as a spreadsheet leaves them when it saves a log: take the file that the logger wrote`)

	_, err = Read(strings.NewReader("clock;wy;speed\n400;1,5;20,5\n440;1,5;20,5\n"), "a.csv", adviceMap())
	require.ErrorContains(t, err, "name another column or another unit of time in the logger map: s, ms, us or iso")
}

func TestTimesThatAreTooCoarseAreSaid(t *testing.T) {
	var log strings.Builder
	log.WriteString("clock;wy;speed\n")
	for i := range 100 { // 25 rows a second, and a clock that counts whole ones
		fmt.Fprintf(&log, "09:17:%02d;1,5;20,5\n", i/25)
	}
	rec, err := Read(strings.NewReader(log.String()), "a.csv", adviceMap())
	require.NoError(t, err)
	require.Len(t, rec.Channels[Airspeed].Value, 4)
	require.Len(t, rec.Findings, 1)
	require.Equal(t, "192 samples repeat a time at which their channel already has one", rec.Findings[0].What)
	require.Contains(t, rec.Findings[0].Consequence, "the times hold too few digits")

	rec, err = Read(strings.NewReader("clock;wy;speed\n09:17:01;1,5;20\n09:17:01;1,5;20\n09:17:02;1,5;20\n09:17:03;1,5;20\n"), "a.csv", adviceMap())
	require.NoError(t, err)
	require.Equal(t, "the first sample of each instant is used, the others are left out", rec.Findings[0].Consequence, "one row twice is no coarse clock")
}

func TestDecimalCommasBetweenCommasAreSaid(t *testing.T) {
	m := adviceMap()
	m.Time.Unit = "s"
	rec, err := Read(strings.NewReader("clock,wy,speed\n0,\"1,5\",20\n1,\"-0,52\",20\n2,1,20\n"), "a.csv", m)
	require.NoError(t, err)
	require.Equal(t, `2 cells of column "wy" hold no number, such as "1,5"`, rec.Findings[0].What)
	require.Contains(t, rec.Findings[0].Consequence, "a decimal comma needs semicolons or tabs between the cells")

	rec, err = Read(strings.NewReader("clock,wy,speed\n0,1,20\n1,1,5,20,5\n2,0,7,21,5\n"), "a.csv", m)
	require.NoError(t, err)
	require.Equal(t, "2 rows are torn: the first has 5 cells where the heads have 3", rec.Findings[0].What)
	require.Contains(t, rec.Findings[0].Consequence, "let the logger write semicolons, or decimal points")

	rec, err = Read(strings.NewReader("clock,wy,speed\n0,1,20\n1,ERR,20\n2,1,20,5\n3,1,20\n4,1,20\n"), "a.csv", m)
	require.NoError(t, err)
	require.Len(t, rec.Findings, 2)
	require.Equal(t, "these samples are left out", rec.Findings[0].Consequence)
	require.Equal(t, "these rows are left out", rec.Findings[1].Consequence)
}
