package flightlog

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

const degree = math.Pi / 180

func fieldBox() Map {
	return Map{Name: "field box", Time: TimeColumn{"time", "s"}, Columns: []Column{
		{Column: "wy", Is: PitchRate, Unit: "deg/s", Sign: -1, Scale: 1},
		{Column: "speed", Is: Airspeed, Unit: "km/h", Sign: 1, Scale: 1},
	}}
}

func read(t *testing.T, m Map, text string) *Recording {
	t.Helper()
	rec, err := Read(strings.NewReader(text), "a.csv", m)
	require.NoError(t, err)
	return rec
}

// The same three rows as different people and their spreadsheets would write them.
func TestReadDialects(t *testing.T) {
	utf16 := func(e unicode.Endianness, s string) string {
		out, err := unicode.UTF16(e, unicode.UseBOM).NewEncoder().String(s)
		require.NoError(t, err)
		return out
	}
	comma := "time,wy,speed\n10.00,1.5,36\n10.02,-3,72\n10.04,,54\n"
	dialects := map[string]string{
		"comma":              comma,
		"semicolon, comma":   "time;wy;speed\n10,00;1,5;36\n10,02;-3;72,0\n10,04;;54\n",
		"semicolon, point":   "time;wy;speed\n10.00;1.5;36\n10.02;-3;72\n10.04;;54\n",
		"tab":                "time\twy\tspeed\n10.00\t1.5\t36\n10.02\t-3\t72\n10.04\t\t54\n",
		"CRLF":               strings.ReplaceAll(comma, "\n", "\r\n"),
		"CR":                 strings.ReplaceAll(comma, "\n", "\r"),
		"byte-order mark":    "\ufeff" + comma,
		"UTF-16 LE":          utf16(unicode.LittleEndian, comma),
		"UTF-16 BE":          utf16(unicode.BigEndian, comma),
		"UTF-16, no mark":    utf16(unicode.LittleEndian, comma)[2:],
		"quoted":             "\"time\",\"wy\",\"speed\"\n\"10.00\",\"1.5\",\"36\"\n10.02,\"-3\",72\n10.04,\"\",54\n",
		"preamble":           "Log of the field box\n# flown in the morning, calm\nPilot: nobody, no name\n\ntime,wy,speed\n10.00,1.5,36\n10.02,-3,72\n10.04,,54\n",
		"marked heads":       "# field box\n# time,wy,speed\n10.00,1.5,36\n10.02,-3,72\n10.04,,54\n",
		"units":              "time,wy,speed\ns,deg/s,km/h\n10.00,1.5,36\n10.02,-3,72\n10.04,,54\n",
		"repeated heads":     "time,wy,speed\n10.00,1.5,36\ntime,wy,speed\n10.02,-3,72\n10.04,NaN,54\n",
		"remarks inside":     "time,wy,speed\n10.00,1.5,36\n# here the wind came\n10.02,-3,72\n\n10.04,n/a,54\n",
		"other order":        "speed,note,wy,time\n36,\"calm, then \"\"wind\"\"\",1.5,10.00\n72,,-3,10.02\n54,,,10.04\n",
		"blanks":             " time , wy , speed \n 10.00 , 1.5 , 36 \n 10.02 , -3, 72\n 10.04 ,  , 54\n",
		"trailing columns":   "time,wy,speed,,\n10.00,1.5,36,,\n10.02,-3,72,,\n10.04,,54,,\n,,,,\n",
		"capitals":           strings.Replace(comma, "time,wy,speed", "Time,WY,Speed", 1),
		"exponents":          "time,wy,speed\n1.000e1,15e-1,3.6E+1\n10.02,-.3e1,72.\n10.04,,54\n",
		"row without an end": comma + "10.06,1",
	}
	for name, text := range dialects {
		t.Run(name, func(t *testing.T) {
			rec := read(t, fieldBox(), text)
			rate, speed := rec.Channels[PitchRate], rec.Channels[Airspeed]
			require.InDeltaSlice(t, []float64{0, 0.02}, rate.Time[:2], 1e-12)
			require.InDeltaSlice(t, []float64{-1.5 * degree, 3 * degree}, rate.Value[:2], 1e-15)
			require.InDeltaSlice(t, []float64{0, 0.02, 0.04}, speed.Time, 1e-12)
			require.InDeltaSlice(t, []float64{10, 20, 15}, speed.Value, 1e-12)
			require.Len(t, rate.Time, 2, "a blank cell is no new sample, and a cell that may be cut is left out")
		})
	}
}

