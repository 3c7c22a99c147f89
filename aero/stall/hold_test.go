package stall

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// problem is a drawn set of strips whose response is a P-matrix: symmetric positive definite plus skew.
type problem struct {
	attached, maximum []float64
	response          *mat.Dense
}

func drawProblem(most int) *rapid.Generator[problem] {
	return rapid.Custom(func(t *rapid.T) problem {
		n := rapid.IntRange(1, most).Draw(t, "strips")
		entries := rapid.SliceOfN(rapid.Float64Range(-1, 1), n*n, n*n)
		root, skew := mat.NewDense(n, n, entries.Draw(t, "root")), mat.NewDense(n, n, entries.Draw(t, "skew"))
		p := problem{response: &mat.Dense{}}
		p.response.Mul(root, root.T())
		for i := range n {
			p.response.Set(i, i, p.response.At(i, i)+0.5)
			for j := range n {
				p.response.Set(i, j, p.response.At(i, j)+skew.At(i, j)-skew.At(j, i))
			}
		}
		lifts := rapid.SliceOfN(rapid.Float64Range(-2, 2), n, n)
		p.attached, p.maximum = lifts.Draw(t, "attached"), lifts.Draw(t, "maximum")
		for i := range n {
			if rapid.IntRange(0, 9).Draw(t, "never held") == 0 {
				p.maximum[i] = math.Inf(1)
			}
		}
		return p
	})
}

func TestHoldFulfilsEveryCondition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(25).Draw(t, "problem")
		held, err := Hold(p.attached, p.maximum, p.response)
		require.NoError(t, err)
		var change mat.VecDense
		change.MulVec(p.response, mat.NewVecDense(len(held.Turn), held.Turn))
		for i := range p.attached {
			require.InDelta(t, p.attached[i]+change.AtVec(i), held.Lift[i], 1e-8)
			require.LessOrEqual(t, held.Lift[i], p.maximum[i])
			require.LessOrEqual(t, held.Turn[i], 0.0)
			if held.LetGo[i] {
				require.Equal(t, p.maximum[i], held.Lift[i])
			} else {
				require.Zero(t, held.Turn[i])
			}
		}
	})
}

// A second road: of all 2ⁿ sets of held strips, exactly one fulfils the conditions, and it is the one found.
func TestHoldAgreesWithTryingEverySet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(6).Draw(t, "problem")
		held, err := Hold(p.attached, p.maximum, p.response)
		require.NoError(t, err)
		n, found := len(p.attached), 0
		for set := range 1 << n {
			turn, ok := p.turns(set)
			if !ok {
				continue
			}
			found++
			require.InDeltaSlice(t, turn, held.Turn, 1e-7)
		}
		require.Positive(t, found) // more than one only where strips sit on their maximum without being turned
	})
}

// turns solves for the strips in the bits of set, all rows at once, and tells whether every condition holds.
func (p problem) turns(set int) ([]float64, bool) {
	n := len(p.attached)
	system, right := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	for i := range n {
		system.Set(i, i, 1) // not held: no turn
		if set>>i&1 == 1 {
			if math.IsInf(p.maximum[i], 1) {
				return nil, false
			}
			system.SetRow(i, p.response.RawRowView(i))
			right.SetVec(i, p.maximum[i]-p.attached[i])
		}
	}
	var turn, change mat.VecDense
	if turn.SolveVec(system, right) != nil {
		return nil, false
	}
	change.MulVec(p.response, &turn)
	for i := range n {
		if turn.AtVec(i) > 1e-9 || p.attached[i]+change.AtVec(i) > p.maximum[i]+1e-9 {
			return nil, false
		}
	}
	return turn.RawVector().Data, true
}

