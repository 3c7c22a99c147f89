package leastsquares

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// decay is y = b0·exp(−b1·t) + b2 through points that scatter about it.
func decay() ([]float64, Problem) {
	times := []float64{0, 0.5, 1, 1.5, 2, 3, 4, 6}
	y := []float64{3.02, 2.21, 1.74, 1.33, 1.11, 0.82, 0.67, 0.55}
	return times, Problem{Rows: len(y), Residuals: func(b, r []float64) error {
		for i, t := range times {
			r[i] = y[i] - b[0]*math.Exp(-b[1]*t) - b[2]
		}
		return nil
	}}
}

// Two roads: at the solution the covariance is that of Linear on the columns ∂f/∂b, whose own answer is no change.
func TestNonlinearCovarianceIsThatOfItsTangent(t *testing.T) {
	times, problem := decay()
	fit, err := Nonlinear(problem, []float64{1, 1, 0}, Options{})
	require.NoError(t, err)
	var rows [][]float64
	for _, x := range times {
		e := math.Exp(-fit.Parameters[1] * x)
		rows = append(rows, []float64{e, -fit.Parameters[0] * x * e, 1})
	}
	tangent, err := Linear(rows, fit.Residuals, nil)
	require.NoError(t, err)
	for j := range rows[0] {
		sd := math.Sqrt(fit.Covariance[j][j])
		require.InDelta(t, 0, tangent.Coefficients[j], 1e-8*sd)
		for k := range rows[0] {
			require.InDelta(t, tangent.Covariance[j][k], fit.Covariance[j][k], 1e-9*sd*math.Sqrt(fit.Covariance[k][k]))
		}
	}
	require.InEpsilon(t, tangent.Condition, fit.Condition, 1e-9)
	require.Equal(t, Settled, fit.Stop)
	require.Equal(t, 5, fit.Degrees)
}

// A start of 0 hides the size of a parameter; the caller's word, or the step's own growth and shrinking, must make up for it.
func TestNonlinearDifferencesFromAStartOfZero(t *testing.T) {
	const big, small = 4e6, 3e-7
	problem := Problem{Rows: 20, Residuals: func(b, r []float64) error {
		for i := range r {
			x := float64(i) / 4
			r[i] = 1e-6*(b[0]-big) + math.Sin(1e6*(b[1]-small)*(1+x)) + 0.01*math.Cos(7*x)
		}
		return nil
	}}
	plain, err := Nonlinear(problem, []float64{0, 0}, Options{})
	require.NoError(t, err)
	sized, err := Nonlinear(problem, []float64{0, 0}, Options{Size: []float64{1e6, 1e-7}})
	require.NoError(t, err)
	for j := range 2 {
		sd := math.Sqrt(sized.Covariance[j][j])
		require.InDelta(t, sized.Parameters[j], plain.Parameters[j], 1e-6*sd)
		require.InEpsilon(t, sd, math.Sqrt(plain.Covariance[j][j]), 1e-6)
	}
}

func TestNonlinearTurnsBackFromWhatIsNotFinite(t *testing.T) {
	visited := false
	fit, err := Nonlinear(Problem{Rows: 3, Residuals: func(b, r []float64) error {
		visited = visited || b[0] < 3
		for i := range r {
			r[i] = 0.1*float64(i) - math.Log(b[0]-3) // NaN below 3
		}
		return nil
	}}, []float64{8}, Options{})
	require.NoError(t, err)
	require.True(t, visited)
	require.InDelta(t, 3+math.Exp(0.1), fit.Parameters[0], 1e-9)
}

func TestNonlinearToleranceIsWhatIsReached(t *testing.T) {
	_, problem := decay()
	best, err := Nonlinear(problem, []float64{1, 1, 0}, Options{})
	require.NoError(t, err)
	loose, err := Nonlinear(problem, []float64{1, 1, 0}, Options{Tolerance: 0.01})
	require.NoError(t, err)
	require.Less(t, loose.Evaluations, best.Evaluations)
	require.LessOrEqual(t, loose.Offset, 0.01)
	for j := range best.Parameters {
		require.InDelta(t, best.Parameters[j], loose.Parameters[j], 0.03*math.Sqrt(best.Covariance[j][j]))
	}
}

