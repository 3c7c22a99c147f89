package reduce

import (
	"math"
	"math/rand/v2"
)

// peakDraws is how often noise is drawn to tell what it adds to the greatest value: its mean is then known to a twentieth of the noise.
const peakDraws = 400

// peakOf is the greatest value of a series on the grid under noise that went through the low-pass of the grid, and its standard deviation. It is
// that of the series under a wider low-pass, whose place is at. The greatest of noisy values is too great, and a low-pass planes peaks
// off: by how much, both together, is told by doing the same again and again to what was found with fresh noise on it (the bootstrap estimate of
// bias; Efron & Tibshirani, An Introduction to the Bootstrap, ch. 10, from memory). The noise comes from the stream given.
func peakOf(values []float64, noise, width float64, rng *rand.Rand) (at int, peak, deviation float64) {
	wider := newPlane(len(values), peakWidths*width/gridStep)
	curve := make([]float64, len(values))
	wider.apply(curve, values)
	at = highest(curve)
	kernel := gaussianNoise(noise, width/gridStep)
	white, again, planed := make([]float64, len(values)+len(kernel)-1), make([]float64, len(values)), make([]float64, len(values))
	sum, squares := 0.0, 0.0
	for range peakDraws / 2 {
		for i := range white {
			white[i] = rng.NormFloat64()
		}
		for _, side := range [2]float64{1, -1} { // antithetic: what is linear in the noise cancels in the mean
			for i, v := range curve {
				for k, w := range kernel {
					v += float64(side * w * white[i+k])
				}
				again[i] = v
			}
			wider.apply(planed, again)
			most := planed[highest(planed)]
			sum, squares = sum+most, squares+most*most
		}
	}
	mean := sum / peakDraws
	return at, curve[at] - (mean - curve[at]), math.Sqrt(math.Max(0, squares/peakDraws-mean*mean))
}

// highest is the index of the greatest value, the first of equals.
func highest(values []float64) int {
	top := 0
	for i, v := range values {
		if v > values[top] {
			top = i
		}
	}
	return top
}

// gaussianNoise are the weights that turn white noise of one into noise of a standard deviation as a Gaussian low-pass of so many instants leaves it.
func gaussianNoise(sd, width float64) []float64 {
	half := int(math.Ceil(3 * width))
	out, square := make([]float64, 2*half+1), 0.0
	for i := range out {
		x := float64(i-half) / math.Max(width, 1e-9)
		out[i] = math.Exp(-x * x / 2)
		square += out[i] * out[i]
	}
	for i := range out {
		out[i] *= sd / math.Sqrt(square)
	}
	return out
}

// plane is the locally straight Gaussian low-pass of grid.smooth as weights, for one length of series.
type plane struct {
	first   []int
	weights [][]float64
}

func newPlane(n int, width float64) plane {
	p := plane{first: make([]int, n), weights: make([][]float64, n)}
	reach := int(math.Ceil(3 * width))
	for i := range n {
		from, to := max(i-reach, 0), min(i+reach+1, n)
		row := make([]float64, to-from)
		var s0, s1, s2 float64
		for k := range row {
			d := float64(from+k-i) / width
			w := math.Exp(-d * d / 2)
			s0, s1, s2 = s0+w, s1+w*d, s2+w*d*d
		}
		for k := range row {
			d := float64(from+k-i) / width
			row[k] = math.Exp(-d*d/2) / s0
			if determinant := s0*s2 - s1*s1; determinant > 0.05*s0*s0 {
				row[k] = math.Exp(-d*d/2) * (s2 - s1*d) / determinant
			}
		}
		p.first[i], p.weights[i] = from, row
	}
	return p
}

func (p plane) apply(out, values []float64) {
	for i, row := range p.weights {
		out[i] = dot(row, values[p.first[i]:])
	}
}
