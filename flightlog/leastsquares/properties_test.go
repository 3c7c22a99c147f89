package leastsquares

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawn is a linear problem with columns that lie well apart, in whole numbers and halves.
type drawn struct {
	rows        [][]float64
	y, w        []float64
	parameters  int
	repetitions []int
}

func drawProblem(t *rapid.T) drawn {
	p := rapid.IntRange(1, 5).Draw(t, "parameters")
	n := rapid.IntRange(p+2, 25).Draw(t, "rows")
	d := drawn{parameters: p}
	for i := range n {
		row := make([]float64, p)
		for j := range row {
			row[j] = float64(rapid.IntRange(-40, 40).Draw(t, "x")) / 2
		}
		row[i%p] += 100 // keeps the columns apart
		d.rows = append(d.rows, row)
		d.y = append(d.y, float64(rapid.IntRange(-1000, 1000).Draw(t, "y"))/8)
		d.repetitions = append(d.repetitions, rapid.IntRange(0, 3).Draw(t, "times"))
		d.w = append(d.w, float64(d.repetitions[i]))
	}
	for i := range p + 1 {
		d.repetitions[i], d.w[i] = max(1, d.repetitions[i]), max(1, d.w[i])
	}
	return d
}

// problem is the same for Nonlinear.
func (d drawn) problem(analytic bool) Problem {
	p := Problem{Rows: len(d.rows), Weight: d.w, Residuals: func(b, r []float64) error {
		for i, row := range d.rows {
			r[i] = d.y[i]
			for j, x := range row {
				r[i] -= x * b[j]
			}
		}
		return nil
	}}
	if analytic {
		p.Jacobian = func(_ []float64, jacobian [][]float64) error {
			for i, row := range d.rows {
				for j, x := range row {
					jacobian[i][j] = -x
				}
			}
			return nil
		}
	}
	return p
}

// sums is the same for Nonlinear, as normal sums.
func (d drawn) sums() Problem {
	return Problem{Rows: len(d.rows), Weight: d.w, Normal: func(b []float64, matrix [][]float64, gradient []float64) (float64, error) {
		squares := 0.0
		for i, row := range d.rows {
			r := d.y[i]
			for j, x := range row {
				r -= x * b[j]
			}
			squares += d.w[i] * r * r
			for j, x := range row {
				if matrix == nil {
					break
				}
				gradient[j] -= d.w[i] * x * r
				for k := j; k < len(row); k++ {
					matrix[j][k] += d.w[i] * x * row[k]
				}
			}
		}
		return squares, nil
	}}
}

// alike compares coefficients in units of the largest, and covariances in units of the diagonal.
func alike(t require.TestingT, want, got Fit, tolerance float64) {
	largest := 0.0
	for j, b := range want.Coefficients {
		largest = max(largest, math.Abs(b), math.Sqrt(want.Covariance[j][j]))
	}
	for j := range want.Coefficients {
		require.InDelta(t, want.Coefficients[j], got.Coefficients[j], tolerance*largest)
		for k := range want.Coefficients {
			require.InDelta(t, want.Covariance[j][k], got.Covariance[j][k], tolerance*math.Sqrt(want.Covariance[j][j]*want.Covariance[k][k]))
		}
	}
	require.InDelta(t, want.ResidualSS, got.ResidualSS, tolerance*want.ResidualSS)
	require.Equal(t, want.Degrees, got.Degrees)
}

func TestLinearDoesNotDependOnTheOrderOfRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawProblem(t)
		want, err := Linear(d.rows, d.y, d.w)
		require.NoError(t, err)
		order := rapid.Permutation(iota(len(d.rows))).Draw(t, "order")
		var rows [][]float64
		var y, w []float64
		for _, i := range order {
			rows, y, w = append(rows, d.rows[i]), append(y, d.y[i]), append(w, d.w[i])
		}
		got, err := Linear(rows, y, w)
		require.NoError(t, err)
		alike(t, want, got, 1e-13)
		for k, i := range order {
			require.InDelta(t, want.Residuals[i], got.Residuals[k], 1e-12)
		}
	})
}

func iota(n int) (out []int) {
	for i := range n {
		out = append(out, i)
	}
	return out
}

// A column or the response in other units, powers of two, changes the answer by that power and by no bit else, on either road.
func TestUnitsThatArePowersOfTwoChangeNoBit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawProblem(t)
		if rapid.Bool().Draw(t, "nearly collinear") {
			for i, row := range d.rows {
				row[0] += 1e-7 * float64(i*i)
				d.rows[i] = append(row, row[0]+1e-7*math.Sqrt(float64(i)))
			}
			d.y, d.w = append(d.y, 1), append(d.w, 1)
			d.rows = append(d.rows, make([]float64, d.parameters+1))
			d.parameters++
		}
		powers := rapid.SliceOfN(rapid.IntRange(-60, 60), d.parameters, d.parameters).Draw(t, "powers")
		want, err := Linear(d.rows, d.y, d.w)
		require.NoError(t, err)
		rows, y := make([][]float64, len(d.rows)), make([]float64, len(d.y))
		for i := range rows {
			y[i] = math.Ldexp(d.y[i], 20)
			for j, x := range d.rows[i] {
				rows[i] = append(rows[i], math.Ldexp(x, powers[j]))
			}
		}
		got, err := Linear(rows, y, d.w)
		require.NoError(t, err)
		require.Equal(t, want.Condition, got.Condition)
		for j := range powers {
			require.Equal(t, math.Ldexp(want.Coefficients[j], 20-powers[j]), got.Coefficients[j])
			for k := range powers {
				require.Equal(t, math.Ldexp(want.Unscaled[j][k], -powers[j]-powers[k]), got.Unscaled[j][k])
			}
		}
	})
}

// A weight of 3 is a row three times over, but for the count of rows; a weight of 0 is no row, in that count too.
func TestWholeWeightsAreRepeatedRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawProblem(t)
		weighted, err := Linear(d.rows, d.y, d.w)
		require.NoError(t, err)
		var rows [][]float64
		var y []float64
		present := 0
		for i, times := range d.repetitions {
			for range times {
				rows, y = append(rows, d.rows[i]), append(y, d.y[i])
			}
			present += min(1, times)
		}
		repeated, err := Linear(rows, y, nil)
		require.NoError(t, err)
		require.Equal(t, present-d.parameters, weighted.Degrees)
		weighted.Degrees = repeated.Degrees
		factor := weighted.ResidualSS / float64(repeated.Degrees)
		weighted.Covariance = Scaled(weighted.Unscaled, factor)
		alike(t, repeated, weighted, 1e-12)
	})
}

// Nonlinear, with slopes, with differences and from normal sums, on what Linear solves.
func TestLinearAgreesWithNonlinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawProblem(t)
		want, err := Linear(d.rows, d.y, d.w)
		require.NoError(t, err)
		start := make([]float64, d.parameters)
		for j := range start {
			start[j] = float64(rapid.IntRange(-5, 5).Draw(t, "start"))
		}
		for name, road := range map[string]struct {
			problem   Problem
			tolerance float64
		}{"slopes": {d.problem(true), 1e-8}, "differences": {d.problem(false), 1e-8}, "sums": {d.sums(), 1e-6}} {
			got, err := Nonlinear(road.problem, start, Options{})
			require.NoError(t, err, name)
			alike(t, want, Fit{Coefficients: got.Parameters, Covariance: got.Covariance, ResidualSS: got.ResidualSS, Degrees: got.Degrees}, road.tolerance)
			require.InEpsilon(t, want.Condition, got.Condition, 1e-6, name)
		}
	})
}
