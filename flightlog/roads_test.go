package flightlog

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"
)

// However many workers read, in chunks of whatever size, and whichever road a line takes, the recording has the bits
// that the plain reader gives.
func TestReadRoadsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := drawLog(t)
		want, wantErr := referenceRead(log.text, "a.csv", log.m)
		for _, workers := range []int{1, 2, 7} {
			for _, chunk := range []int{rapid.IntRange(1, 40).Draw(t, "tiny"), rapid.IntRange(41, 4000).Draw(t, "middle"), chunkSize} {
				got, err := readWith(strings.NewReader(log.text), "a.csv", log.m, workers, chunk)
				requireSameError(t, wantErr, err)
				requireSame(t, want, got)
			}
		}
	})
}

// requireSame compares recordings to the bit.
func requireSame(t require.TestingT, want, got *Recording) {
	require.Equal(t, want, got)
	if want == nil {
		return
	}
	for q, c := range want.Channels {
		for i := range c.Time {
			require.Equal(t, math.Float64bits(c.Time[i]), math.Float64bits(got.Channels[q].Time[i]), "%s", q)
			require.Equal(t, math.Float64bits(c.Value[i]), math.Float64bits(got.Channels[q].Value[i]), "%s", q)
		}
	}
}

func requireSameError(t require.TestingT, want, got error) {
	if want == nil {
		require.NoError(t, got)
		return
	}
	require.EqualError(t, got, want.Error())
	require.Equal(t, Mistakes(want), Mistakes(got))
}

// drawnLog is the text of a log and a map that may read it.
type drawnLog struct {
	text string
	m    Map
}

// drawLog writes a log of up to eight columns in a dialect of its own, with a share of every fault that the reader knows.
func drawLog(t *rapid.T) drawnLog {
	w := logWriter{T: t, separator: rapid.SampledFrom([]string{",", ";", "\t"}).Draw(t, "separator"), decimal: "."}
	if w.separator != "," && rapid.Bool().Draw(t, "decimal comma") {
		w.decimal = ","
	}
	w.columns = rapid.IntRange(2, 8).Draw(t, "columns")
	w.timeAt = rapid.IntRange(0, w.columns-1).Draw(t, "time at")
	w.faults = rapid.SampledFrom([]int{0, 2, 20}).Draw(t, "faults in a hundred")
	w.iso = rapid.IntRange(0, 4).Draw(t, "iso") == 0
	w.blanks = rapid.SampledFrom([]int{0, 40, 90}).Draw(t, "blanks in a hundred")
	text := w.preamble() + w.heads()
	for range rapid.IntRange(0, 60).Draw(t, "rows") {
		text += w.line()
	}
	if rapid.IntRange(0, 3).Draw(t, "cut") == 0 {
		text = text[:rapid.IntRange(0, len(text)).Draw(t, "length")]
	}
	return drawnLog{w.encode(text), w.drawMap()}
}

type logWriter struct {
	*rapid.T
	separator, decimal      string
	columns, timeAt, faults int
	blanks                  int
	iso                     bool
	time                    float64
}

func (w *logWriter) chance(hundredth int, what string) bool {
	return rapid.IntRange(0, 99).Draw(w.T, what) >= 100-hundredth
}

func (w *logWriter) preamble() string {
	return rapid.SampledFrom([]string{"", "", "Box 3, calm\n\n", "# flown in the morning\n% by nobody\n"}).Draw(w.T, "preamble")
}

func (w *logWriter) heads() string {
	heads := make([]string, w.columns)
	for i := range heads {
		heads[i] = fmt.Sprintf("c%d", i)
	}
	heads[w.timeAt] = "time"
	text := strings.Join(heads, w.separator) + rapid.SampledFrom([]string{"", "", w.separator}).Draw(w.T, "behind heads") + "\n"
	if w.chance(20, "units") {
		text += strings.Repeat("s"+w.separator, w.columns-1) + "s\n"
	}
	return text
}