// Three logs as three people with different boxes write them.
func TestReadByHand(t *testing.T) {
	files := []struct {
		text string
		m    Map
	}{
		{"\"Zeit [ms]\";\"Nickrate [°/s]\";\"Höhe [m]\"\r\n0;2,5;0,0\r\n20;5;0,5\r\n",
			Map{Time: TimeColumn{"Zeit [ms]", "ms"}, Columns: []Column{{"Nickrate [°/s]", PitchRate, "°/s", 1, 1, 0, nil, 0}, {"Höhe [m]", Altitude, "m", 1, 1, 0, nil, 0}}}},
		{"t_us,q_rad_s,alt_ft,remark\n1700000000000000,0.0436332313,0,start\n1700000000020000,0.0872664626,1.6404199,\n",
			Map{Time: TimeColumn{"t_us", "us"}, Columns: []Column{{"q_rad_s", PitchRate, "rad/s", 1, 1, 0, nil, 0}, {"alt_ft", Altitude, "ft", 1, 1, 0, nil, 0}}}},
		{"utc\tpitch rate\theight\n2026-03-14T10:15:59.990+01:00\t-2.5\t100\n2026-03-14T10:16:00.010+01:00\t-5\t99.5\n",
			Map{Time: TimeColumn{"utc", "iso"}, Columns: []Column{{"pitch rate", PitchRate, "deg/s", -1, 1, 0, nil, 0}, {"height", Altitude, "m", -1, 1, 100, nil, 0}}}},
	}
	for i, f := range files {
		text := f.text
		if i == 0 { // a spreadsheet of a Western system
			var err error
			text, err = charmap.Windows1252.NewEncoder().String(text)
			require.NoError(t, err)
		}
		if i == 2 { // sign and offset: si = sign·(scale·unit + offset)
			f.m.Columns[1].Offset = -100
		}
		rec := read(t, f.m, text)
		require.Empty(t, rec.Findings)
		require.Equal(t, 2, rec.Rows)
		require.InDeltaSlice(t, []float64{0, 0.02}, rec.Channels[PitchRate].Time, 1e-12)
		require.InDeltaSlice(t, []float64{2.5 * degree, 5 * degree}, rec.Channels[PitchRate].Value, 1e-9)
		require.InDeltaSlice(t, []float64{0, 0.5}, rec.Channels[Altitude].Value, 5e-8) // half of the last digit of the feet
	}
}

func TestReadCalibration(t *testing.T) {
	m := Map{Time: TimeColumn{"t", "s"}, Columns: []Column{{Column: "servo", Is: Elevator, Unit: "deg", Sign: 1, Scale: 1, Calibration: [][2]float64{{1000, -20}, {1500, 0}, {2000, 30}}}}}
	rec := read(t, m, "t,servo\n0,1250\n1,1500\n2,1750\n3,2100\n")
	require.InDeltaSlice(t, []float64{-10 * degree, 0, 15 * degree, 36 * degree}, rec.Channels[Elevator].Value, 1e-12)
	require.Len(t, rec.Findings, 1)
	require.Equal(t, `1 cells of column "servo" lie outside the calibration from 1000 to 2000, the first at 2100`, rec.Findings[0].What)
	require.Equal(t, 5, rec.Findings[0].Line)
}

func TestReadTimeOfDayOverMidnight(t *testing.T) {
	m := Map{Time: TimeColumn{"clock", "iso"}, Columns: []Column{{Column: "q", Is: PitchRate, Unit: "rad/s"}}}
	rec := read(t, m, "clock,q\n23:59:59.5,1\n00:00:00.25,2\n")
	require.Equal(t, []float64{0, 0.75}, rec.Channels[PitchRate].Time)
}

