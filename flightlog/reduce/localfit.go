package reduce

import "math"

// localFit is a straight line fitted about an instant under a Gaussian weight: what all channels share that have the same times.
type localFit struct {
	weight, lever []float64 // of each sample within three widths: Gaussian weight w, and w·d with the distance d from the instant in widths
	s0, s1, s2    float64   // Σw, Σw·d, Σw·d²
	close         bool      // a sample lies within two widths
}

// weigh puts the fit at an instant; none of the times lies more than three widths ahead of it.
func (f *localFit) weigh(times []float64, at, width float64) {
	*f = localFit{weight: f.weight[:0], lever: f.lever[:0]}
	for _, t := range times {
		if t > at+3*width {
			break
		}
		d := (t - at) / width
		w := math.Exp(-d * d / 2)
		f.s0, f.s1, f.s2 = f.s0+w, f.s1+w*d, f.s2+w*d*d
		f.weight, f.lever = append(f.weight, w), append(f.lever, w*d)
		f.close = f.close || math.Abs(d) <= 2
	}
}

// at is the value of the line at the instant, the mean where the samples cannot tell a slope; NaN where none is close.
func (f *localFit) at(values []float64) float64 {
	var y0, y1 float64
	values = values[:len(f.weight)]
	lever := f.lever[:len(values)]
	for k, w := range f.weight {
		y0, y1 = y0+w*values[k], y1+lever[k]*values[k]
	}
	determinant := f.s0*f.s2 - f.s1*f.s1
	switch {
	case !f.close:
		return math.NaN()
	case determinant > 0.05*f.s0*f.s0:
		return (f.s2*y0 - f.s1*y1) / determinant
	}
	return y0 / f.s0
}
