package leastsquares

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// testFunction is a sum of squares of J. J. Moré, B. S. Garbow and K. E. Hillstrom, Testing Unconstrained Optimization
// Software, ACM Transactions on Mathematical Software 7, 1981. Functions, starts and least sums are from memory.
type testFunction struct {
	name       string
	rows       int
	residuals  func(b, r []float64)
	start      []float64
	want       []float64 // nil where only the least sum is known
	residualSS float64   // 0 for a sum that vanishes
	tolerance  float64   // of residualSS: one in its last digit, which may be cut, not rounded
}

func (f testFunction) problem() Problem {
	return Problem{Rows: f.rows, Residuals: func(b, r []float64) error { f.residuals(b, r); return nil }}
}

// helicalAngle is θ of the helical valley, in turns.
func helicalAngle(x, y float64) float64 {
	turn := math.Atan(y/x) / (2 * math.Pi)
	if x < 0 {
		turn += 0.5
	}
	return turn
}

func testFunctions() []testFunction {
	bard := []float64{0.14, 0.18, 0.22, 0.25, 0.29, 0.32, 0.35, 0.39, 0.37, 0.58, 0.73, 0.96, 1.34, 2.10, 4.39}
	return []testFunction{
		{"Rosenbrock", 2, func(b, r []float64) { r[0], r[1] = 10*(b[1]-b[0]*b[0]), 1-b[0] }, []float64{-1.2, 1}, []float64{1, 1}, 0, 0},
		{"Powell badly scaled", 2, func(b, r []float64) { r[0], r[1] = 1e4*b[0]*b[1]-1, math.Exp(-b[0])+math.Exp(-b[1])-1.0001 },
			[]float64{0, 1}, nil, 0, 0},
		{"Brown badly scaled", 3, func(b, r []float64) { r[0], r[1], r[2] = b[0]-1e6, b[1]-2e-6, b[0]*b[1]-2 }, []float64{1, 1}, []float64{1e6, 2e-6}, 0, 0},
		{"Beale", 3, func(b, r []float64) {
			for i, y := range []float64{1.5, 2.25, 2.625} {
				r[i] = y - b[0]*(1-math.Pow(b[1], float64(i+1)))
			}
		}, []float64{1, 1}, []float64{3, 0.5}, 0, 0},
		{"helical valley", 3, func(b, r []float64) {
			r[0], r[1], r[2] = 10*(b[2]-10*helicalAngle(b[0], b[1])), 10*(math.Hypot(b[0], b[1])-1), b[2]
		}, []float64{-1, 0, 0}, []float64{1, 0, 0}, 0, 0},
		{"Bard", 15, func(b, r []float64) {
			for i, y := range bard {
				u, v := float64(i+1), float64(15-i)
				r[i] = y - (b[0] + u/(v*b[1]+min(u, v)*b[2]))
			}
		}, []float64{1, 1, 1}, nil, 8.21487e-3, 1e-8},
		{"Box three-dimensional", 10, func(b, r []float64) {
			for i := range r {
				t := 0.1 * float64(i+1)
				r[i] = math.Exp(-t*b[0]) - math.Exp(-t*b[1]) - b[2]*(math.Exp(-t)-math.Exp(-10*t))
			}
		}, []float64{0, 10, 20}, []float64{1, 10, 1}, 0, 0},
		{"Wood", 6, func(b, r []float64) {
			r[0], r[1], r[2], r[3] = 10*(b[1]-b[0]*b[0]), 1-b[0], math.Sqrt(90)*(b[3]-b[2]*b[2]), 1-b[2]
			r[4], r[5] = math.Sqrt(10)*(b[1]+b[3]-2), (b[1]-b[3])/math.Sqrt(10)
		}, []float64{-3, -1, -3, -1}, []float64{1, 1, 1, 1}, 0, 0},
		{"Brown and Dennis", 20, func(b, r []float64) {
			for i := range r {
				t := float64(i+1) / 5
				u, v := b[0]+t*b[1]-math.Exp(t), b[2]+b[3]*math.Sin(t)-math.Cos(t)
				r[i] = u*u + v*v
			}
		}, []float64{25, 5, -5, -1}, nil, 85822.2, 0.1},
		{"Biggs EXP6", 13, func(b, r []float64) {
			for i := range r {
				t := 0.1 * float64(i+1)
				r[i] = b[2]*math.Exp(-t*b[0]) - b[3]*math.Exp(-t*b[1]) + b[5]*math.Exp(-t*b[4]) - (math.Exp(-t) - 5*math.Exp(-10*t) + 3*math.Exp(-4*t))
			}
		}, []float64{1, 2, 1, 1, 1, 1}, nil, 0, 0},
	}
}

func TestNonlinearTestFunctions(t *testing.T) {
	for _, f := range testFunctions() {
		t.Run(f.name, func(t *testing.T) {
			fit, err := Nonlinear(f.problem(), f.start, Options{})
			t.Logf("%3d iterations, %4d evaluations, %s, condition %.1e, SS %.6g, at %.8g, err %v", fit.Iterations, fit.Evaluations, fit.Stop, fit.Condition, fit.ResidualSS, fit.Parameters, err)
			require.NoError(t, err)
			if f.want != nil {
				require.InDeltaSlice(t, f.want, fit.Parameters, 1e-9*math.Abs(f.want[0]))
			}
			require.InDelta(t, f.residualSS, fit.ResidualSS, max(f.tolerance, 1e-20))
		})
	}
}

// Minima at which the Jacobian is singular: two of Powell's four parameters do nothing there, Freudenstein and Roth's local one is a
// fold, Jennrich and Sampson's two exponents become one. That is what has to be said, with the parameters that were found.
func TestNonlinearSaysThatASingularSolutionIsUndetermined(t *testing.T) {
	functions := []testFunction{
		{"Powell singular", 4, func(b, r []float64) {
			r[0], r[1] = b[0]+10*b[1], math.Sqrt(5)*(b[2]-b[3])
			r[2], r[3] = (b[1]-2*b[2])*(b[1]-2*b[2]), math.Sqrt(10)*(b[0]-b[3])*(b[0]-b[3])
		}, []float64{3, -1, 0, 1}, []float64{0, 0, 0, 0}, 0, 1e-20},
		{"Freudenstein and Roth, local", 2, func(b, r []float64) {
			r[0], r[1] = -13+b[0]+((5-b[1])*b[1]-2)*b[1], -29+b[0]+((b[1]+1)*b[1]-14)*b[1]
		}, []float64{0.5, -2}, []float64{11.4128, -0.8968}, 48.9842, 1e-4},
		{"Jennrich and Sampson", 10, func(b, r []float64) {
			for i := range r {
				k := float64(i + 1)
				r[i] = 2 + 2*k - (math.Exp(k*b[0]) + math.Exp(k*b[1]))
			}
		}, []float64{0.3, 0.4}, []float64{0.2578, 0.2578}, 124.362, 1e-3},
	}
	for _, f := range functions {
		t.Run(f.name, func(t *testing.T) {
			fit, err := Nonlinear(f.problem(), f.start, Options{})
			t.Logf("%d iterations, condition %.1e, SS %.8g at %.6g: %v", fit.Iterations, fit.Condition, fit.ResidualSS, fit.Parameters, err)
			require.ErrorIs(t, err, ErrUndetermined)
			require.InDeltaSlice(t, f.want, fit.Parameters, 1e-4)
			require.InDelta(t, f.residualSS, fit.ResidualSS, f.tolerance)
			require.Nil(t, fit.Covariance)
		})
	}
}
