package decide

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// widened scales a covariance estimated with few degrees of freedom so that a normal 95 % interval is as
// wide as Student's: standard deviations × t(0.975, degrees) / 1.96. Below one degree counts as one.
// It refuses matrices that are not symmetric and positive semidefinite.
func widened(covariance [][]float64, degrees float64) (*mat.SymDense, error) {
	n := len(covariance)
	own := mat.NewSymDense(n, nil)
	factor := widening(degrees)
	if math.IsNaN(factor) {
		return nil, fmt.Errorf("degrees of freedom are not a number")
	}
	for i := range n {
		if len(covariance[i]) != n {
			return nil, fmt.Errorf("row %d of the covariance has %d entries instead of %d", i+1, len(covariance[i]), n)
		}
		for j := range n {
			a, b := covariance[i][j], covariance[j][i]
			if !(math.Abs(a-b) <= 1e-9*(math.Abs(a)+math.Abs(b))) {
				return nil, fmt.Errorf("the covariance is not symmetric at row %d, column %d", i+1, j+1)
			}
			own.SetSym(i, j, (a+b)/2*factor*factor)
		}
	}
	if _, ok := semiCholesky(own); !ok {
		return nil, fmt.Errorf("the covariance is not positive semidefinite")
	}
	return own, nil
}

// widening is t(0.975, degrees) over the normal quantile: 6.48 for one degree, 1.14 for ten.
func widening(degrees float64) float64 {
	if math.IsInf(degrees, 1) {
		return 1
	}
	student := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: math.Max(1, degrees)}
	return math.Max(1, student.Quantile(0.975)/distuv.UnitNormal.Quantile(0.975))
}

// semiCholesky returns a lower triangle L with L·Lᵀ = a; rows without own variance get zeros.
func semiCholesky(a *mat.SymDense) ([][]float64, bool) {
	n := a.SymmetricDim()
	lower := make([][]float64, n)
	for i := range n {
		lower[i] = make([]float64, n)
		for j := 0; j <= i; j++ {
			sum := a.At(i, j)
			for k := range j {
				sum -= lower[i][k] * lower[j][k]
			}
			tolerance := 1e-10 * math.Sqrt(a.At(i, i)*a.At(j, j))
			switch {
			case i == j && !(sum >= -tolerance):
				return nil, false
			case i == j && sum > tolerance:
				lower[i][i] = math.Sqrt(sum)
			case i != j && lower[j][j] > 0:
				lower[i][j] = sum / lower[j][j]
			case i != j && math.Abs(sum) > 1e-5*math.Sqrt(a.At(i, i)*a.At(j, j)):
				return nil, false
			}
		}
	}
	return lower, true
}
