package manoeuvre

import (
	"math"

	"wingproof/flightlog/statistic"
)

// sums answers for means over any range of a series at one cost. Missing values are left out.
type sums struct{ value, count []float64 }

func newSums(x []float64) sums {
	s := sums{make([]float64, len(x)+1), make([]float64, len(x)+1)}
	for i, v := range x {
		s.value[i+1], s.count[i+1] = s.value[i], s.count[i]
		if statistic.Finite(v) {
			s.value[i+1] += v
			s.count[i+1]++
		}
	}
	return s
}

// mean over i up to j, j left out; NaN when less than half of the values are there.
func (s sums) mean(i, j int) float64 {
	i, j = max(i, 0), min(j, len(s.value)-1)
	if j <= i {
		return math.NaN()
	}
	n := s.count[j] - s.count[i]
	if 2*n < float64(j-i) {
		return math.NaN()
	}
	return (s.value[j] - s.value[i]) / n
}

// smoothed is the moving mean over half a width on either side, taken twice.
func smoothed(x []float64, half int) []float64 {
	for range 2 {
		s := newSums(x)
		out := make([]float64, len(x))
		for i := range x {
			reach := min(half, i, len(x)-1-i) // the same on both sides, so that a ramp is not moved
			out[i] = s.mean(i-reach, i+reach+1)
		}
		x = out
	}
	return x
}

// slope is the rate of change per second from the means of the half widths ahead and behind.
func slope(x []float64, half int, step float64) []float64 {
	s := newSums(x)
	out := make([]float64, len(x))
	for i := range x {
		a, b := max(0, i-half), min(len(x), i+half+1)
		out[i] = (s.mean(i, b) - s.mean(a, i+1)) / (float64(b-a-1) / 2 * step)
	}
	return out
}

// run is a range of instants, last left out.
type run struct{ from, to int }

// runs finds the ranges in which ok holds, holes up to a bridge within them, that are at least so long.
func runs(n int, ok func(int) bool, bridge, least int) []run {
	var out []run
	at := run{-1, -1}
	flush := func() {
		if at.from >= 0 && at.to-at.from >= least {
			out = append(out, at)
		}
	}
	for i := range n {
		if !ok(i) {
			continue
		}
		if at.from < 0 || i-at.to > bridge {
			flush()
			at.from = i
		}
		at.to = i + 1
	}
	flush()
	return out
}

// picked are the finite values of a range.
func picked(x []float64, r run) []float64 {
	var out []float64
	for i := max(0, r.from); i < min(len(x), r.to); i++ {
		if statistic.Finite(x[i]) {
			out = append(out, x[i])
		}
	}
	return out
}

// middle is the median over a range; NaN when nothing is there.
func middle(x []float64, r run) float64 {
	return statistic.Median(picked(x, r))
}

// spread is half the range that holds four fifths of the values: 1.28 standard deviations of a normal scatter.
func spread(x []float64, r run) float64 {
	v := picked(x, r)
	return (statistic.Quantile(v, 0.9) - statistic.Quantile(v, 0.1)) / 2
}

// near gives the longest piece of a range in which a series stays within a band about its median over the range.
func near(x []float64, r run, band float64, bridge, least int) (best run, ok bool) {
	mid := middle(x, r)
	for _, n := range runs(r.to-r.from, func(i int) bool { return math.Abs(x[r.from+i]-mid) < band }, bridge, least) {
		if n.to-n.from > best.to-best.from {
			best = n
		}
	}
	return run{best.from + r.from, best.to + r.from}, best.to > best.from
}

// average over a range; zero when nothing is there.
func average(x []float64, r run) float64 {
	sum, n := 0.0, 0
	for i := max(0, r.from); i < min(len(x), r.to); i++ {
		if statistic.Finite(x[i]) {
			sum, n = sum+x[i], n+1
		}
	}
	return sum / math.Max(1, float64(n))
}
