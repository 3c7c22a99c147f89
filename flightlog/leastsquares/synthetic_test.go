package leastsquares

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// madeUp is a published model with its published starts, on data that were computed from known parameters. Models of NIST/ITL
// Statistical Reference Datasets, starts and parameters from memory.
type madeUp struct {
	name   string
	x      [][]float64
	model  func(b, x []float64) float64
	starts [][]float64
	truth  []float64
	noise  float64
}

func even(from, to float64, n int) (x [][]float64) {
	for i := range n {
		x = append(x, []float64{from + (to-from)*float64(i)/float64(n-1)})
	}
	return x
}

func (m madeUp) problem(noise float64) Problem {
	random := rand.New(rand.NewPCG(1, 2))
	y := make([]float64, len(m.x))
	for i, x := range m.x {
		y[i] = m.model(m.truth, x) + noise*random.NormFloat64()
	}
	return Problem{Rows: len(y), Residuals: func(b, r []float64) error {
		for i, x := range m.x {
			r[i] = y[i] - m.model(b, x)
		}
		return nil
	}}
}

func ageing() (x [][]float64) {
	for _, weeks := range []float64{1, 2, 4, 8, 16, 32, 48, 64} {
		for _, celsius := range []float64{180, 225, 250, 275} {
			for range 4 {
				x = append(x, []float64{weeks, celsius})
			}
		}
	}
	return x
}

func waves(b, x []float64) float64 {
	v := 2 * math.Pi * x[0]
	return b[0] + b[1]*math.Cos(v/12) + b[2]*math.Sin(v/12) + b[4]*math.Cos(v/b[3]) + b[5]*math.Sin(v/b[3]) + b[7]*math.Cos(v/b[6]) + b[8]*math.Sin(v/b[6])
}

func peaks(b, x []float64) float64 {
	u, v := (x[0]-b[3])/b[4], (x[0]-b[6])/b[7]
	return b[0]*math.Exp(-b[1]*x[0]) + b[2]*math.Exp(-u*u) + b[5]*math.Exp(-v*v)
}

func cubicOverCubic(b, x []float64) float64 {
	v := x[0]
	return (b[0] + v*(b[1]+v*(b[2]+v*b[3]))) / (1 + v*(b[4]+v*(b[5]+v*b[6])))
}

