package leastsquares

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// BenchmarkLinear times the usual small fits, beside gonum's plain QR solution of the same, which gives neither residuals nor
// covariance, and one that is nearly collinear.
func BenchmarkLinear(b *testing.B) {
	for _, size := range [][2]int{{10, 2}, {30, 3}, {100, 4}, {1000, 8}} {
		random := rand.New(rand.NewPCG(3, 4))
		n, p := size[0], size[1]
		rows, y, flat := make([][]float64, n), make([]float64, n), make([]float64, 0, n*p)
		for i := range rows {
			rows[i], y[i] = []float64{1}, random.NormFloat64()
			for range p - 1 {
				rows[i] = append(rows[i], random.NormFloat64())
			}
			flat = append(flat, rows[i]...)
		}
		b.Run(fmt.Sprintf("rows=%d/parameters=%d/road=Linear", n, p), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Linear(rows, y, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("rows=%d/parameters=%d/road=gonum", n, p), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				var qr mat.QR
				var solution mat.VecDense
				qr.Factorize(mat.NewDense(n, p, flat))
				if err := qr.SolveVecTo(&solution, false, mat.NewVecDense(n, y)); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("rows=%d/parameters=%d/road=collinear", n, p), func(b *testing.B) {
			near := make([][]float64, n)
			for i, row := range rows {
				near[i] = append([]float64(nil), row...)
				near[i][p-1] = 1 + 1e-6*row[p-1]
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Linear(near, y, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkNonlinear times a damped oscillation of 500 samples, with slopes, with differences, and when a thousandth of a standard
// deviation will do.
func BenchmarkNonlinear(b *testing.B) {
	random := rand.New(rand.NewPCG(5, 6))
	const n = 500
	value := func(p []float64, t float64) float64 {
		return p[0] + math.Exp(-p[1]*t)*(p[3]*math.Cos(p[2]*t)+p[4]*math.Sin(p[2]*t))
	}
	y := make([]float64, n)
	for i := range y {
		y[i] = value([]float64{0.1, 1.2, 6, 1, 0.3}, 0.01*float64(i)) + 0.02*random.NormFloat64()
	}
	differences := Problem{Rows: n, Residuals: func(p, r []float64) error {
		for i := range r {
			r[i] = y[i] - value(p, 0.01*float64(i))
		}
		return nil
	}}
	slopes := differences
	slopes.Jacobian = func(p []float64, jacobian [][]float64) error {
		for i, row := range jacobian {
			t := 0.01 * float64(i)
			e, sin, cos := math.Exp(-p[1]*t), math.Sin(p[2]*t), math.Cos(p[2]*t)
			row[0], row[1], row[2] = -1, t*e*(p[3]*cos+p[4]*sin), t*e*(p[3]*sin-p[4]*cos)
			row[3], row[4] = -e*cos, -e*sin
		}
		return nil
	}
	for _, c := range []struct {
		name    string
		problem Problem
		options Options
	}{{"slopes", slopes, Options{}}, {"differences", differences, Options{}}, {"differences/tolerance=1e-3", differences, Options{Tolerance: 1e-3}}} {
		b.Run("rows=500/parameters=5/"+c.name, func(b *testing.B) {
			b.ReportAllocs()
			evaluations := 0
			for b.Loop() {
				fit, err := Nonlinear(c.problem, []float64{0, 1, 5, 1, 0.1}, c.options)
				if err != nil {
					b.Fatal(err)
				}
				evaluations = fit.Evaluations
			}
			b.ReportMetric(float64(evaluations), "evaluations/op")
		})
	}
}
