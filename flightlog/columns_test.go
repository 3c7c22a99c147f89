package flightlog

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The delay of a sensor is taken off its channel's time, and off the findings about it; nothing else moves.
func TestReadDelay(t *testing.T) {
	m := fieldBox()
	m.Columns[1].Delay = 0.25
	rec := read(t, m, "time,wy,speed\n10,1,36\n10.5,2,x\n11,3,72\n")
	require.Equal(t, []float64{0, 0.5, 1}, rec.Channels[PitchRate].Time)
	require.Equal(t, []float64{-0.25, 0.75}, rec.Channels[Airspeed].Time)
	require.Equal(t, map[Quantity]float64{Airspeed: 0.25}, rec.Delays)
	require.Len(t, rec.Findings, 1)
	require.Equal(t, 0.25, rec.Findings[0].Start)
	require.Nil(t, read(t, fieldBox(), "time,wy,speed\n10,1,36\n").Delays)
}

func TestReadRefusesDelays(t *testing.T) {
	for _, delay := range []float64{math.NaN(), math.Inf(1), -61, 200} {
		m := fieldBox()
		m.Columns[0].Delay = delay
		_, err := Read(strings.NewReader("time,wy,speed\n0,1,36\n"), "a.csv", m)
		require.EqualError(t, err, fmt.Sprintf(`a.csv: the logger map "field box", column "wy": a delay of %g s is none of a sensor; write it in seconds, such as 0.2`, delay))
	}
}

func TestReadSensors(t *testing.T) {
	m := fieldBox()
	m.Sensors.Tube = &Place{X: 0.1, Z: 0.02}
	require.Equal(t, m.Sensors, read(t, m, "time,wy,speed\n0,1,36\n").Sensors)
}

// Channels with samples in the same rows share their time; one that parts from them, if only in the last row, does not.
func TestChannelsShareTime(t *testing.T) {
	m := fieldBox()
	m.Columns = append(m.Columns, Column{Column: "a", Is: Altitude, Unit: "m"}, Column{Column: "b", Is: ClimbRate, Unit: "m/s", Delay: 0.1}, Column{Column: "c", Is: Heading, Unit: "rad"})
	var text strings.Builder
	text.WriteString("time,wy,speed,a,b,c\n")
	for i := range 1000 {
		fmt.Fprintf(&text, "%d,1,2,3,4,%s\n", i, strings.Repeat("5", i%2))
	}
	text.WriteString("1000,1,2,,4,5\n")
	for _, chunk := range []int{50, chunkSize} {
		rec, err := readWith(strings.NewReader(text.String()), "a.csv", m, 2, chunk)
		require.NoError(t, err)
		rate, speed, altitude, climb := rec.Channels[PitchRate], rec.Channels[Airspeed], rec.Channels[Altitude], rec.Channels[ClimbRate]
		require.Same(t, &rate.Time[0], &speed.Time[0])
		require.NotSame(t, &rate.Time[0], &altitude.Time[0])
		require.Equal(t, rate.Time[:1000], altitude.Time)
		require.NotSame(t, &rate.Time[0], &climb.Time[0])
		require.Len(t, rec.Channels[Heading].Time, 501)
		// whoever appends gets a slice of his own
		require.Equal(t, len(rate.Time), cap(rate.Time))
		require.Equal(t, len(rate.Value), cap(rate.Value))
	}
}

// Channels get the room that they need and little more, on a log whose sensors start one after the other.
func TestRoomForChannels(t *testing.T) {
	m := Map{Time: TimeColumn{"time", "s"}}
	heads := "time"
	for i, q := range Quantities()[:8] {
		heads += fmt.Sprintf(",c%d", i)
		m.Columns = append(m.Columns, Column{Column: fmt.Sprintf("c%d", i), Is: q, Unit: siUnit(q)})
	}
	const rows = 200_000
	var text bytes.Buffer
	text.WriteString(heads + "\n")
	for i := range rows {
		fmt.Fprintf(&text, "%.2f", float64(i)/100)
		for k := range 8 {
			text.WriteByte(',')
			if i*10 > rows*k && (i+k)%(k+1) == 0 {
				fmt.Fprintf(&text, "%.3f", float64(i*(k+1)%1999))
			}
		}
		text.WriteByte('\n')
	}
	for name, r := range map[string]interface {
		Read([]byte) (int, error)
	}{
		"size and places known": bytes.NewReader(text.Bytes()),
		"a stream":              bytes.NewBuffer(text.Bytes()),
	} {
		a, err := assemble(r, "a.csv", m, 2, chunkSize)
		require.NoError(t, err)
		needed := 0
		for _, base := range a.columns.bases {
			needed += (1 + len(base.channels)) * len(base.time)
		}
		most := 1.1
		if name == "a stream" {
			most = 2 // of a small one; 1.125 beyond half a megabyte a channel
		}
		require.Less(t, float64(a.columns.held), most*float64(needed), name)
		require.GreaterOrEqual(t, a.columns.held, needed, name)
	}
}

// A reader that holds less than it says is read all the same.
func TestReadMisjudgedSize(t *testing.T) {
	text := "time,wy,speed\n0,1,36\n1,2,36\n"
	for _, size := range []int64{int64(len(text)) + 1, 1 << 20, 1 << 30, math.MaxInt64} {
		rec, err := Read(io.NewSectionReader(strings.NewReader(text), 0, size), "a.csv", fieldBox())
		require.NoError(t, err)
		require.Equal(t, 2, rec.Rows)
	}
}
