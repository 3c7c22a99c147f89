package statistic

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Normal975 is the 97.5 % quantile of the normal distribution.
const Normal975 = 1.959963984540054

// StudentQuantile is the number of standard deviations that bounds 95 % two-sided of Student's t with the given
// degrees of freedom (2.228 for 10). Infinite degrees give the normal value; below one half it is +Inf.
func StudentQuantile(degrees float64) float64 {
	switch {
	case math.IsNaN(degrees) || degrees < 0.5:
		return math.Inf(1)
	case degrees > 1e6:
		return Normal975
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degrees}.Quantile(0.975)
}

// FisherQuantile is the 99 % quantile of the F distribution.
func FisherQuantile(d1, d2 float64) float64 {
	if d2 > 1e6 {
		return distuv.ChiSquared{K: d1}.Quantile(0.99) / d1
	}
	return distuv.F{D1: d1, D2: d2}.Quantile(0.99)
}
