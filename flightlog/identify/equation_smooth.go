package identify

import "math"

// Half width of the smoothing kernel and the fewest samples of it. A quarter of a second in all halves what swings at four hertz,
// above the motions of a model and below the noise of its gyros; derived from short periods and Dutch rolls of about one hertz, not
// published.
const (
	smoothingHalf = 0.12 // s
	fewestHalf    = 2    // samples
)

// slopeReach is how many samples to each side a slope is taken from.
const slopeReach = 3

// kernel is a symmetric smoothing filter.
type kernel []float64

// newKernel is a raised cosine of whole width twice half, weights summing to one. It is symmetric, so that no channel lags another.
func newKernel(step float64) kernel {
	half := max(fewestHalf, int(math.Round(smoothingHalf/step)))
	w, sum := make(kernel, 2*half+1), 0.0
	for i := range w {
		w[i] = 1 + math.Cos(math.Pi*float64(i-half)/float64(half+1))
		sum += w[i]
	}
	for i := range w {
		w[i] /= sum
	}
	return w
}

// fresh is the share of independent samples behind as many smoothed ones, Σw²: taking one slow direction off smoothed white noise takes
// off 1/(n·Σw²) of its variance.
func (k kernel) fresh() float64 {
	sum := 0.0
	for _, w := range k {
		sum += w * w
	}
	return sum
}

// margin is how many samples smoothing and slope cost at each end.
func (k kernel) margin() int { return len(k)/2 + slopeReach }

// value smooths a channel; the result begins and ends margin samples inside.
func (k kernel) value(x []float64) []float64 { return k.over(x, slopeReach) }

// over smooths and drops some more samples at each end.
func (k kernel) over(x []float64, drop int) []float64 {
	half := len(k) / 2
	out := make([]float64, len(x)-2*(half+drop))
	for i := range out {
		at, sum := i+drop, 0.0
		for j, w := range k {
			sum += float64(w * x[at+j])
		}
		out[i] = sum
	}
	return out
}

// slope smooths a channel by the same kernel and differentiates it by the central rule of sixth order, so that value and slope belong
// to one smoothed signal. At an eighth of the sample rate the rule is 0.2 % low.
//
// Source: central differences in any table, from memory; the tests check it on polynomials.
func (k kernel) slope(x []float64, step float64) []float64 {
	smooth := k.over(x, 0)
	out := make([]float64, len(smooth)-2*slopeReach)
	for i := range out {
		s := smooth[i : i+2*slopeReach+1]
		out[i] = (45*(s[4]-s[2]) - 9*(s[5]-s[1]) + (s[6] - s[0])) / (60 * step)
	}
	return out
}