func TestNonlinearSaysWhatIsWrong(t *testing.T) {
	_, good := decay()
	start := []float64{1, 1, 0}
	refused := errors.New("the wing came off")
	with := func(change func(*Problem)) Problem { p := good; change(&p); return p }
	cases := []struct {
		name    string
		problem Problem
		start   []float64
		options Options
		is      error
		words   string
	}{
		{"nothing given", Problem{Rows: 3}, start, Options{}, nil, "needs either residuals or normal sums"},
		{"no start", good, nil, Options{}, nil, "one finite value a parameter"},
		{"a start that is not a number", good, []float64{1, math.NaN(), 0}, Options{}, nil, "one finite value a parameter"},
		{"weights", with(func(p *Problem) { p.Weight = []float64{1} }), start, Options{}, nil, "1 weights for 8 rows"},
		{"negative weight", with(func(p *Problem) { p.Weight = []float64{1, 1, 1, 1, 1, 1, 1, -1} }), start, Options{}, nil, "0 or more"},
		{"too few rows", with(func(p *Problem) { p.Weight = []float64{1, 1, 0, 0, 0, 0, 0, 0} }), start, Options{}, ErrUndetermined, "2 rows of positive weight for 3"},
		{"sizes", good, start, Options{Size: []float64{1, 0, 1}}, nil, "positive size"},
		{"tolerance", good, start, Options{Tolerance: -1}, nil, "must not be negative"},
		{"start out of bounds", with(func(p *Problem) { p.Residuals = func(_, r []float64) error { r[0] = math.Inf(1); return nil } }), start, Options{}, nil, "start nearer"},
		{"the caller's error", with(func(p *Problem) { p.Residuals = func(_, _ []float64) error { return refused } }), start, Options{}, refused, "at the starting values"},
		{"the Jacobian's error", with(func(p *Problem) { p.Jacobian = func([]float64, [][]float64) error { return refused } }), start, Options{}, refused, "the Jacobian"},
		{"a Jacobian that is not finite", with(func(p *Problem) {
			p.Jacobian = func(_ []float64, j [][]float64) error { j[2][1] = math.NaN(); return nil }
		}), start, Options{}, nil, "row 2 of the Jacobian is not finite for parameter 1"},
		{"a Jacobian of the wrong sign", with(func(p *Problem) {
			p.Jacobian = func(_ []float64, j [][]float64) error {
				for i := range j {
					j[i][0], j[i][1], j[i][2] = 1, float64(i), float64(i*i)
				}
				return nil
			}
		}), start, Options{}, ErrNotConverged, "the Jacobian may be wrong"},
		{"few iterations", good, start, Options{Iterations: 1}, ErrNotConverged, "start nearer to the solution, or allow more"},
		{"a parameter of no effect", with(func(p *Problem) {
			p.Residuals = func(b, r []float64) error { return good.Residuals([]float64{b[0], b[1], 0.5}, r) }
		}), start, Options{}, ErrUndetermined, "parameter 2 does nothing"},
		{"two parameters that act as one", with(func(p *Problem) {
			p.Residuals = func(b, r []float64) error { return good.Residuals([]float64{b[0] * b[2], b[1], 0.5}, r) }
		}), []float64{1, 1, 2}, Options{}, ErrUndetermined, "at the solution"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			fit, err := Nonlinear(c.problem, c.start, c.options)
			require.ErrorContains(t, err, c.words)
			if c.is != nil {
				require.ErrorIs(t, err, c.is)
			}
			require.Nil(t, fit.Covariance)
		})
	}
}

func ExampleNonlinear() {
	times := []float64{0, 1, 2, 3, 4}
	speed := []float64{10.1, 6.0, 3.7, 2.2, 1.4} // a model rolls out: speed falls as v·exp(−t/τ)
	fit, err := Nonlinear(Problem{Rows: len(times), Residuals: func(b, r []float64) error {
		for i, t := range times {
			r[i] = speed[i] - b[0]*math.Exp(-t/b[1])
		}
		return nil
	}}, []float64{8, 1}, Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for j, name := range []string{"speed at first", "time constant"} {
		fmt.Printf("%s %.3f, standard deviation %.3f\n", name, fit.Parameters[j], math.Sqrt(fit.Covariance[j][j]))
	}
	// Output:
	// speed at first 10.070, standard deviation 0.060
	// time constant 1.981, standard deviation 0.023
}
