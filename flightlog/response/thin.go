package response

// thinned replaces blocks of samples by their means. A mean over a block leaves the frequency and the rate of decay
// of what swings alone, and changes only its amplitude.
func thinned(values []float64, block int) []float64 {
	out := make([]float64, 0, len(values)/block)
	for i := 0; i+block <= len(values); i += block {
		sum := 0.0
		for _, v := range values[i : i+block] {
			sum += v
		}
		out = append(out, sum/float64(block))
	}
	return out
}

// detrended takes off the straight line of least squares.
func detrended(values []float64) []float64 {
	n := float64(len(values))
	var mean, slope, square float64
	for _, v := range values {
		mean += v / n
	}
	for i, v := range values {
		x := float64(i) - (n-1)/2
		slope += x * (v - mean)
		square += x * x
	}
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = v - mean
		if square > 0 {
			out[i] -= float64(slope/square) * (float64(i) - (n-1)/2)
		}
	}
	return out
}
