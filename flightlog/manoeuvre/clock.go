package manoeuvre

import (
	"math"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// clock is a row of instants one step apart.
type clock struct {
	start, step float64 // s
	n           int
}

func (c clock) time(i int) float64 { return c.start + float64(i)*c.step }

// index is the nearest instant, kept inside the row.
func (c clock) index(t float64) int {
	return max(0, min(c.n-1, int(math.Round((t-c.start)/c.step))))
}

// count is how many steps a time takes, at least one.
func (c clock) count(seconds float64) int { return max(1, int(math.Round(seconds/c.step))) }

// span is the time that all channels together cover; ok is false when there is none, or more than any model flies.
func span(rec *flightlog.Recording) (start, end float64, ok bool) {
	start, end = math.Inf(1), math.Inf(-1)
	for _, c := range rec.Channels {
		if n := len(c.Time); n >= 2 && n == len(c.Value) {
			start, end = math.Min(start, c.Time[0]), math.Max(end, c.Time[n-1])
		}
	}
	return start, end, end-start >= shortestRecording && end-start <= longestRecording
}

// sampled brings a channel onto a clock: the mean of the samples about each instant, a straight line across short holes,
// and NaN across long ones. Single samples that stand off both neighbours do not enter. An angle that goes round is
// unrolled first.
func sampled(c flightlog.Channel, k clock, round bool) []float64 {
	out := empty(k.n)
	if len(c.Time) < 2 || len(c.Time) != len(c.Value) {
		return out
	}
	values := c.Value
	if round {
		values = unrolled(values)
	}
	values = withoutSpikes(values)
	into(out, c.Time, values, k)
	bridge(out, c.Time, values, k, hole(c))
	return out
}

// hole is the time without a sample that counts as a loss.
func hole(c flightlog.Channel) float64 { return math.Max(holeSeconds, holeSteps*c.Step()) }

func empty(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = math.NaN()
	}
	return out
}

// into writes the mean of the samples about each instant that has any.
func into(out, times, values []float64, k clock) {
	sum, count, at := 0.0, 0, -1
	flush := func() {
		if count > 0 && at >= 0 && at < k.n {
			out[at] = sum / float64(count)
		}
		sum, count = 0, 0
	}
	for i, t := range times {
		if b := int(math.Round((t - k.start) / k.step)); b != at {
			flush()
			at = b
		}
		if statistic.Finite(values[i]) {
			sum, count = sum+values[i], count+1
		}
	}
	flush()
}

// bridge draws straight lines where instants lie between two samples that are no hole apart.
func bridge(out, times, values []float64, k clock, longest float64) {
	j := 0
	for i := range out {
		if !math.IsNaN(out[i]) {
			continue
		}
		t := k.time(i)
		for j < len(times) && times[j] < t {
			j++
		}
		if j == 0 || j == len(times) || times[j]-times[j-1] > longest {
			continue
		}
		share := (t - times[j-1]) / (times[j] - times[j-1])
		out[i] = values[j-1] + share*(values[j]-values[j-1])
	}
}

// held brings a control onto a clock: the mean of the samples about each instant, else the last value, since a servo stays
// where it was told to. A control that is logged on change has many holes, or few samples altogether, and holds through them;
// in one that is logged all the time a hole is a loss.
func held(c flightlog.Channel, k clock) []float64 {
	out := empty(k.n)
	if len(c.Time) < 1 || len(c.Time) != len(c.Value) {
		return out
	}
	into(out, c.Time, c.Value, k)
	longest := hole(c)
	if onChange(c, longest) {
		longest = math.Inf(1)
	}
	j := 0
	for i := range out {
		t := k.time(i)
		for j < len(c.Time) && c.Time[j] <= t {
			j++
		}
		if !math.IsNaN(out[i]) || j == 0 {
			continue
		}
		until := c.Time[j-1] + longest
		if j < len(c.Time) && c.Time[j] <= until || j == len(c.Time) && t <= until {
			out[i] = c.Value[j-1]
		}
	}
	return out
}

// onChange tells whether a control seems to be logged when it moves only.
func onChange(c flightlog.Channel, longest float64) bool {
	holes := 0
	for i := 1; i < len(c.Time); i++ {
		if c.Time[i]-c.Time[i-1] > longest {
			holes++
		}
	}
	return holes >= onChangeHoles || len(c.Time) < 2 || c.Step() > holeSeconds
}

// unrolled makes an angle that jumps by a turn continuous.
func unrolled(values []float64) []float64 {
	out := slices.Clone(values)
	for i := 1; i < len(out); i++ {
		out[i] = out[i-1] + math.Remainder(values[i]-values[i-1], 2*math.Pi)
	}
	return out
}

// withoutSpikes is the middle one of each three neighbours.
func withoutSpikes(values []float64) []float64 {
	out := slices.Clone(values)
	for i := 1; i+1 < len(values); i++ {
		a, b, c := values[i-1], values[i], values[i+1]
		out[i] = math.Max(math.Min(a, b), math.Min(math.Max(a, b), c))
	}
	return out
}
