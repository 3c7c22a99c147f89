package identify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// For a constant regressor and residuals that remember a share ρ of the one before, the variance of a mean grows by (1+ρ)/(1−ρ).
func TestColourOfAConstant(t *testing.T) {
	const n, rho, lags = 4000, 0.6, 60
	var blocks []*mat.Dense
	for range n {
		blocks = append(blocks, mat.NewDense(1, 2, []float64{1, 0}))
	}
	correlation := make([]*mat.Dense, lags+1)
	for l := range correlation {
		correlation[l] = mat.NewDense(1, 1, []float64{math.Pow(rho, float64(l))})
	}
	meat := mat.NewSymDense(1, nil)
	addColour(meat, blocks, correlation, 1)
	require.InEpsilon(t, (1+rho)/(1-rho), meat.At(0, 0)/n, 2e-3)
}

// Autocorrelations of alternating residuals alternate, tapered.
func TestAutocorrelationsOfAlternation(t *testing.T) {
	var blocks []*mat.Dense
	for k := range 100 {
		blocks = append(blocks, mat.NewDense(1, 2, []float64{0, 1 - 2*float64(k%2)}))
	}
	a := autocorrelations(blocks, []int{0, 100}, 1, 4)
	require.InDelta(t, 1, a[0].At(0, 0), 1e-12)
	require.InDelta(t, -0.8*0.99, a[1].At(0, 0), 1e-12)
	require.InDelta(t, 0.6*0.98, a[2].At(0, 0), 1e-12)
}

// In gusts, output error by itself: white standard deviations are far too small, those with the colour of the residuals are of the right
// size, and filter error has the smaller ones.
func TestColourOfOutputErrorInGusts(t *testing.T) {
	var white, coloured, n, wider float64
	for seed := range 6 {
		segments, ac := studySegments(t, Longitudinal, 0.3, 25, uint64(50+seed))
		setup := setupOf(ac)
		truth := truths(ac, setup)
		g, err := gather(segments, Longitudinal, setup)
		require.NoError(t, err)
		var used []*Segment
		for i := range g.segments {
			used = append(used, g.segments[i].segment)
		}
		p := newProblem(used, Longitudinal, &setup)
		it := newIteration(p)
		require.NoError(t, it.begin())
		_, noise, err := it.fitFilterError()
		require.NoError(t, err)
		require.NoError(t, it.fitOutputError(noise.outputs))
		w := p.weights()
		growth, limit := it.growth(it.whitened(w))
		require.Greater(t, growth, limit)
		it.linearise(w)
		e := p.equate(it.sums, 0)
		c, with := e.covariance(), it.coloured(e)
		fit, err := Estimate(segments, Longitudinal, setup)
		require.NoError(t, err)
		require.Equal(t, filterErrorMethod, fit.Method)
		for j, name := range p.layout.names {
			away := p.common[j] - truth[name]
			white += away * away / c.At(j, j)
			coloured += away * away / with[j][j]
			wider += math.Log(math.Sqrt(with[j][j]) / fit.Derivatives[j].SD)
			n++
		}
	}
	t.Logf("root mean square of (value − truth)/sd of output error: white %.2f, coloured %.2f; coloured sd over that of filter error %.2f",
		math.Sqrt(white/n), math.Sqrt(coloured/n), math.Exp(wider/n))
	require.Greater(t, math.Sqrt(white/n), 1.8)
	require.Less(t, math.Sqrt(coloured/n), 1.8)
	require.Greater(t, math.Exp(wider/n), 1.1)
}
