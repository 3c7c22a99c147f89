package reduce

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// plainSmooth is the fit at one instant, each sum by itself over all samples.
func plainSmooth(c flightlog.Channel, at, width float64) float64 {
	var s0, s1, s2, y0, y1 float64
	nearest := math.Inf(1)
	for k, t := range c.Time {
		if d := (t - at) / width; t >= at-3*width && t <= at+3*width {
			w := math.Exp(-d * d / 2)
			s0, s1, s2, y0, y1 = s0+w, s1+w*d, s2+w*d*d, y0+w*c.Value[k], y1+w*d*c.Value[k]
			nearest = math.Min(nearest, math.Abs(d))
		}
	}
	switch determinant := s0*s2 - s1*s1; {
	case nearest > 2:
		return math.NaN()
	case determinant > 0.05*s0*s0:
		return (s2*y0 - s1*y1) / determinant
	}
	return y0 / s0
}

// Channels that share their times are smoothed at once, those with other times by themselves: each gets the very numbers of the plain fit.
func TestChannelsSmoothedTogether(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 9))
	noise := func(step float64) flightlog.Channel {
		var c flightlog.Channel
		for s := 0.0; s < 30; s += step {
			if s < 8 || s > 10 {
				c.Time, c.Value = append(c.Time, s), append(c.Value, rng.NormFloat64())
			}
		}
		return c
	}
	g := &grid{n: 300, width: lowPass, series: map[flightlog.Quantity][]float64{}, clean: map[flightlog.Quantity]flightlog.Channel{
		flightlog.RollRate: noise(0.04), flightlog.PitchRate: noise(0.04), flightlog.Airspeed: noise(0.2), flightlog.YawRate: noise(0.04)}}
	g.smoothTogether([]flightlog.Quantity{flightlog.RollRate, flightlog.Airspeed, flightlog.PitchRate, flightlog.YawRate})
	require.Len(t, g.series, 4)
	for _, q := range []flightlog.Quantity{flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate, flightlog.Airspeed} {
		for i, got := range g.get(q) {
			want := plainSmooth(g.clean[q], g.time(i), lowPass)
			require.True(t, got == want || math.IsNaN(got) && math.IsNaN(want), "%s at %g s: %g, plain %g", q, g.time(i), got, want)
		}
	}
}