// line is mostly a row; with some chance something else.
func (w *logWriter) line() string {
	cells := make([]string, w.columns)
	for i := range cells {
		cells[i] = w.cell()
	}
	cells[w.timeAt] = w.now()
	if !w.chance(w.faults, "fault") {
		return strings.Join(cells, w.separator) + "\n"
	}
	row := strings.Join(cells, w.separator)
	return rapid.SampledFrom([]string{
		row[:len(row)/2], row + w.separator + row, row + w.separator, row + w.separator + " ", "\n" + row, "# " + row, " " + row, w.heads() + row,
		strings.Repeat(w.separator, w.columns-1), strings.Replace(row, w.separator, w.separator+"\"", 1), "\"" + strings.Join(cells, "\""+w.separator+"\"") + "\"", "// " + row,
		strings.Repeat("word"+w.separator, w.columns-1) + "word", "  ", "\t" + row, "\"", row + "\"\"",
	}).Draw(w.T, "odd line") + "\n"
}

// now is the time of a row. It mostly rises; it stands, steps back and runs ahead where there are faults.
func (w *logWriter) now() string {
	step := 0.02
	if w.chance(w.faults, "time fault") {
		step = rapid.SampledFrom([]float64{0, 0, -0.02, -0.04, -0.06, -0.2, 0.06, 100, -100, -1e4, 50000, math.NaN()}).Draw(w.T, "step")
	}
	if math.IsNaN(step) {
		return rapid.SampledFrom([]string{"", "x", "1e301", "-", "1e-400", "9e299", "12:00"}).Draw(w.T, "bad time")
	}
	w.time += step
	if w.iso {
		s := math.Mod(math.Abs(w.time)+86390, 86400)
		return fmt.Sprintf("%02d:%02d:%05.2f", int(s)/3600, int(s)/60%60, math.Mod(s, 60))
	}
	return strings.Replace(fmt.Sprintf("%.2f", w.time), ".", w.decimal, 1)
}

func (w *logWriter) cell() string {
	switch {
	case w.chance(w.blanks, "blank"):
		return ""
	case w.chance(w.faults, "cell fault"):
		return rapid.SampledFrom([]string{"ERR", "nan", "-", "+", ".", "1e999", "1e308", "\"1\"", "\"a\"\"b\"", " 7 ", "--1", "1.2.3", "0x1", "é", "\xe9", "-.", "+5", "1e5", "\r", "1 2",
			"12345678901234567890", "-0.000000000000000000001", "123456789.", "-12345678.123456789", "a,b"}).Draw(w.T, "odd cell")
	}
	number := rapid.StringMatching(`-?[0-9]{1,9}(\.[0-9]{0,9})?`).Draw(w.T, "cell")
	return strings.Replace(number, ".", w.decimal, 1)
}

func (w *logWriter) encode(text string) string {
	switch rapid.IntRange(0, 7).Draw(w.T, "encoding") {
	case 0:
		return strings.ReplaceAll(text, "\n", "\r\n")
	case 1:
		return strings.ReplaceAll(text, "\n", "\r")
	case 2:
		out, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(text)
		require.NoError(w.T, err)
		return out
	case 3:
		return "\ufeff" + text
	}
	return text
}

// drawMap wants some of the columns, perhaps the time as well, and perhaps one that is not there.
func (w *logWriter) drawMap() Map {
	m := Map{Name: "drawn", Time: TimeColumn{"time", "s"}}
	if w.iso {
		m.Time.Unit = "iso"
	}
	for i := range w.columns {
		head := fmt.Sprintf("c%d", i)
		if i == w.timeAt {
			head = "time"
		}
		if !w.chance(70, "mapped") {
			continue
		}
		c := Column{Column: head, Is: Quantities()[i], Scale: rapid.SampledFrom([]float64{0, 1, -2, 1e300, 1e308}).Draw(w.T, "scale"),
			Offset: rapid.SampledFrom([]float64{0, 1, -0.5}).Draw(w.T, "offset"), Delay: rapid.SampledFrom([]float64{0, 0, 0.2, -0.01}).Draw(w.T, "delay")}
		c.Unit = siUnit(c.Is)
		if w.chance(20, "calibration") {
			c.Calibration = [][2]float64{{-1000, 2}, {0, 1}, {1000, -30}}
		}
		m.Columns = append(m.Columns, c)
	}
	if w.chance(5, "another column") {
		m.Columns = append(m.Columns, Column{Column: "c77", Is: Throttle, Unit: "share"})
	}
	if len(m.Columns) > 0 && w.chance(20, "twice") {
		twice := m.Columns[0]
		twice.Is, twice.Unit = Sideslip, "rad"
		m.Columns = append(m.Columns, twice)
	}
	return m
}
