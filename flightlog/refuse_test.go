package flightlog

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"
)

func TestReadMistakes(t *testing.T) {
	gzip := "\x1f\x8b\x08\x00" + strings.Repeat("\x00\x01\x02", 40)
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "a.csv: the file is empty; give a log with a line of column heads and rows of numbers"},
		{"binary", "\x00\x01\x02\x03\x04\x05", "a.csv: the file is binary, not a text table; export the log as CSV from the logger's own software"},
		{"packed", gzip, "a.csv: the file is compressed, not a text table; unpack it first"},
		{"no table", "dear diary\nnothing flew today\n", "a.csv:1: no table was found in the first 3 lines; give a line of column heads and rows of numbers, split by comma, semicolon or tab"},
		{"no heads", "0,1,2\n1,2,3\n", "a.csv:1: the table begins with numbers and has no line of column heads; the first part of the file is missing, or put a line above it that names the columns"},
		{"heads only", "time,wy,speed\n", "a.csv:1: there is no row of samples below the heads; give a log with samples"},
		{"no such column", "time,wx,velocity\n0,1,2\n",
			`a.csv:1:6: no column "wy", which the logger map "field box" names for pitch_rate; the nearest is "wx"; the heads are "time", "wx", "velocity"` + "\n" +
				`a.csv:1: no column "speed", which the logger map "field box" names for airspeed; the heads are "time", "wx", "velocity"`},
		{"no time column", "clock,wy,speed\n0,1,2\n", `a.csv:1: no column "time", which the logger map "field box" names for time; the heads are "clock", "wy", "speed"`},
		{"time in words", "time,wy,speed\n10:15:30.5,1,2\n10:15:30.6,1,2\n", `a.csv:2:1: column "time" holds "10:15:30.5", which is no time in s; name another column or another unit of time in the logger map: s, ms, us or iso`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Read(strings.NewReader(c.text), "a.csv", fieldBox())
			require.EqualError(t, err, c.want)
			require.NotEmpty(t, Mistakes(err))
		})
	}
}

func TestReadBadMap(t *testing.T) {
	m := fieldBox()
	m.Time.Unit = "fortnight"
	m.Columns[0].Unit = "m/s"
	m.Columns[1].Is = "colour"
	m.Columns = append(m.Columns, Column{Column: "wy", Is: RollRate, Unit: "deg/s", Calibration: [][2]float64{{2, 1}, {1, 2}}})
	_, err := Read(strings.NewReader("time,wy,speed\n0,1,2\n"), "a.csv", m)
	require.ErrorContains(t, err, `"m/s" is no unit of angular rate; write one of deg_s, rad_s`)
	require.ErrorContains(t, err, `"colour" is no quantity; write one of roll_rate`)
	require.ErrorContains(t, err, `the calibration does not rise`)
	require.ErrorContains(t, err, `time unit "fortnight" is unknown; write s, ms, us or iso`)
	require.Len(t, Mistakes(err), 4)
}

// A disk that fails is no mistake of the log's author.
func TestReadFailingReader(t *testing.T) {
	broken := errors.New("the card was pulled")
	_, err := Read(iotest.ErrReader(broken), "a.csv", fieldBox())
	require.ErrorIs(t, err, broken)
	require.Empty(t, Mistakes(err))
	for _, begun := range []string{"", "0,1"} {
		for workers := 1; workers < 4; workers++ {
			long := strings.NewReader("time,wy,speed\n" + strings.Repeat("0,1,2\n", 100_000) + begun)
			_, err = readWith(io.MultiReader(long, iotest.ErrReader(broken)), "a.csv", fieldBox(), workers, 10_000)
			require.ErrorIs(t, err, broken)
			require.EqualError(t, err, "read a.csv:100002: the card was pulled")
		}
	}
}

func TestReadRefusesEndlessLine(t *testing.T) {
	text := "time,wy,speed\n" + strings.Repeat("0,1,2\n", 60_000) + strings.Repeat("9", lineSize+1)
	for _, chunk := range []int{100, 10_000, chunkSize, lineSize} {
		_, err := readWith(strings.NewReader(text), "a.csv", fieldBox(), 2, chunk)
		requireEndless(t, err)
	}
	_, err := Read(io.MultiReader(strings.NewReader(text), strings.NewReader("\n0,1,2\n")), "a.csv", fieldBox())
	requireEndless(t, err)
	rec := read(t, fieldBox(), "time,wy,speed\n0,1,2\n1,1,"+strings.Repeat(" ", lineSize-10)+"\n2,1,3\n")
	require.Equal(t, 3, rec.Rows, "a line of that length is read")
}

func requireEndless(t *testing.T, err error) {
	t.Helper()
	require.EqualError(t, err, fmt.Sprintf("a.csv:60002: the line is longer than %d bytes; give a table with one row a line", lineSize))
}
