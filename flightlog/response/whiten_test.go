package response

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// The filter by the matrices of the books, column by column, against the one whose gains are worked out once.
func TestWhiteningAgainstPlainMatrices(t *testing.T) {
	const n = 80
	rng := rand.New(rand.NewPCG(11, 1))
	for name, d := range map[string]*disturbed{
		"swing": swingDisturbed(polesOf(5, 0.15), 0.08, [2]float64{0.3, 1.2}, 0.7),
		"roll":  rollDisturbed(-8, polesOf(5, 0.15), 0.02, 40),
		"much":  swingDisturbed(polesOf(5, 0.15), 0.08, [2]float64{300, 1200}, 1e9), // variances whose product would end beyond the numbers
	} {
		var columns [][]float64
		for range 3 {
			c := make([]float64, n)
			for i := range c {
				c[i] = rng.NormFloat64()
			}
			columns = append(columns, c)
		}
		f, q, h := mat.NewDense(3, 3, nil), mat.NewDense(3, 3, nil), mat.NewVecDense(3, d.reach[:])
		for i := range 3 {
			f.SetRow(i, d.turn[i][:])
			q.SetRow(i, d.noise[i][:])
		}
		var want [][]float64
		wantLogarithms := 0.0
		for _, column := range columns {
			x, p := mat.NewVecDense(3, nil), mat.NewDense(3, 3, nil)
			var white []float64
			wantLogarithms = 0
			for i, v := range column {
				if i > 0 {
					var fp, next mat.Dense
					fp.Mul(f, p)
					next.Mul(&fp, f.T())
					p.Add(&next, q)
					var moved mat.VecDense
					moved.MulVec(f, x)
					x.CopyVec(&moved)
				}
				var ph mat.VecDense
				ph.MulVec(p, h)
				s := 1 + mat.Dot(h, &ph)
				e := v - mat.Dot(h, x)
				white = append(white, e/math.Sqrt(s))
				wantLogarithms += math.Log(s)
				x.AddScaledVec(x, e/s, &ph)
				var less mat.Dense
				less.Outer(1/s, &ph, &ph)
				p.Sub(p, &less)
			}
			want = append(want, white)
		}
		require.InEpsilon(t, wantLogarithms, d.whiten(columns, make([]weight, n)), 1e-9, name)
		for j := range columns {
			require.InDeltaSlice(t, want[j], columns[j], 1e-7, name)
		}
	}
}

// What a search hands over from its last steps is what a trial at its end gives.
func TestSearchEndsWithItsOwnTrial(t *testing.T) {
	f := dutchRollFlight(t, 0.2, 1, 6.5, rand.New(rand.NewPCG(1, 2)))
	lead := f.stretch.Signals[0].Values
	q := newProblem(lead, f.stretch.Step, 2)
	for i, v := range lead {
		q.values[i] = v / (0.01 * sizeOf(lead))
	}
	b := band{slowest: 1, fastest: 15, leastDamping: -0.2, mostDamping: 0.95, guess: 0.15}
	rough, err := q.rough(b)
	require.NoError(t, err)
	handed := false
	for _, g := range []gusts{{}, {rough.trial.reach(), 0.1}, {rough.trial.reach(), 1}} {
		got, err := q.search(rough.poles, g, b, fine)
		require.NoError(t, err)
		want, err := q.try(got.poles, g)
		require.NoError(t, err)
		require.Equal(t, want, got.trial)
		if got.slopes[0] == nil { // the last step did not help, and slopes were last taken behind it
			continue
		}
		handed = true
		slopes, err := q.slopes(got.poles, g)
		require.NoError(t, err)
		require.Equal(t, slopes, got.slopes)
	}
	require.True(t, handed)
}