// Rows that are bad are left out and told, each with its line.
func TestReadFindings(t *testing.T) {
	head := "time,wy,speed\n0,1,36\n0.02,1,36\n"
	for _, c := range []struct {
		name, rows, what string
		line             int
		times            []float64
	}{
		{"repeats", "0.02,5,36\n0.04,1,36\n", "2 samples repeat a time", 4, []float64{0, 0.02, 0.04}},
		{"backward", "0.01,5,36\n0.04,1,36\n", "time runs backward: 1 rows from line 4 to 4", 4, []float64{0, 0.02, 0.04}},
		{"logger starts anew", "0.04,1,36\n0.06,1,36\n0,5,36\n0.01,5,36\n0.07,1,36\n", "time runs backward: 2 rows from line 6 to 7", 6, []float64{0, 0.02, 0.04, 0.06, 0.07}},
		{"one row ahead", "900,5,36\n0.04,1,36\n0.06,1,36\n0.08,1,36\n", "time runs backward: 1 rows from line 4 to 4", 4, []float64{0, 0.02, 0.04, 0.06, 0.08}},
		{"text", "0.04,ERR,36\n0.06,1,36\n", `1 cells of column "wy" hold no number, such as "ERR"`, 4, []float64{0, 0.02, 0.06}},
		{"no time", "x,5,36\n0.04,1,36\n", `1 rows hold no time that can be read, such as "x"`, 4, []float64{0, 0.02, 0.04}},
		{"too long", "0.04,5,36,0.05,5,36\n0.06,1,36\n", "1 rows are torn: the first has 6 cells where the heads have 3", 4, []float64{0, 0.02, 0.06}},
		{"cut", "0.04,1,3", "the last line has no end", 4, []float64{0, 0.02, 0.04}},
	} {
		t.Run(c.name, func(t *testing.T) {
			rec := read(t, fieldBox(), head+c.rows)
			require.Len(t, rec.Findings, 1)
			require.Contains(t, rec.Findings[0].What, c.what)
			require.Equal(t, c.line, rec.Findings[0].Line)
			require.NotEmpty(t, rec.Findings[0].Consequence)
			require.InDeltaSlice(t, c.times, rec.Channels[PitchRate].Time, 1e-12)
		})
	}
}

// A row of units is none of bad rows where it stands ahead of all rows, whatever chunk it falls into.
func TestReadRowOfUnits(t *testing.T) {
	head, units := "time,wy,speed\ns,deg/s,km/h\n", "s,deg/s,km/h\n"
	for _, c := range []struct {
		rows, what string
		line       int
	}{
		{units + "0,1,36\n1,2,36\n", "", 0},
		{"x,1,2\n" + units + "0,1,36\n1,2,36\n", `1 rows hold no time that can be read, such as "x"`, 3},
		{"0,1,36\n1,2,36\n" + units, `1 rows hold no time that can be read, such as "s"`, 5},
		{"0,1,36\n" + units + "x,1,2\n1,2,36\n", `2 rows hold no time that can be read, such as "s"`, 4},
		{"0,1,36\nx,1,2\n" + units + "1,2,36\n", `2 rows hold no time that can be read, such as "x"`, 4},
	} {
		for chunk := 1; chunk < 60; chunk++ {
			rec, err := readWith(strings.NewReader(head+c.rows), "a.csv", fieldBox(), 2, chunk)
			require.NoError(t, err)
			require.Equal(t, []float64{0, 1}, rec.Channels[PitchRate].Time)
			if c.what == "" {
				require.Empty(t, rec.Findings)
				continue
			}
			require.Len(t, rec.Findings, 1)
			require.Equal(t, c.what, rec.Findings[0].What)
			require.Equal(t, c.line, rec.Findings[0].Line)
		}
	}
}

// A number that a map carries beyond what float64 holds is no number.
func TestReadOverflow(t *testing.T) {
	m := fieldBox()
	m.Columns[1].Scale = 1e308
	rec := read(t, m, "time,wy,speed\n0,1,36\n1,1,1\n")
	require.Equal(t, []float64{1}, rec.Channels[Airspeed].Time)
	require.Equal(t, `1 cells of column "speed" hold no number, such as "36"`, rec.Findings[0].What)
}

// A row that is shorter than any whole row seen at the start is torn.
func TestReadTornRow(t *testing.T) {
	var b strings.Builder
	b.WriteString("time,wy,speed\n")
	for i := range 100 {
		fmt.Fprintf(&b, "%.2f,1,36\n", float64(i)*0.02)
	}
	b.WriteString("2.00,1\n2.02,1,36\n")
	rec := read(t, fieldBox(), b.String())
	require.Equal(t, 101, rec.Rows)
	require.Equal(t, "1 rows are torn: the first has 2 cells where the heads have 3", rec.Findings[0].What)
	require.Equal(t, 102, rec.Findings[0].Line)
}

// Loggers that write each sensor in a row of its own repeat the time without losing a sample.
func TestReadRowsPerSensor(t *testing.T) {
	rec := read(t, fieldBox(), "time,wy,speed\n0,1,\n0,,36\n0.02,2,\n0.02,,72\n")
	require.Empty(t, rec.Findings)
	require.Equal(t, []float64{0, 0.02}, rec.Channels[PitchRate].Time)
	require.Equal(t, []float64{0, 0.02}, rec.Channels[Airspeed].Time)
}

// However the bytes arrive, the recording is the same.
func TestReadByPieces(t *testing.T) {
	text := "time,wy,speed\n0,1,36\n0.02,2,72\n"
	whole := read(t, fieldBox(), text)
	pieces, err := Read(iotest.OneByteReader(strings.NewReader(text)), "a.csv", fieldBox())
	require.NoError(t, err)
	require.Equal(t, whole, pieces)
}
