package flightlog

import (
	"math"
	"slices"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// The grid on which columns are compared: fine enough for a control input, coarse enough that hundreds of columns cost
// nothing.
const (
	gridSeconds = 0.05
	gridLeast   = 100   // instants that a comparison needs
	gridMost    = 40000 // instants
	gridHole    = 1.0   // s across which a straight line is drawn
)

// suggestGrid holds the raw numbers of every column on one row of instants; NaN where there are none.
type suggestGrid struct {
	step float64 // s
	raw  [][]float64
}

// newSuggestGrid brings the sample onto a grid; nil when its time cannot be read or it is too short.
func (d *draft) newSuggestGrid() *suggestGrid {
	if d.time < 0 {
		return nil
	}
	c, mistake := newClock(d.guesses[d.time].Unit, d.Source)
	if mistake != nil {
		return nil
	}
	factor := c.factor
	times := make([]float64, len(d.Rows))
	last := math.Inf(-1)
	for k, row := range d.Rows {
		times[k] = math.NaN()
		if d.time < len(row) {
			if t, ok := c.read([]byte(row[d.time]), d.Decimal[0]); ok && t*factor > last && t*factor < longestFlight {
				times[k], last = t*factor, t*factor
			}
		}
	}
	if math.IsInf(last, -1) || last < gridLeast*gridSeconds {
		return nil
	}
	g := &suggestGrid{step: math.Max(gridSeconds, last/gridMost), raw: make([][]float64, len(d.Heads))}
	n := int(last/g.step) + 1
	for i := range d.Heads {
		if i != d.time {
			g.raw[i] = d.onGrid(i, times, g.step, n)
		}
	}
	return g
}

// onGrid is one column on the grid: the mean of the numbers about each instant, straight lines across short holes.
func (d *draft) onGrid(column int, times []float64, step float64, n int) []float64 {
	sum, count := make([]float64, n), make([]float64, n)
	values, rows := d.numbers(column)
	values = aroundTheCompass(values)
	for k, row := range rows {
		if t := times[row]; !math.IsNaN(t) {
			at := min(int(t/step+0.5), n-1)
			sum[at] += values[k]
			count[at]++
		}
	}
	out := make([]float64, n)
	before := -1
	for i := range out {
		out[i] = math.NaN()
		if count[i] == 0 {
			continue
		}
		out[i] = sum[i] / count[i]
		if hole := i - before; before >= 0 && hole > 1 && float64(hole)*step <= gridHole {
			for j := before + 1; j < i; j++ {
				out[j] = out[before] + (out[i]-out[before])*float64(j-before)/float64(hole)
			}
		}
		before = i
	}
	return out
}

// aroundTheCompass lets numbers that jump by a full turn run on, so that no mean is taken across the jump. A full turn shows by itself: the
// numbers fill 360 or 2π, and some neighbours lie nearly that far apart.
func aroundTheCompass(values []float64) []float64 {
	if len(values) < 2 {
		return values
	}
	fill := slices.Max(values) - slices.Min(values)
	turn := 0.0
	for _, t := range []float64{360, 2 * math.Pi} {
		if fill <= 1.01*t && fill > 0.9*t {
			turn = t
		}
	}
	if turn == 0 {
		return values
	}
	out := slices.Clone(values)
	for k := 1; k < len(out); k++ {
		step := values[k] - values[k-1]
		if math.Abs(step) > 0.8*turn {
			step -= math.Copysign(turn, step)
		}
		out[k] = out[k-1] + step
	}
	return out
}

// series is a quantity in SI as the draft reads it now, the sign of the guess included; nil when it is not mapped. Headings
// run on past a full turn.
func (d *draft) series(q Quantity) []float64 {
	i, ok := d.taken[q]
	if !ok || d.grid == nil || !d.guesses[i].Mapped {
		return nil
	}
	return d.si(i, q, d.guesses[i])
}

// si is a column in SI under a guess.
func (d *draft) si(column int, q Quantity, g Guess) []float64 {
	u, ok := unit.Lookup(g.Unit, q.Dimension())
	if !ok || g.pulses {
		u = unit.Unit{Factor: 1}
	}
	out := make([]float64, len(d.grid.raw[column]))
	for k, v := range d.grid.raw[column] {
		out[k] = g.Sign * g.Scale * u.SI(v)
	}
	if q == Heading || q == GroundTrack {
		unroll(out)
	}
	return out
}

// unroll takes the jumps of a full turn out of angles.
func unroll(angles []float64) {
	last := math.NaN()
	for i, a := range angles {
		if math.IsNaN(a) {
			continue
		}
		if !math.IsNaN(last) {
			angles[i] = last + math.Remainder(a-last, 2*math.Pi)
		}
		last = angles[i]
	}
}

// reach is how many instants a time takes, at least one.
func (g *suggestGrid) reach(seconds float64) int { return max(1, int(seconds/g.step+0.5)) }

// smooth is the mean over the instants within half on either side; NaN where one is missing.
func (g *suggestGrid) smooth(x []float64, half float64) []float64 {
	if x == nil {
		return nil
	}
	h := g.reach(half)
	out := make([]float64, len(x))
	for i := range out {
		out[i] = math.NaN()
	}
	sum, missing := 0.0, 0
	for i, v := range x {
		if math.IsNaN(v) {
			missing++
		} else {
			sum += v
		}
		if j := i - 2*h - 1; j >= 0 {
			if math.IsNaN(x[j]) {
				missing--
			} else {
				sum -= x[j]
			}
		}
		if i >= 2*h && missing == 0 {
			out[i-h] = sum / float64(2*h+1)
		}
	}
	return out
}

// slope is the change over half on either side, per second.
func (g *suggestGrid) slope(x []float64, half float64) []float64 {
	if x == nil {
		return nil
	}
	h := g.reach(half)
	out := make([]float64, len(x))
	for i := range out {
		out[i] = math.NaN()
		if i >= h && i+h < len(x) {
			out[i] = (x[i+h] - x[i-h]) / (2 * float64(h) * g.step)
		}
	}
	return out
}

// pairs are the instants at which both are numbers.
func pairs(x, y []float64) (a, b []float64) {
	for i := range min(len(x), len(y)) {
		if statistic.Finite(x[i]) && statistic.Finite(y[i]) {
			a, b = append(a, x[i]), append(b, y[i])
		}
	}
	return a, b
}

// spread is the standard deviation.
func spread(x []float64) float64 {
	mean, sum := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(max(1, len(x))))
}

// each computes a value from several series, instant by instant; nil when one of them is nil.
func each(f func(v []float64) float64, series ...[]float64) []float64 {
	n := math.MaxInt
	for _, s := range series {
		if s == nil {
			return nil
		}
		n = min(n, len(s))
	}
	out, v := make([]float64, n), make([]float64, len(series))
	for i := range out {
		for k, s := range series {
			v[k] = s[i]
		}
		out[i] = f(v)
	}
	return out
}
