package reduce

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// wave is a sine of a frequency sampled at a rate.
func wave(frequency, rate float64, n int) flightlog.Channel {
	var c flightlog.Channel
	for i := range n {
		t := float64(i) / rate
		c.Time, c.Value = append(c.Time, t), append(c.Value, math.Sin(2*math.Pi*frequency*t))
	}
	return c
}

// Half way between samples the cubic keeps a motion of an eighth of their rate to a hundredth, and one of 1/25 to 3e-4.
func TestReaderBetweenSamples(t *testing.T) {
	for frequency, tolerance := range map[float64]float64{0.125: 0.01, 0.04: 3e-4} {
		c := wave(frequency, 1, 60)
		l := reader{Channel: c}
		for i := 4; i < 50; i++ {
			at := float64(i) + 0.5
			require.InDelta(t, math.Sin(2*math.Pi*frequency*at), l.smooth(at), tolerance)
		}
	}
	l := reader{Channel: flightlog.Channel{Time: []float64{0, 1, 9, 10}, Value: []float64{0, 1, 5, 6}}}
	require.InDelta(t, 3, l.smooth(5), 1e-12, "uneven samples: the straight line")
	require.InDelta(t, 8, l.distance(5), 1e-12)
	require.Zero(t, l.distance(9))
	require.InDelta(t, 2, l.distance(12), 1e-12)
	require.InDelta(t, 1, l.smooth(1), 1e-12, "going back is allowed")
}

// The low-pass ahead of thinning out keeps what the model does, without lag, and stops what the thinner rate cannot hold.
func TestThinningOut(t *testing.T) {
	for frequency, gain := range map[float64]float64{2: 1, 10: 1, 80: 0, 95: 0} {
		r := raster{start: 0, step: 1.0 / 200, every: 2, n: 100, margin: 2*kernelHalf + slopeHalf(1.0/200)}
		fine := make([]float64, r.fine())
		for i := range fine {
			fine[i] = math.Sin(2 * math.Pi * frequency * r.time(i))
		}
		for i, v := range r.reduced(fine) {
			require.InDelta(t, gain*math.Sin(2*math.Pi*frequency*(r.start+float64(i)*0.01)), v, 0.005, "%g Hz", frequency)
		}
	}
}

// A command is what was given last, at its own times; a reading that was written again is one reading.
func TestHeldAndReadings(t *testing.T) {
	r := raster{start: 1, step: 0.1, every: 1, n: 5}
	c := flightlog.Channel{Time: []float64{0.5, 1.15, 1.3}, Value: []float64{1, 2, 3}}
	require.Equal(t, []float64{1, 1, 2, 3, 3}, r.held(c))
	require.Equal(t, []float64{0, 0, 0, 0, 0}, r.held(flightlog.Channel{}))
	again := readings(flightlog.Channel{Time: []float64{0, 0.1, 0.2, 0.3, 0.4, 0.5}, Value: []float64{4, 4, 5, 5, 5, 5}})
	require.Equal(t, flightlog.Channel{Time: []float64{0, 0.2, 0.5}, Value: []float64{4, 5, 5}}, again)
}

// The slope of a cubic is exact, at the ends too where the nearest window serves for a straight line.
func TestCubicSlopes(t *testing.T) {
	const step = 0.02
	v := make([]float64, 30)
	for i := range v {
		x := float64(i) * step
		v[i] = 2 - 3*x + 5*x*x - 7*x*x*x
	}
	got := cubicSlopes(v, step)
	for i := slopeHalf(step); i < len(v)-slopeHalf(step); i++ {
		x := float64(i) * step
		require.InDelta(t, -3+10*x-21*x*x, got[i], 1e-9)
	}
	require.InDelta(t, got[slopeHalf(step)], got[0], 1e-12)
}

// By hand: a unit 0.4 m ahead of the CG in a pitch acceleration of 5 rad/s² feels 0.4·5 = 2 m/s² upwards more than the CG; at 2 rad/s of
// pitch rate 0.4·2² = 1.6 m/s² backwards.
func TestAtCGByHand(t *testing.T) {
	const step, n = 0.02, 41
	var rate, force [3][]float64
	for k := range 3 {
		rate[k], force[k] = make([]float64, n), make([]float64, n)
	}
	for i := range n {
		rate[1][i] = 2 + 5*(float64(i)-20)*step
		force[0][i] = -0.4 * rate[1][i] * rate[1][i]
		force[2][i] = -0.4 * 5
	}
	atCG(force, rate, [3]float64{0.4, 0, 0}, step)
	for i := range n {
		for k := range 3 {
			require.InDelta(t, 0, force[k][i], 1e-9)
		}
	}
}
