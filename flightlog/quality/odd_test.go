package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/flightlog"
)

// Whatever a recording holds, findings come back in order, inside the recording, each with words; the recording is as it was.
func TestInspectTakesAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rec := &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{}}
		end := 0.0
		for _, q := range flightlog.Quantities() {
			if rapid.Float64Range(0, 1).Draw(t, "there") < 0.3 {
				continue
			}
			n := rapid.IntRange(0, 400).Draw(t, "samples")
			step := rapid.SampledFrom([]float64{0.01, 0.04, 0.2, 1}).Draw(t, "step")
			size := rapid.SampledFrom([]float64{0, 1e-3, 1, 30, 1e5, 1e300}).Draw(t, "size")
			coarse := rapid.Bool().Draw(t, "coarse")
			var c flightlog.Channel
			at := rapid.Float64Range(0, 5).Draw(t, "start")
			for i := range n {
				v := size * math.Sin(float64(i)*0.37+float64(len(q)))
				if coarse {
					v = math.Round(v)
				}
				c.Time, c.Value = append(c.Time, at), append(c.Value, v)
				at += step
				if i == 100 {
					at += rapid.SampledFrom([]float64{0, 3, 100}).Draw(t, "pause")
				}
			}
			if n > 0 {
				end = math.Max(end, c.Time[n-1])
			}
			rec.Channels[q] = c
		}
		for _, findings := range [][]flightlog.Finding{Inspect(rec), InAircraft(rec, modelAircraft())} {
			last := math.Inf(-1)
			for _, f := range findings {
				require.GreaterOrEqual(t, f.Start, last)
				require.LessOrEqual(t, f.Start, f.End)
				require.LessOrEqual(t, f.End, end+1e-9)
				require.NotEmpty(t, f.What)
				require.NotEmpty(t, f.Consequence)
				require.NotContains(t, f.What+f.Consequence, "NaN")
				last = f.Start
			}
		}
	})
}
