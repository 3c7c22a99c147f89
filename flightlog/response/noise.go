package response

import "math"

// quietest is the least noise of an instrument, over the size of its signal, so that a signal without noise can be fitted too and
// the filter keeps half of its digits.
const quietest = 1e-8

// noiseOf is the noise of an instrument, from the third differences of what a fit leaves over: var(Δ³x) = (1 + 9 + 9 + 1)·σ². Slow
// leftovers hardly enter.
func noiseOf(residuals []float64) float64 {
	sum := 0.0
	for i := 3; i < len(residuals); i++ {
		d := residuals[i] - 3*residuals[i-1] + 3*residuals[i-2] - residuals[i-3]
		sum += d * d / 20
	}
	return math.Sqrt(sum / float64(max(1, len(residuals)-3)))
}

// sizeOf is the standard deviation about the straight line.
func sizeOf(values []float64) float64 {
	flat := detrended(values)
	return math.Sqrt(dot(flat, flat) / float64(max(1, len(values))))
}
