package reduce

import "math"

// sums holds running sums of a series, so that mean, trend and scatter of any window come at once. The
// series is centred first, so that the sums keep their digits.
type sums struct {
	centre      float64
	y, yy, iy   []float64 // Σy, Σy², Σi·y up to an index
	missing     []int
	step        float64
	indexCentre float64
}

func newSums(values []float64) *sums {
	n := len(values)
	s := &sums{y: make([]float64, n+1), yy: make([]float64, n+1), iy: make([]float64, n+1), missing: make([]int, n+1), indexCentre: float64(n) / 2}
	count := 0.0
	for _, v := range values {
		if !math.IsNaN(v) {
			s.centre += v
			count++
		}
	}
	s.centre /= math.Max(count, 1)
	for i, v := range values {
		s.missing[i+1] = s.missing[i]
		if math.IsNaN(v) {
			s.missing[i+1]++
			v = s.centre
		}
		v -= s.centre
		s.y[i+1] = s.y[i] + v
		s.yy[i+1] = s.yy[i] + v*v
		s.iy[i+1] = s.iy[i] + (float64(i)-s.indexCentre)*v
	}
	return s
}

// window is what a series does from index i up to j, j left out.
type window struct {
	mean    float64
	trend   float64 // per second, least squares
	scatter float64 // standard deviation about the trend
	whole   bool    // no sample is missing
}

// over gives the window from i up to j; i + 3 ≤ j.
func (s *sums) over(i, j int) window {
	n := float64(j - i)
	y, yy := s.y[j]-s.y[i], s.yy[j]-s.yy[i]
	middle := float64(i) + (n-1)/2 - s.indexCentre
	iy := s.iy[j] - s.iy[i] - middle*y
	ii := n * (n*n - 1) / 12
	slope := iy / ii
	variance := (yy - y*y/n - slope*iy) / (n - 2)
	return window{mean: s.centre + y/n, trend: slope / gridStep, scatter: math.Sqrt(math.Max(variance, 0)), whole: s.missing[j] == s.missing[i]}
}
