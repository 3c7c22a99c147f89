package statistic

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked by hand: of 1, 2, 4, 8 the quarter lies three quarters of the way from 1 to 2, and nothing is sorted in place.
func TestQuantile(t *testing.T) {
	values := []float64{8, 1, 4, 2}
	require.InDelta(t, 3.0, Median(values), 0)
	require.InDelta(t, 1.75, Quantile(values, 0.25), 0)
	require.InDelta(t, 1.0, Quantile(values, 0), 0)
	require.InDelta(t, 8.0, Quantile(values, 1), 0)
	require.Equal(t, []float64{8, 1, 4, 2}, values)
	require.True(t, math.IsNaN(Median(nil)))
}

// sortedQuantile is Quantile the plain way.
func sortedQuantile(values []float64, share float64) float64 {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	place := share * float64(len(sorted)-1)
	i := int(place)
	if i+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + (place-float64(i))*(sorted[i+1]-sorted[i])
}

// orders are values as recordings hold them: noise, levels with many ties, rising, rising and falling, steps of time, and holes.
func orders(n int, r *rand.Rand) map[string][]float64 {
	out := map[string][]float64{}
	for i := range n {
		x := float64(i)
		hole := x
		if r.IntN(3) == 0 {
			hole = math.NaN()
		}
		for name, v := range map[string]float64{"noise": r.NormFloat64(), "levels": float64(r.IntN(4)), "alike": 7, "rising": x, "falling": -x, "hill": -math.Abs(x - float64(n)/2),
			"valley": math.Abs(x - float64(n)/2), "saw": math.Mod(x, 5), "steps": float64(i+1)*0.01 - float64(i)*0.01, "holes": hole, "endless": x / float64(i%3)} {
			out[name] = append(out[name], v)
		}
	}
	return out
}

// Selecting gives the very bits that sorting gives, whatever the order.
func TestQuantileIsThatOfSortedValues(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{1, 2, 3, 4, 5, 7, 8, 9, 30, 101, 1000} {
		for name, values := range orders(n, r) {
			for _, share := range []float64{0, 0.001, 0.01, 0.25, 0.5, 0.75, 0.9, 0.975, 0.999, 1, r.Float64()} {
				want, got := sortedQuantile(values, share), Quantile(values, share)
				if math.IsNaN(want) && math.IsNaN(got) {
					continue
				}
				require.Equal(t, math.Float64bits(want), math.Float64bits(got), "%s, %d values, %g: %g for %g", name, n, share, got, want)
			}
		}
	}
}

// hostile is an order of n values against which every pivot parts two: where the next pivots will be looked for, the least values left
// are put.
func hostile(n int) []float64 {
	v, out := make([]float64, n), make([]float64, n)
	for i := range v {
		v[i], out[i] = float64(n+i), float64(n+i) // not settled yet: its place behind n
	}
	least := 0.0
	for low, high := 0, n-1; high-low > 8; {
		quarter := (high - low) / 4
		for _, at := range []int{low + quarter, low + 2*quarter} {
			if v[at] >= float64(n) {
				out[int(v[at])-n] = least
				v[at], least = least, least+1
			}
		}
		low, _ = parted(v, low, high)
	}
	return out
}

// An order against which the pivots do nothing still ends soon, with what sorting gives.
func TestQuantileOfHostileOrder(t *testing.T) {
	const n, rounds = 4096, 26
	values := hostile(n)
	require.Equal(t, sortedQuantile(values, 0.5), Quantile(values, 0.5))
	v, low := slices.Clone(values), 0
	for range rounds {
		low, _ = parted(v, low, n-1)
	}
	require.Less(t, low, n/10, "so many rounds leave nearly all")
}

func BenchmarkQuantile(b *testing.B) {
	for name, values := range orders(50_000, rand.New(rand.NewPCG(3, 4))) {
		b.Run("order="+name+"/how=selected", func(b *testing.B) {
			for b.Loop() {
				Quantile(values, 0.5)
			}
		})
		b.Run("order="+name+"/how=sorted", func(b *testing.B) {
			for b.Loop() {
				sortedQuantile(values, 0.5)
			}
		})
	}
}
