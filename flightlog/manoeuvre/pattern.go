package manoeuvre

import (
	"math"

	"wingproof/flightlog/statistic"
)

// walk follows the control from a step on and cuts the course where it changes sides, until it stays near the base value
// for restTime. Nil when that does not come, or a step is too long.
func (c control) walk(at int, side, base, zone float64) []run {
	steps := []run{{at, at + 1}}
	for i := at; i < c.n; i++ {
		off := c.value[i] - base
		now := &steps[len(steps)-1]
		switch {
		case math.IsNaN(off) || len(steps) > mostSteps:
			return nil
		case math.Abs(off) <= zone:
			if i-now.to > c.count(restTime) {
				return steps
			}
		case off*side > 0:
			if i-now.to > c.count(sameSide) {
				return steps // it was let go, and something else begins
			}
			now.to = i + 1
		default:
			side = -side
			steps = append(steps, run{i, i + 1})
		}
		if now.to-now.from > c.count(longestStep) {
			return steps // the last one is too long: a new trim, if it is small
		}
	}
	return nil
}

// sizes are the amplitudes that a fifth of each step exceeds, with sign: a first guess that holds where a step's end is not known.
func (c control) sizes(steps []run, base float64) []float64 {
	var out []float64
	for _, s := range steps {
		v := picked(c.value, s)
		low, high := statistic.Quantile(v, 0.2)-base, statistic.Quantile(v, 0.8)-base
		if math.Abs(low) > math.Abs(high) {
			high = low
		}
		out = append(out, high)
	}
	return out
}

// amplitudes are the means over the middle half of each step, off the base value.
func (c control) amplitudes(steps []run, base float64) []float64 {
	var out []float64
	for _, s := range steps {
		quarter := (s.to - s.from) / 4
		out = append(out, average(c.value, run{s.from + quarter, s.to - quarter})-base)
	}
	return out
}

// withoutStragglers drops small last steps: a restless hand, or a trim that differs a little.
func withoutStragglers(steps []run, amplitudes []float64) ([]run, []float64) {
	for n := len(steps); n > 2; n = len(steps) {
		if math.Abs(amplitudes[n-1]) >= straggler*statistic.Median(statistic.Magnitudes(amplitudes[:n-1])) {
			break
		}
		steps, amplitudes = steps[:n-1], amplitudes[:n-1]
	}
	return steps, amplitudes
}

// measure finds the times at which the control crosses half way between neighbouring steps, and what follows from them.
func (c control) measure(steps []run, amplitudes []float64, base float64) input {
	in := input{control: c.is, amplitudes: amplitudes}
	reach := c.count(rampHalf)
	in.start = c.crosses(run{steps[0].from - reach, steps[0].to}, base+amplitudes[0]/2, amplitudes[0] > 0)
	edge := in.start
	for i, s := range steps {
		next, until := 0.0, s.to+reach
		last := i+1 == len(steps)
		if !last {
			next, until = amplitudes[i+1], steps[i+1].from+1
		}
		end := c.crosses(run{(s.from + s.to) / 2, until}, base+(amplitudes[i]+next)/2, next > amplitudes[i])
		if !last && steps[i+1].from-s.to > reach { // a pause in the middle belongs to both
			end = c.time((s.to + steps[i+1].from) / 2)
		}
		in.widths = append(in.widths, end-edge)
		edge = end
	}
	in.end = edge
	return in
}

// crosses is when the control first passes a value in a range, upwards or downwards; half way through the range when it
// does not.
func (c control) crosses(r run, value float64, upwards bool) float64 {
	for i := max(1, r.from); i < min(c.n, r.to); i++ {
		x, y := c.value[i-1]-value, c.value[i]-value
		if upwards && x < 0 && y >= 0 || !upwards && x > 0 && y <= 0 {
			return c.time(i-1) + c.step*x/(x-y)
		}
	}
	return c.time((r.from + r.to) / 2)
}