func madeUpSets() []madeUp {
	return []madeUp{
		{"Eckerle4", even(400, 500, 35), func(b, x []float64) float64 { u := (x[0] - b[2]) / b[1]; return b[0] / b[1] * math.Exp(-u*u/2) },
			[][]float64{{1, 10, 500}, {1.5, 5, 450}}, []float64{1.5543827178, 4.0888321754, 451.54121844}, 0.0067},
		{"Nelson", ageing(), func(b, x []float64) float64 { return b[0] - b[1]*x[0]*math.Exp(-b[2]*x[1]) },
			[][]float64{{2, 1e-4, -0.01}, {2.5, 5e-9, -0.05}}, []float64{2.5906836021, 5.6177717026e-9, -5.7701013174e-2}, 0.17},
		{"Bennett5", even(7.447, 12.495, 154), func(b, x []float64) float64 { return b[0] * math.Pow(b[1]+x[0], -1/b[2]) },
			[][]float64{{-2000, 50, 0.8}, {-1500, 45, 0.85}}, []float64{-2523.5058043, 46.736564644, 0.93218483193}, 0.00186},
		{"Hahn1", even(14, 851, 236), cubicOverCubic, [][]float64{{10, -1, 0.05, -1e-5, -0.05, 0.001, -1e-6}, {1, -0.1, 0.005, -1e-6, -0.005, 1e-4, -1e-7}},
			[]float64{1.0776351733, -0.12269296921, 4.0863750610e-3, -1.4262662514e-6, -5.7609940901e-3, 2.4053735503e-4, -1.2314450199e-7}, 0.0818},
		{"Kirby2", even(9.65, 371, 151), func(b, x []float64) float64 {
			return (b[0] + x[0]*(b[1]+x[0]*b[2])) / (1 + x[0]*(b[3]+x[0]*b[4]))
		}, [][]float64{{2, -0.1, 0.003, -0.001, 1e-5}, {1.5, -0.15, 0.0025, -0.0015, 2e-5}},
			[]float64{1.6745063063, -0.13927397867, 2.5961181191e-3, -1.7241811870e-3, 2.1664802578e-5}, 0.163},
		{"Roszman1", even(-4868, -13, 25), func(b, x []float64) float64 { return b[0] - b[1]*x[0] - math.Atan(b[2]/(x[0]-b[3]))/math.Pi },
			[][]float64{{0.1, -1e-5, 1000, -100}, {0.2, -5e-6, 1200, -150}}, []float64{0.20196866396, -6.1953516256e-6, 1204.4556708, -181.34269537}, 0.00485},
		{"ENSO", even(1, 168, 168), waves, [][]float64{{11, 3, 0.5, 40, -0.7, -1.3, 25, -0.3, 1.4}, {10, 3, 0.5, 44, -1.5, 0.5, 26, -0.1, 1.5}},
			[]float64{10.510749193, 3.0762128085, 0.53280138227, 44.311088700, -1.6231428586, 0.52554493756, 26.887614440, 0.21232288488, 1.4966870418}, 2.2},
		{"Chwirut1", even(0.5, 6, 214), func(b, x []float64) float64 { return math.Exp(-b[0]*x[0]) / (b[1] + b[2]*x[0]) },
			[][]float64{{0.1, 0.01, 0.02}, {0.15, 0.008, 0.010}}, []float64{0.19027818370, 6.1314004477e-3, 1.0530908399e-2}, 3.36},
		{"Gauss1", even(1, 250, 250), peaks, [][]float64{{97, 0.009, 100, 65, 20, 70, 178, 16.5}, {94, 0.0105, 99, 63, 25, 71, 180, 20}},
			[]float64{98.778210871, 0.010497276517, 100.48990633, 67.481111276, 23.129773360, 71.994503004, 178.99805021, 18.389389025}, 2.3},
		{"Lanczos", even(0, 1.15, 24), func(b, x []float64) float64 {
			return b[0]*math.Exp(-b[1]*x[0]) + b[2]*math.Exp(-b[3]*x[0]) + b[4]*math.Exp(-b[5]*x[0])
		}, [][]float64{{1.2, 0.3, 5.6, 5.5, 6.5, 7.6}, {0.5, 0.7, 3.6, 4.2, 4, 6.3}}, []float64{0.0951, 1, 0.8607, 3, 1.5576, 5}, 1e-5},
		{"MGH17", even(0, 320, 33), func(b, x []float64) float64 { return b[0] + b[1]*math.Exp(-x[0]*b[3]) + b[2]*math.Exp(-x[0]*b[4]) },
			[][]float64{{50, 150, -100, 1, 2}, {0.5, 1.5, -1, 0.01, 0.02}}, []float64{0.37541005211, 1.9358469127, -1.4646871366, 0.012867534640, 0.022122699662}, 1.4e-3},
	}
}

// On exact data the answer is what they were made from; on noisy data the starts must meet at one minimum, with one covariance.
func TestNonlinearOnDataOfKnownParameters(t *testing.T) {
	for _, m := range madeUpSets() {
		t.Run(m.name, func(t *testing.T) {
			best, err := Nonlinear(m.problem(m.noise), m.truth, Options{})
			require.NoError(t, err)
			for k, start := range m.starts {
				clean, err := Nonlinear(m.problem(0), start, Options{})
				require.NoError(t, err)
				noisy, err := Nonlinear(m.problem(m.noise), start, Options{})
				require.NoError(t, err)
				exact, same, sd := 16.0, 16.0, 16.0
				for j := range m.truth {
					exact = min(exact, digits(clean.Parameters[j], m.truth[j]))
					same = min(same, digits(noisy.Parameters[j], best.Parameters[j]))
					sd = min(sd, digits(noisy.Covariance[j][j], best.Covariance[j][j]))
				}
				t.Logf("start %d: exact data %.1f digits in %d iterations; noisy %.1f and covariance %.1f in %d; condition %.1e", k+1, exact, clean.Iterations, same, sd, noisy.Iterations, noisy.Condition)
				require.GreaterOrEqual(t, min(exact, same, sd), 6.0)
			}
		})
	}
}
