package quality

import (
	"math"
	"sort"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// run is a stretch of samples that repeat one number, last one included.
type run struct{ from, to int }

func (r run) samples() int { return r.to - r.from + 1 }

// scan is what one pass over a channel tells.
type scan struct {
	step    float64 // usual time between samples, s
	regular bool    // whether samples come at that step, and not just when the value changes
	usual   int     // 95 % of the runs of equal numbers are no longer than this, in samples
	rare    int     // so many equal neighbours on end do not come by chance in this channel
	runs    []run   // of shortestRun samples or more
}

// shortestRun is the least run that is kept: two equal neighbours happen by chance.
const shortestRun = 3

// mostSampled bounds how many samples stand for a channel where a quantile is wanted: a median is then good to a twentieth of
// a standard deviation (1.25/√n), which no bound here asks for, and sorting costs nothing.
const mostSampled = 1024

func newScan(c flightlog.Channel) scan {
	var s scan
	s.step, s.regular = usualStep(c.Time)
	const longest = 256
	var lengths [longest + 1]int // how many runs have each length
	total := 0
	for i := 0; i < len(c.Value); {
		j := i
		for j+1 < len(c.Value) && c.Value[j+1] == c.Value[i] {
			j++
		}
		if r := (run{i, j}); r.samples() >= shortestRun {
			s.runs = append(s.runs, r)
		}
		lengths[min(j-i+1, longest)]++
		total++
		i = j + 1
	}
	s.rare = rareRun(float64(lengths[2])/math.Max(1, float64(total)), len(c.Value))
	for seen := 0; s.usual <= longest && 20*seen < 19*total; s.usual++ {
		seen += lengths[min(s.usual+1, longest)]
	}
	return s
}

// rareRun is how many equal neighbours on end come by chance once in ten thousand recordings of n samples, when a share of samples
// equals the one before: n·share^k = 1e-4. The share is taken from pairs, which no stuck sensor makes.
func rareRun(share float64, n int) int {
	if n < 2 {
		return shortestRun
	}
	share = math.Min(math.Max(share, 1/float64(n)), 0.9)
	return int(math.Ceil(math.Log(1e-4/float64(n)) / math.Log(share)))
}

// usualStep is the median step, and whether nine steps in ten lie within half of it around it.
func usualStep(time []float64) (step float64, regular bool) {
	n := len(time) - 1
	if n < 1 {
		return 0, false
	}
	stride := max(1, n/mostSampled)
	var steps []float64
	for i := 0; i < n; i += stride {
		steps = append(steps, time[i+1]-time[i])
	}
	sort.Float64s(steps)
	step = statistic.Median(steps)
	at := func(share float64) float64 { return steps[int(share*float64(len(steps)-1))] }
	return step, at(0.05) > step/2 && at(0.95) < 1.5*step
}

// sampled takes every so many values, up to mostSampled or so of them.
func sampled(values []float64) []float64 {
	stride := max(1, len(values)/mostSampled)
	out := make([]float64, 0, mostSampled+1)
	for i := 0; i < len(values); i += stride {
		out = append(out, values[i])
	}
	return out
}

// orderOf is the places of values in rising order.
func orderOf(values []float64) []int {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return values[order[i]] < values[order[j]] })
	return order
}
