package reduce

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/flightlog"
)

// Running sums give what direct sums over the window give.
func TestSumsAgainstDirect(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(90, 110), 10, 80).Draw(t, "values")
		i := rapid.IntRange(0, len(values)-6).Draw(t, "i")
		j := rapid.IntRange(i+5, len(values)).Draw(t, "j")
		got := newSums(values).over(i, j)
		x := make([]float64, j-i)
		for k := range x {
			x[k] = float64(k) * gridStep
		}
		line := slopeFit(x, values[i:j])
		require.InDelta(t, mean(values[i:j]), got.mean, 1e-9)
		require.InDelta(t, line.value, got.trend, 1e-7)
		require.InDelta(t, math.Sqrt(dot(line.residuals, line.residuals)/float64(j-i-2)), got.scatter, 1e-6)
		require.True(t, got.whole)
	})
	values := []float64{1, 2, 3, math.NaN(), 5, 6, 7, 8}
	require.False(t, newSums(values).over(1, 5).whole)
	require.True(t, newSums(values).over(4, 8).whole)
}

// The two passes give the sums Σ_j r^|i−j|·u_j.
func TestCorrelateAgainstDirectSum(t *testing.T) {
	u, r := []float64{1, -2, 0.5, 3, 1}, 0.7
	for i, got := range correlate(u, r) {
		want := 0.0
		for j := range u {
			want += u[j] * math.Pow(r, math.Abs(float64(i-j)))
		}
		require.InDelta(t, want, got, 1e-12)
	}
}

// The expected products of residuals are what many draws give.
func TestExpectedProductAgainstDraws(t *testing.T) {
	const r, n, lag, draws = 0.8, 25, 3, 20000
	rng := rand.New(rand.NewPCG(5, 6))
	x := make([]float64, n)
	for i := range x {
		x[i] = float64(i * i)
	}
	var about, line fit
	var sums [4]float64
	for range draws {
		y := autoregression(rng, n, r)
		about, line = meanFit(y), slopeFit(x, y)
		for k, f := range []fit{about, line} {
			sums[2*k] += dot(f.residuals, f.residuals) / draws
			sums[2*k+1] += dot(f.residuals[lag:], f.residuals[:n-lag]) / draws
		}
	}
	want := []float64{about.expectedProduct(r, 0), about.expectedProduct(r, lag), line.expectedProduct(r, 0), line.expectedProduct(r, lag)}
	require.InDeltaSlice(t, want, sums[:], 0.2)
}

func autoregression(rng *rand.Rand, n int, r float64) []float64 {
	values := make([]float64, n)
	x := rng.NormFloat64()
	for i := range values {
		x = r*x + math.Sqrt(1-r*r)*rng.NormFloat64()
		values[i] = x
	}
	return values
}

// The low-pass follows a ramp without lag on an uneven time base, and leaves a gap open.
func TestSmoothFollowsRamp(t *testing.T) {
	var c flightlog.Channel
	rng := rand.New(rand.NewPCG(1, 2))
	for s := 0.0; s < 20; s += 0.01 + 0.03*rng.Float64() {
		if s < 8 || s > 10 {
			c.Time, c.Value = append(c.Time, s), append(c.Value, 3+2*s)
		}
	}
	g := &grid{start: 0, n: 200}
	for i, v := range g.smoothOver(c, lowPass, 0, g.n) {
		at := g.time(i)
		switch {
		case at > 8.35 && at < 9.65:
			require.True(t, math.IsNaN(v), "%g s", at)
		case at < 7.9 || at > 10.1:
			require.InDelta(t, 3+2*at, v, 1e-9)
		}
	}
}

// Means of a first-order autoregression scatter as much as their stated standard deviations say, for the low-passed
// white noise of a sensor and for noise that lasts a second.
func TestMeanSDOfCorrelatedNoise(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, r := range []float64{leastCorrelation, 0.9} {
		sum, stated, trials := 0.0, 0.0, 0.0
		for range 150 {
			var fits []fit
			for range 8 {
				fits = append(fits, meanFit(autoregression(rng, 80, r)))
			}
			pool := gridPool(fits)
			for _, f := range fits {
				sum, stated, trials = sum+f.value*f.value, stated+pool.sd(f)*pool.sd(f), trials+1
			}
		}
		require.InEpsilon(t, math.Sqrt(sum/trials), math.Sqrt(stated/trials), 0.15)
	}
}

// Height from static pressure and from pressure altitude agree with the hydrostatic equation in air that is 20 K
// warmer than standard.
func TestHeightRoadsAgree(t *testing.T) {
	var static, temperature, altitude []float64
	for i := range 100 {
		a := float64(i)
		standard := 288.15 - 0.0065*a
		altitude = append(altitude, a)
		static = append(static, 101325*math.Pow(standard/288.15, 9.80665/(287.05287*0.0065)))
		temperature = append(temperature, standard+20)
	}
	byPressure, byAltitude := heightFromPressure(static, temperature), heightFromAltitude(altitude, static, temperature)
	require.InDeltaSlice(t, byPressure, byAltitude, 0.02)
	require.InEpsilon(t, 99*308.15/288.15, byPressure[99], 0.001, "warm air stretches the pressure altitude by T/T_standard")
}
