package leastsquares

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// model is a curve y = f(x; b) with its slopes ∂f/∂b.
type model struct {
	value  func(b []float64, x float64) float64
	slopes func(b []float64, x float64, into []float64)
}

// set is a published set of data with its certified solution.
type set struct {
	name       string
	x, y       []float64
	model      model
	starts     [][]float64
	want, sd   []float64
	residualSS float64
}

func (s set) problem(analytic bool) Problem {
	p := Problem{Rows: len(s.x), Residuals: func(b, r []float64) error {
		for i, x := range s.x {
			r[i] = s.y[i] - s.model.value(b, x)
		}
		return nil
	}}
	if analytic {
		p.Jacobian = func(b []float64, j [][]float64) error {
			for i, x := range s.x {
				s.model.slopes(b, x, j[i])
				for k := range j[i] {
					j[i][k] = -j[i][k]
				}
			}
			return nil
		}
	}
	return p
}

func file(t *testing.T, name string) (x, y []float64) {
	for _, r := range readTable(t, name) {
		y, x = append(y, r[0]), append(x, r[1])
	}
	return x, y
}

func misra1a() model {
	return model{
		func(b []float64, x float64) float64 { return -b[0] * math.Expm1(-b[1]*x) },
		func(b []float64, x float64, s []float64) { s[0], s[1] = -math.Expm1(-b[1]*x), b[0]*x*math.Exp(-b[1]*x) },
	}
}

func thurber() model {
	parts := func(b []float64, x float64) (over, under float64) {
		return b[0] + x*(b[1]+x*(b[2]+x*b[3])), 1 + x*(b[4]+x*(b[5]+x*b[6]))
	}
	return model{
		func(b []float64, x float64) float64 { o, u := parts(b, x); return o / u },
		func(b []float64, x float64, s []float64) {
			o, u := parts(b, x)
			for k, p := 0, 1.0; k < 4; k, p = k+1, p*x {
				s[k] = p / u
				if k > 0 {
					s[3+k] = -p * o / (u * u)
				}
			}
		},
	}
}

func publishedSets(t *testing.T) []set {
	x, y := file(t, "nist-misra1a.csv")
	sets := []set{
		{"Misra1a", x, y, misra1a(), [][]float64{{500, 0.0001}, {250, 0.0005}}, []float64{2.3894212918e+02, 5.5015643181e-04}, []float64{2.7070075241, 7.2668688436e-06}, 1.2455138894e-01},
	}
	x, y = file(t, "nist-thurber.csv")
	return append(sets, set{"Thurber", x, y, thurber(), [][]float64{{1000, 1000, 400, 40, 0.7, 0.3, 0.03}, {1300, 1500, 500, 75, 1, 0.4, 0.05}},
		[]float64{1288.1396800, 1491.0792535, 583.23836877, 75.416644291, 0.96629502864, 0.39797285797, 0.049727297349},
		[]float64{4.6647963344, 39.571156086, 28.698696102, 5.5675370270, 0.031333340687, 0.014984928198, 0.0065842344623}, 5.6427082397e+03})
}

// Certified values: NIST/ITL Statistical Reference Datasets, nonlinear least squares, from both published starts, with slopes
// and with differences. Misra1a and Thurber stand in testdata; the other sets are from memory, data and values, which
// bear each other out: a wrong digit in either would show.
func TestNonlinearAgainstCertifiedSets(t *testing.T) {
	for _, s := range append(publishedSets(t), rememberedSets(t)...) {
		for k, start := range s.starts {
			for _, analytic := range []bool{true, false} {
				fit, err := Nonlinear(s.problem(analytic), start, Options{})
				require.NoError(t, err, "%s, start %d", s.name, k+1)
				b, sd := 16.0, 16.0
				for j := range s.want {
					b, sd = min(b, digits(fit.Parameters[j], s.want[j])), min(sd, digits(math.Sqrt(fit.Covariance[j][j]), s.sd[j]))
				}
				t.Logf("%-7s start %d slopes %-5v: parameters %4.1f, standard deviations %4.1f, SS %4.1f digits; %3d iterations, %4d evaluations, %s at %.0e, condition %.1e",
					s.name, k+1, analytic, b, sd, digits(fit.ResidualSS, s.residualSS), fit.Iterations, fit.Evaluations, fit.Stop, fit.Offset, fit.Condition)
				require.GreaterOrEqual(t, min(b, sd, digits(fit.ResidualSS, s.residualSS)), 6.0, "%s, start %d", s.name, k+1)
			}
		}
	}
}
