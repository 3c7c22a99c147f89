// Package statistic holds the order statistics and correlations that the packages of a recording share: plain functions of
// plain numbers.
package statistic

import "math"

// Correlation is Pearson's r; 0 when a side does not vary.
func Correlation(x, y []float64) float64 {
	n := float64(len(x))
	if n == 0 {
		return 0
	}
	var mx, my float64
	for i := range x {
		mx += x[i] / n
		my += y[i] / n
	}
	var xx, yy, xy float64
	for i := range x {
		dx, dy := x[i]-mx, y[i]-my
		xx += dx * dx
		yy += dy * dy
		xy += dx * dy
	}
	if xx == 0 || yy == 0 {
		return 0
	}
	return xy / math.Sqrt(xx*yy)
}

// Magnitudes are the absolute values.
func Magnitudes(values []float64) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = math.Abs(v)
	}
	return out
}

// Finite tells whether every value is a number and not infinite.
func Finite(values ...float64) bool {
	for _, x := range values {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
