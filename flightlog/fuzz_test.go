package flightlog

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// fuzzMaps read the same heads in different ways.
func fuzzMaps() []Map {
	iso := Map{Time: TimeColumn{"time", "iso"}, Columns: []Column{{Column: "wy", Is: PitchRate, Unit: "rad/s", Delay: 0.2}, {Column: "wy", Is: RollRate, Unit: "deg/s"}}}
	servo := Map{Name: "servo", Time: TimeColumn{"time", "ms"}, Columns: []Column{
		{Column: "speed", Is: Elevator, Unit: "deg", Sign: -1, Calibration: [][2]float64{{1, -20}, {36, 0}, {72, 30}}},
		{Column: "time", Is: Altitude, Unit: "ft", Scale: 1e300, Delay: -3},
	}}
	return []Map{fieldBox(), iso, servo}
}

// A bad log may be refused, never panic; every mistake points into the file. What is read keeps the promises of Channel,
// and has the bits of the plain reader for any number of workers and any size of chunk.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{
		"time,wy,speed\n0,1,36\n0.02,2,72\n", "time;wy;speed\n0,0;1,5;36\n", "\ufefftime\twy\tspeed\n1e3\t-\tnan\n",
		"\xff\xfet\x00i\x00m\x00e\x00,\x00w\x00y\x00\n\x00", "time,wy,speed\n\"1,2", "# time,wy,speed\n\n\n0,,\n0,1,1\n-1,1,1\n",
		"time,wy,speed\r0,1,2\r1,9e999,3\r", ",,\n,,\n", "time,wy,speed\n5,1,1\n1,1,1\n2,1,1\n3,1,1\n",
		"time,wy,speed\n10:15:30.5,1,2\n23:59:59,-1,\n00:00:01,+1,7\n", "time,wy,speed\ns,deg/s,m/s\n0,1\n0,1,2,3\ntime,wy,speed\n1,2,3,,\n2,\"2\",3\n3",
		"time,wy,speed\n1,1,1\n900,1,1\n901,1,1\n2,1,1\n3,1,1\n4,1,1\n3,5,5\n3,6,6\n5,1,1\n", "time,wy,speed\r\n1,12345678.12345678,-123456789.5\r\n1e300,1,1\r\n-1e300,2,2\r\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		maps := fuzzMaps()
		if s, err := Sniff(bytes.NewReader(in), "f.csv"); err == nil {
			m, guesses := SuggestMap(s)
			require.Len(t, guesses, len(s.Heads))
			maps = append(maps, m)
		} else {
			requirePlaces(t, err, in)
		}
		for _, m := range maps {
			want, wantErr := referenceRead(string(in), "f.csv", m)
			one, err := readWith(bytes.NewReader(in), "f.csv", m, 1, chunkSize)
			requireSameError(t, wantErr, err)
			requireSame(t, want, one)
			three, err := readWith(bytes.NewReader(in), "f.csv", m, 3, 7)
			requireSameError(t, wantErr, err)
			requireSame(t, want, three)
			if wantErr != nil {
				requirePlaces(t, wantErr, in)
				continue
			}
			requireSound(t, one)
		}
	})
}

// Any map is refused with Mistakes or gives a sound recording.
func FuzzMap(f *testing.F) {
	f.Add([]byte{1, 0, 0, 2, 0, 1, 2, 1, 0, 0, 0, 3, 0, 1, 16, 1, 1, 0, 2, 1, 2, 4, 2, 5, 1, 1, 3}, "time,wy,speed\n0,1,1200\n0.02,2,1700\n0.01,1,1\n0.04,x,")
	f.Add([]byte{}, "time,wy,speed\n0,1,36\n0.02,2,72\n")
	f.Add(append([]byte{0, 0, 2, 0, 0, 0, 1, 0, 1, 3, 0, 0, 0}, bytes.Repeat([]byte{0xff, 0xf0}, 60)...), "time;wy;speed\n0;1,5;36\n5;1e308;-1e308\n4;2;72\n4;3;73\n")
	f.Add(bytes.Repeat([]byte{3, 1, 4, 1, 5, 9, 2, 6}, 30), "# x\ntime,wy,speed\ns,,\n-1e300,1000,1500\n1e300,2000,1499.5\n")
	f.Add(bytes.Repeat([]byte{0, 1, 2, 0, 0, 1}, 40), "time\twy\tspeed\n10:15:30\t1\t2\n10:15:31\t1\t2\n")
	f.Fuzz(func(t *testing.T, bytes []byte, text string) {
		m := drawnMap(&fuzzBytes{bytes})
		want, wantErr := referenceRead(text, "f.csv", m)
		got, err := readWith(strings.NewReader(text), "f.csv", m, 2, 11)
		requireSameError(t, wantErr, err)
		requireSame(t, want, got)
		if err != nil {
			requirePlaces(t, err, []byte(text))
			return
		}
		require.Equal(t, m.Sensors, got.Sensors)
		requireSound(t, got)
	})
}

