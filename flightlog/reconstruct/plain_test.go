package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

func sampled(n int, step float64, value func(t float64) float64) flightlog.Channel {
	var c flightlog.Channel
	for i := range n {
		c.Time, c.Value = append(c.Time, float64(i)*step), append(c.Value, value(float64(i)*step))
	}
	return c
}

func TestLineReadsAndIntegratesStraightPieces(t *testing.T) {
	l := newLine(flightlog.Channel{Time: []float64{0, 1, 3, 4}, Value: []float64{0, 2, 2, 0}})
	for _, c := range []struct{ t, value, integral float64 }{
		{-1, 0, 0}, {0.5, 1, 0.25}, {2, 2, 3}, {3.5, 1, 5.75}, {4, 0, 6}, {9, 0, 6}, {0.5, 1, 0.25}, {3, 2, 5},
	} {
		require.InDelta(t, c.value, l.at(c.t), 1e-15, "at %g", c.t)
		require.InDelta(t, c.integral, l.integral(c.t), 1e-15, "integral to %g", c.t)
	}
	require.True(t, l.near(0.5, 1.5))
	require.False(t, l.near(2, 1.5), "in a gap of 2 s")
	require.False(t, l.near(7, 1.5), "beyond the end")
	require.True(t, l.whole(0.2, 0.8, 1.5))
	require.False(t, l.whole(0.2, 1.8, 1.5))
	require.False(t, l.whole(3.2, 5, 1.5), "not known to the end")
}

func TestDerivativeIsExactForParabolas(t *testing.T) {
	c := sampled(60, 0.04, func(t float64) float64 { return 1 + 2*t - 3*t*t })
	d := derivative(c, 0.1)
	for i := range c.Time {
		require.InDelta(t, 2-6*c.Time[i], d.Value[i], 1e-9)
	}
}

func TestThinningKeepsMeansAndTimes(t *testing.T) {
	c := thinned(sampled(1000, 0.0025, func(t float64) float64 { return 3 * t }), 100)
	require.Len(t, c.Time, 250)
	for i := range c.Time {
		require.InDelta(t, 3*c.Time[i], c.Value[i], 1e-12)
	}
	same := sampled(100, 0.01, math.Sin)
	require.Equal(t, same, thinned(same, 100))
}

func TestUnwrapAndClean(t *testing.T) {
	c := unwrap(flightlog.Channel{Time: []float64{0, 1, 2}, Value: []float64{6.2, 0.1, 6.1}})
	require.InDeltaSlice(t, []float64{6.2, 0.1 + 2*math.Pi, 6.1}, c.Value, 1e-12)
	s := Setup{Barred: []Stretch{{flightlog.RollRate, 1, 2}, {"", 5, 6}, {flightlog.YawRate, 7, 8}}}
	kept := clean(flightlog.Channel{Time: []float64{0, 1.5, 3, 4, 4, 5.5, 7.5, 9}, Value: []float64{1, 2, math.NaN(), 4, 5, 6, 7, 8}}, s, flightlog.RollRate)
	require.Equal(t, flightlog.Channel{Time: []float64{0, 4, 7.5, 9}, Value: []float64{1, 4, 7, 8}}, kept)
}

// White noise comes back from noise alone, on a random walk, and on motion that is curved; rounding counts as noise.
func TestWhiteNoise(t *testing.T) {
	r := stream(11)
	walk := 0.0
	for _, c := range []struct {
		name  string
		value func(i int) float64
	}{
		{"alone", func(int) float64 { return 0 }},
		{"on a random walk", func(int) float64 { walk += 0.05 * r.NormFloat64(); return walk }},
		{"on motion", func(i int) float64 { return 20 * math.Sin(0.08*float64(i)) }},
	} {
		v := make([]float64, 6000)
		for i := range v {
			v[i] = c.value(i) + 0.15*r.NormFloat64()
		}
		require.InEpsilon(t, 0.15, whiteNoise(v), 0.08, c.name)
	}
	rounded := make([]float64, 6000)
	for i := range rounded {
		rounded[i] = math.Round(1.7*math.Sin(0.011*float64(i))*10) / 10
	}
	require.InEpsilon(t, 0.1/math.Sqrt(12), whiteNoise(rounded), 0.5)
	require.Zero(t, whiteNoise([]float64{1, 2}))
}

