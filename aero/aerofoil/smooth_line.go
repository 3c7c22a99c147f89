package aerofoil

import "math"

// thetaOf is θ of x = (1 − cos θ)/2, limited to the chord.
func thetaOf(x float64) float64 { return math.Acos(math.Min(1, math.Max(-1, 1-2*x))) }

// camber is term k of a mean line, x (1 − x) T_k(1 − 2x) with Chebyshev's polynomials, and its slope.
func camber(k int, x float64) (z, slope float64) {
	theta := thetaOf(x)
	t := math.Cos(float64(k) * theta)
	dt := -2 * float64(k) * sineRatio(k, theta) // T_k(1 − 2x) = cos kθ, dx = ½ sin θ dθ
	return x * (1 - x) * t, (1-2*x)*t + x*(1-x)*dt
}

// sineRatio is sin kθ/sin θ with its limits at both ends.
func sineRatio(k int, theta float64) float64 {
	sin := math.Sin(theta)
	switch {
	case math.Abs(sin) > 1e-8:
		return math.Sin(float64(k)*theta) / sin
	case theta < 1 || k%2 == 1:
		return float64(k)
	}
	return -float64(k)
}

// smoothLine holds the coefficients of the terms of camber.
type smoothLine []float64

// Height is z of the mean line at x, fractions of the chord.
func (l smoothLine) Height(x float64) float64 {
	sum := 0.0
	for k, c := range l {
		z, _ := camber(k, x)
		sum += c * z
	}
	return sum
}

// Slope is dz/dx at x.
func (l smoothLine) Slope(x float64) float64 {
	sum := 0.0
	for k, c := range l {
		_, slope := camber(k, x)
		sum += c * slope
	}
	return sum
}
