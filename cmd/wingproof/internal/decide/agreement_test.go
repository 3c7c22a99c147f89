package decide

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/cmd/wingproof/internal/evidence"
)

func agree(t *testing.T, th *theory, direct ...Direct) (*belief, Agreement) {
	t.Helper()
	o, err := newObservations(th, nil, direct)
	require.NoError(t, err)
	b, a, err := anchorAll(th, o)
	require.NoError(t, err)
	return b, a
}

func liftMeasured(levels map[string]string, value, sd float64, flight string) Direct {
	return Direct{Levels: levels, Quantity: evidence.LiftCurveSlope, Value: value, SDOwn: sd, Degrees: math.Inf(1), Flights: []string{flight}}
}

// By hand: model sd 1, measurement sd 1, innovation 4. χ² = 16/2 = 8 against 3.841459 (table of χ² at 95 %,
// one degree). It passes when k² + 1 = 16/3.841459, k = 1.77908.
func TestInflationByHand(t *testing.T) {
	th := twoWinglets(t, map[string]float64{evidence.LiftCurveSlope: 5}, []TheoryError{{Quantity: evidence.LiftCurveSlope, Bias: 1}})
	_, a := agree(t, th, liftMeasured(smallWinglet, 9, 1, "a"))
	near(t, a.ChiSquare, 8, 1e-9, "by hand")
	near(t, a.Bound, 3.841459, 5e-7, "table of χ² at 95 %")
	near(t, a.Inflation, math.Sqrt(16/3.841459-1), 2e-6, "by hand")
	require.Equal(t, "flights disagree with theory: they differ from the lattice by more than its stated errors allow (joint misfit 8.0, at most 3.8 expected); all model errors are taken 1.78 times as large, so fewer parts come free", a.Text)
	_, a = agree(t, th, liftMeasured(smallWinglet, 7.7, 1, "a"))
	require.Equal(t, 1.0, a.Inflation, "2.7²/2 = 3.645 passes")
}

// Two flights that contradict one another cannot be explained by any model error: their own errors grow.
func TestFlightsThatContradictOneAnother(t *testing.T) {
	th := twoWinglets(t, map[string]float64{evidence.LiftCurveSlope: 5}, []TheoryError{{Quantity: evidence.LiftCurveSlope, Bias: 0.15}})
	b, a := agree(t, th, liftMeasured(smallWinglet, 4, 0.1, "a"), liftMeasured(smallWinglet, 6, 0.1, "b"))
	require.Contains(t, a.Text, "with one another")
	require.Greater(t, a.Inflation, 5.0)
	require.LessOrEqual(t, b.chiSquare, a.Bound*(1+1e-6))
	near(t, b.mean[0][0], 5, 1e-9, "the middle, by symmetry")
}

func TestSpreadIsTamed(t *testing.T) {
	errors := []TheoryError{{Quantity: evidence.LiftCurveSlope, Bias: 0.3, Level: map[string]float64{"winglet": 0.4}}}
	th := twoWinglets(t, map[string]float64{evidence.LiftCurveSlope: 5}, errors)
	one, _ := agree(t, th, liftMeasured(smallWinglet, 5, 0.05, "a"))
	require.Equal(t, []float64{1}, one.theory.spread, "one level flown shows no contrast")
	same, _ := agree(t, th, liftMeasured(smallWinglet, 5, 0.01, "a"), liftMeasured(tallWinglet, 5, 0.01, "b"))
	require.Less(t, same.theory.spread[0], 1.0, "levels found alike")
	require.GreaterOrEqual(t, same.theory.spread[0], leastSpread)
	apart, _ := agree(t, th, liftMeasured(smallWinglet, 4.4, 0.01, "a"), liftMeasured(tallWinglet, 5.6, 0.01, "b"))
	require.Greater(t, apart.theory.spread[0], 1.0, "levels found farther apart than stated")
	require.LessOrEqual(t, apart.theory.spread[0], greatestSpread)
}

// By hand for one quantity, one choice of two levels, perfect measurements: the contrast y₁ − y₂ has
// variance 2·(τ·0.4)² and the sum does not know the contrast. With y₁ = y₂ = mean the score in L = log τ²
// from both is −½·log det S − 5/2·(L + e^−L); det S = (2·0.09 + 0.16 τ²)·0.16 τ². A fine scan finds its top.
func TestSpreadIsTheModeOfItsScore(t *testing.T) {
	errors := []TheoryError{{Quantity: evidence.LiftCurveSlope, Bias: 0.3, Level: map[string]float64{"winglet": 0.4}}}
	th := twoWinglets(t, map[string]float64{evidence.LiftCurveSlope: 5}, errors)
	b, _ := agree(t, th, liftMeasured(smallWinglet, 5, 1e-6, "a"), liftMeasured(tallWinglet, 5, 1e-6, "b"))
	best, top := 0.0, math.Inf(-1)
	for l := -1.5; l < 1; l += 1e-5 {
		v := 0.16 * math.Exp(l)
		score := -math.Log((0.18+v)*v)/2 - 2.5*(l+math.Exp(-l))
		if score > top {
			best, top = l, score
		}
	}
	near(t, b.theory.spread[0], math.Exp(best/2), 2e-5, "fine scan")
}

// The other road: the same likelihood from a factorisation that works out a condition number as well, to the last bit.
func TestMarginalLikelihoodAgainstThePlainForm(t *testing.T) {
	p := nineByTen()
	d, err := believe(p)
	require.NoError(t, err)
	b, spread := d.belief, slices.Clone(d.belief.theory.spread)
	q := b.theory.quantity(evidence.NeutralPoint)
	at := func(tau float64) *mat.SymDense {
		trial := slices.Clone(spread)
		trial[q] = tau
		return b.innovationCovarianceWith(b.theory.with(b.theory.inflation, trial))
	}
	fast, innovation, n := logMarginal(b, spread, q), b.innovation(), len(b.rows)
	for _, tau := range []float64{0.5, 1, 1.7, 3} {
		s := mat.NewSymDense(n, nil)
		for i := range n {
			for j := range i + 1 {
				s.SetSym(i, j, (tau-1)*(tau-2)/2*at(0).At(i, j)+tau*(2-tau)*at(1).At(i, j)+tau*(tau-1)/2*at(2).At(i, j))
			}
		}
		var cholesky mat.Cholesky
		require.True(t, cholesky.Factorize(s))
		var weights mat.VecDense
		require.NoError(t, cholesky.SolveVecTo(&weights, innovation))
		require.Equal(t, -(cholesky.LogDet()+mat.Dot(innovation, &weights))/2, fast(tau))
	}
}