// Level and length of gusts come back from an exact autocovariance.
func TestFitDecay(t *testing.T) {
	level, length, ok := fitDecay(func(lag int) float64 { return 0.36 * math.Exp(-float64(lag)*0.2*24/40) }, 0.2, 24)
	require.True(t, ok)
	require.InEpsilon(t, 0.6, level, 0.02)
	require.InEpsilon(t, 40, length, 0.06)
	level, _, _ = fitDecay(func(int) float64 { return 1e-5 }, 0.2, 24)
	require.Equal(t, leastGust, level)
}

// MIL-F-8785C 3.7.3.4 at 100 ft and 1000 ft, from memory of the formula: (0.177+0.0823)^0.4 and (0.177+0.823)^0.4 = 1.
func TestVerticalShare(t *testing.T) {
	require.InDelta(t, 0.583, verticalShare(100*0.3048), 5e-4)
	require.InDelta(t, 1, verticalShare(1000*0.3048), 1e-12)
	require.InDelta(t, 1, verticalShare(3000), 1e-12)
}

// The variance of a mean of a first-order process against the double sum of its correlations.
func TestAveraged(t *testing.T) {
	const memory, length, n = 1.3, 4.0, 2000
	sum := 0.0
	for lag := -n + 1; lag < n; lag++ {
		sum += float64(n-max(lag, -lag)) * math.Exp(-math.Abs(float64(lag))*length/n/memory)
	}
	require.InEpsilon(t, sum/n/n, averaged(memory, length), 1e-3)
	require.Equal(t, 1.0, averaged(1, 0))
	require.InDelta(t, 1, averaged(1000, 1), 1e-3)
}

func TestMeanOfNothing(t *testing.T) {
	require.True(t, math.IsNaN((&Path{}).Mean(0, 1).Alpha))
}

// White innovations of the right size pass; alike neighbours and a wrong size are said.
func TestWhiteness(t *testing.T) {
	r := stream(5)
	judge := func(size, alike float64) Whiteness {
		var t tally
		last := 0.0
		for i := range 4000 {
			last = alike*last + math.Sqrt(1-alike*alike)*r.NormFloat64()
			t.add(float64(i)*0.04, 0, &gain{innovation: size * last, variance: 0.04}, used)
		}
		return t.whiteness(airspeed, 0.01)
	}
	good := judge(1, 0)
	require.True(t, good.White && good.Consistent)
	require.Empty(t, good.Sentence)
	large := judge(1.6, 0)
	require.True(t, large.White && !large.Consistent && large.matters())
	require.Contains(t, large.Sentence, "1.6")
	slow := judge(1, 0.6)
	require.True(t, !slow.White && slow.matters())
	require.InDelta(t, 0.6, slow.Correlation, 0.05)
	require.Contains(t, slow.Sentence, "alike")
}

// Height: 1 hPa near the ground is 8.43 m at 15 °C (R·T/(g·p) of ISO 2533), and goes with temperature.
func TestHeightFromPressure(t *testing.T) {
	for _, kelvin := range []float64{288.15, 268.15} {
		c := sampled(100, 0.04, func(t float64) float64 { return 101325 - 50*math.Max(0, t-1.5) })
		a := &air{forHeight: c, atField: kelvin}
		h := a.height()
		drop := 50 * (c.Time[99] - 1.5)
		require.InDelta(t, 287.05287*kelvin/9.80665*drop/(101325-drop/2), h.Value[99], 0.01)
	}
}

// The field's pressure is found from two channels that disagree by where they count from.
func TestFieldPressure(t *testing.T) {
	static := sampled(100, 0.04, func(t float64) float64 { return 99000 })
	high := sampled(100, 0.04, func(t float64) float64 { return 100 })
	field := fieldPressure(static, high, 0)
	require.InDelta(t, 99000+100*1.2*9.80665, field, 15)
	require.Equal(t, 99000.0, fieldPressure(static, flightlog.Channel{}, 0))
	require.Equal(t, 97000.0, fieldPressure(flightlog.Channel{}, high, 97000))
}
