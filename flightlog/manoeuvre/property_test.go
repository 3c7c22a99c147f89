package manoeuvre_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// requireSound asks what holds of any recording: in order, inside the recording, numbers that can be written, and no two at
// one time unless both are inputs.
func requireSound(t require.TestingT, rec *flightlog.Recording) {
	start, end := math.Inf(1), math.Inf(-1)
	for _, c := range rec.Channels {
		if n := len(c.Time); n > 0 {
			start, end = math.Min(start, c.Time[0]), math.Max(end, c.Time[n-1])
		}
	}
	found := manoeuvre.Find(rec)
	for i, m := range found {
		require.GreaterOrEqual(t, m.Start, start, m.Detail)
		require.LessOrEqual(t, m.End, end, m.Detail)
		require.LessOrEqual(t, m.Start, m.End, m.Detail)
		require.NotEmpty(t, m.Detail)
		require.Equal(t, len(m.Widths), len(m.Amplitudes))
		_, err := json.Marshal(m)
		require.NoError(t, err)
		if i > 0 {
			require.LessOrEqual(t, found[i-1].Start, m.Start)
		}
		for _, other := range found[:i] {
			if len(m.Widths) == 0 || len(other.Widths) == 0 {
				require.LessOrEqual(t, math.Min(m.End, other.End)-math.Max(m.Start, other.Start), 0.15, "%s; %s", other.Detail, m.Detail)
			}
		}
	}
	for _, f := range manoeuvre.Missing(rec) {
		require.NotEmpty(t, f.What)
		require.NotEmpty(t, f.Consequence)
		_, err := json.Marshal(f)
		require.NoError(t, err)
	}
	require.Equal(t, found, manoeuvre.Find(rec), "a second search finds the same")
}

// channel draws a time base with steps from milliseconds to minutes and values that rest, jump and wander, some of any size.
func channel(t *rapid.T, label string) flightlog.Channel {
	n := rapid.IntRange(0, 300).Draw(t, label+" samples")
	step := math.Pow(10, rapid.Float64Range(-3, 0).Draw(t, label+" step"))
	size := math.Pow(10, rapid.Float64Range(-2, 2.5).Draw(t, label+" size"))
	gaps := rapid.SliceOfN(rapid.IntRange(0, 40), n, n).Draw(t, label+" gaps")
	moves := rapid.SliceOfN(rapid.IntRange(-3, 3), n, n).Draw(t, label+" moves")
	var c flightlog.Channel
	at, value := rapid.Float64Range(-5, 5).Draw(t, label+" start"), 0.0
	for i := range n {
		at += step
		if gaps[i] == 40 {
			at += 100 * step
		}
		if gaps[i] < 8 {
			value = size * float64(moves[i])
		}
		c.Time, c.Value = append(c.Time, at), append(c.Value, value)
	}
	return c
}

func TestAnyRecording(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rec := &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{}}
		for _, q := range rapid.SliceOfDistinct(rapid.SampledFrom(flightlog.Quantities()), rapid.ID).Draw(t, "channels") {
			rec.Channels[q] = channel(t, string(q))
		}
		requireSound(t, rec)
	})
}

// Flights from which channels are missing and in which others have holes.
func TestAnyLossInAFlight(t *testing.T) {
	logs := flights(t, 201, 4)
	rapid.Check(t, func(t *rapid.T) {
		log := rapid.SampledFrom(logs).Draw(t, "flight")
		rec := log.Recording("rehearsed")
		for _, q := range flightlog.Quantities() {
			c, ok := rec.Channels[q]
			if !ok {
				continue
			}
			switch rapid.IntRange(0, 5).Draw(t, string(q)) {
			case 0:
				delete(rec.Channels, q)
			case 1:
				from := rapid.IntRange(0, len(c.Time)).Draw(t, "from")
				to := rapid.IntRange(from, len(c.Time)).Draw(t, "to")
				rec.Channels[q] = flightlog.Channel{
					Time:  append(append([]float64{}, c.Time[:from]...), c.Time[to:]...),
					Value: append(append([]float64{}, c.Value[:from]...), c.Value[to:]...),
				}
			}
		}
		requireSound(t, &rec)
	})
}
