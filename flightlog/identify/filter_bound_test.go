package identify

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/flightlog/statistic"
)

// bound adds the information about the first parameters of all segments, everything else eliminated, and what was known of them beforehand.
func bound(t *testing.T, parts []*mat.SymDense, common []prior) []float64 {
	n := len(common)
	sum := mat.NewSymDense(n, nil)
	for i, known := range common {
		if known.sd > 0 {
			sum.SetSym(i, i, 1/(known.sd*known.sd))
		}
	}
	for _, part := range parts {
		m := part.SymmetricDim() - n
		rest, cross := mat.NewSymDense(m, nil), mat.NewDense(m, n, nil)
		for i := range m {
			for j := i; j < m; j++ {
				rest.SetSym(i, j, part.At(n+i, n+j))
			}
			for j := range n {
				cross.Set(i, j, part.At(n+i, j))
			}
		}
		var c mat.Cholesky
		require.True(t, c.Factorize(rest))
		var solved, taken mat.Dense
		require.NoError(t, c.SolveTo(&solved, cross))
		taken.Mul(cross.T(), &solved)
		for i := range n {
			for j := i; j < n; j++ {
				sum.SetSym(i, j, sum.At(i, j)+part.At(i, j)-taken.At(i, j))
			}
		}
	}
	var c mat.Cholesky
	require.True(t, c.Factorize(sum))
	var inverse mat.SymDense
	require.NoError(t, c.InverseTo(&inverse))
	out := make([]float64, n)
	for i := range out {
		out[i] = math.Sqrt(inverse.At(i, i))
	}
	return out
}

// boundGusts are those of the comparison; a quick run takes the harder one.
func boundGusts() []float64 {
	if testing.Short() {
		return []float64{0.5}
	}
	return []float64{0.2, 0.5}
}

func TestStandardDeviationsAgainstTheBound(t *testing.T) {
	for _, axis := range []Axis{Longitudinal, Lateral} {
		for _, gusts := range boundGusts() {
			var all scores
			var ratios []float64
			const flights = 3
			var limits []float64
			for seed := range flights {
				segments, ac := studySegments(t, axis, gusts, 100, uint64(100+seed))
				setup := setupOf(ac)
				fit, err := Estimate(segments, axis, setup)
				require.NoError(t, err)
				all.add(fit, truths(ac, setup))
				if seed > 0 {
					continue
				}
				var parts []*mat.SymDense
				rng := rand.New(rand.NewPCG(3, 3))
				for i := range segments {
					m, inputs := boundOf(&segments[i], axis, &setup, truths(ac, setup), gusts)
					parts = append(parts, m.information(inputs, segments[i].Step, rng))
				}
				common := make([]prior, len(fit.Derivatives))
				if axis == Longitudinal {
					common = longitudinalLayout().known
				}
				limits = bound(t, parts, common)
			}
			for j, name := range all.names {
				ratio := statistic.Median(all.sd[name]) / limits[j]
				ratios = append(ratios, ratio)
				t.Logf("%s, gusts %.1f m/s: %-24s median sd %.4f, bound %.4f, ratio %.2f", axis, gusts, name, statistic.Median(all.sd[name]), limits[j], ratio)
				require.Less(t, ratio, 1.5, "%s in gusts of %g m/s", name, gusts)
			}
			t.Logf("%s, gusts %.1f m/s: median ratio %.2f", axis, gusts, statistic.Median(ratios))
		}
	}
}