// requireSound holds a recording against what its fields promise.
func requireSound(t *testing.T, rec *Recording) {
	require.Positive(t, rec.Rows)
	finite := func(v float64) { require.False(t, math.IsNaN(v) || math.IsInf(v, 0)) }
	for q, c := range rec.Channels {
		require.NotEmpty(t, q.Dimension())
		require.Len(t, c.Value, len(c.Time))
		require.LessOrEqual(t, len(c.Time), rec.Rows)
		for i := range c.Time {
			finite(c.Value[i])
			finite(c.Time[i])
			require.True(t, i == 0 || c.Time[i] > c.Time[i-1])
		}
	}
	for _, f := range rec.Findings {
		require.NotEmpty(t, f.What)
		require.NotEmpty(t, f.Consequence)
		require.Contains(t, []Severity{Note, Loss}, f.Severity)
		require.Positive(t, f.Line)
		finite(f.Start)
		finite(f.End)
	}
}

// requirePlaces sees to it that an error is made of mistakes which stand in the text, and tells what would be right.
func requirePlaces(t *testing.T, err error, in []byte) {
	require.NotEmpty(t, Mistakes(err))
	lines := [][]byte{nil} // an empty text has one line
	if text, err := openText(bytes.NewReader(in), "f.csv"); err == nil {
		all, err := io.ReadAll(text)
		require.True(t, err == nil || errors.Is(err, io.ErrUnexpectedEOF), err)
		lines = bytes.Split(all, []byte("\n"))
	}
	for _, m := range Mistakes(err) {
		require.Equal(t, "f.csv", m.File)
		require.NotEmpty(t, m.What)
		require.NotEmpty(t, m.Right)
		require.LessOrEqual(t, m.Line, len(lines))
		require.True(t, m.Line > 0 || m.Column == 0)
		if m.Line > 0 {
			require.LessOrEqual(t, m.Column, len(lines[m.Line-1])+1)
		}
	}
}

// fuzzBytes makes choices out of bytes, and zeros when they are used up.
type fuzzBytes struct{ left []byte }

func (f *fuzzBytes) byte() (b byte) {
	if len(f.left) > 0 {
		b, f.left = f.left[0], f.left[1:]
	}
	return b
}

// number is a usual one or one of any bits.
func (f *fuzzBytes) number() float64 {
	usual := []float64{0, 1, -1, 0.2, 1000, 1500, 2000, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64}
	if i := int(f.byte()); i < 4*len(usual) {
		return usual[i%len(usual)]
	}
	var bits [8]byte
	f.left = f.left[copy(bits[:], f.left):]
	return math.Float64frombits(binary.LittleEndian.Uint64(bits[:]))
}

func pick[T any](f *fuzzBytes, of []T) T { return of[int(f.byte())%len(of)] }

func drawnMap(f *fuzzBytes) Map {
	heads := []string{"time", "wy", "speed", "Speed ", "wx", "", "é"}
	quantities := append(Quantities(), "colour", "")
	m := Map{Name: pick(f, []string{"", "box", "a \"b\""}), Time: TimeColumn{pick(f, heads), pick(f, []string{"s", "ms", "us", "iso", "", "kg"})}}
	for range f.byte() % 6 {
		c := Column{Column: pick(f, heads[1:]), Is: pick(f, quantities), Sign: f.number(), Scale: f.number(), Offset: f.number()}
		c.Unit = pick(f, []string{siUnit(c.Is), siUnit(c.Is), "deg", "km/h", "", "c"})
		if f.byte()%4 == 0 {
			c.Delay = f.number()
		}
		for range f.byte() % 4 {
			c.Calibration = append(c.Calibration, [2]float64{f.number(), f.number()})
		}
		m.Columns = append(m.Columns, c)
	}
	if f.byte()%2 == 1 {
		m.Sensors.Tube = &Place{f.number(), 1, 2}
		m.Sensors.Tube.X = math.Floor(m.Sensors.Tube.X)
	}
	return m
}