func TestHoldDoesNotDependOnTheOrderOfStrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(20).Draw(t, "problem")
		n := len(p.attached)
		places := make([]int, n)
		for i := range places {
			places[i] = i
		}
		places = rapid.Permutation(places).Draw(t, "order")
		q := problem{make([]float64, n), make([]float64, n), mat.NewDense(n, n, nil)}
		for i, from := range places {
			q.attached[i], q.maximum[i] = p.attached[from], p.maximum[from]
			for j, by := range places {
				q.response.Set(i, j, p.response.At(from, by))
			}
		}
		a, err := Hold(p.attached, p.maximum, p.response)
		require.NoError(t, err)
		b, err := Hold(q.attached, q.maximum, q.response)
		require.NoError(t, err)
		for i, from := range places {
			require.InDelta(t, a.Lift[from], b.Lift[i], 1e-8)
			require.InDelta(t, a.Turn[from], b.Turn[i], 1e-8)
		}
	})
}

// The set of strips held before only saves rounds: it does not change the answer.
func TestHoldDoesNotDependOnWhereItStarts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(20).Draw(t, "problem")
		h := newHolder(p.response, len(p.attached))
		for i := range h.isHeld {
			h.isHeld[i] = rapid.Bool().Draw(t, "held before")
		}
		warm, err := h.hold(p.attached, p.maximum)
		require.NoError(t, err)
		cold, err := Hold(p.attached, p.maximum, p.response)
		require.NoError(t, err)
		require.InDeltaSlice(t, cold.Turn, warm.Turn, 1e-8)
	})
}

// A strip that may carry more never carries less, and is never turned further.
func TestMoreMaximumLiftIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(12).Draw(t, "problem")
		i := rapid.IntRange(0, len(p.attached)-1).Draw(t, "strip")
		before, err := Hold(p.attached, p.maximum, p.response)
		require.NoError(t, err)
		p.maximum[i] += rapid.Float64Range(0, 1).Draw(t, "more")
		after, err := Hold(p.attached, p.maximum, p.response)
		require.NoError(t, err)
		require.GreaterOrEqual(t, after.Lift[i], before.Lift[i]-1e-9)
		require.GreaterOrEqual(t, after.Turn[i], before.Turn[i]-1e-9)
	})
}

// Two strips that each raise the other by more than they lower themselves have no state with both at their
// maximum: by hand, the two conditions add up to −2 − z₁ − z₂ ≥ 0 for turns z ≥ 0.
func TestNoStateIsAnErrorNotAHang(t *testing.T) {
	_, err := Hold([]float64{2, 2}, []float64{1, 1}, mat.NewDense(2, 2, []float64{1, -2, -2, 1}))
	require.ErrorIs(t, err, ErrNotSettled)
	_, err = Hold([]float64{2, 2}, []float64{1, 1}, mat.NewDense(2, 2, []float64{1, 1, 1, 1})) // two strips that are one
	require.ErrorIs(t, err, ErrNotSettled)
}

func TestHoldRefusesWhatIsNoResponse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	one := func(v float64) *mat.Dense { return mat.NewDense(1, 1, []float64{v}) }
	for _, test := range []struct {
		attached, maximum []float64
		response          *mat.Dense
		message           string
	}{
		{[]float64{1, 1}, []float64{1, 1}, one(1), "1 × 1 for 2 strips"},
		{[]float64{1}, []float64{1}, one(-1), "trailing edge down must raise its lift"},
		{[]float64{1}, []float64{1}, one(nan), "response of strip 0 to strip 0 is NaN"},
		{[]float64{1}, []float64{1, 1}, one(1), "1 attached and 2 maximum section lifts for 1 strips"},
		{[]float64{nan}, []float64{1}, one(1), "attached section lift of strip 0 is NaN"},
		{[]float64{inf}, []float64{1}, nil, "attached section lift of strip 0 is +Inf"},
		{[]float64{1}, []float64{-inf}, one(1), "maximum section lift of strip 0 is -Inf"},
		{[]float64{1}, []float64{nan}, nil, "maximum section lift of strip 0 is NaN"},
	} {
		_, err := Hold(test.attached, test.maximum, test.response)
		require.ErrorContains(t, err, test.message)
	}
	held, err := Hold(nil, nil, nil)
	require.NoError(t, err)
	require.Empty(t, held.Lift)
}
