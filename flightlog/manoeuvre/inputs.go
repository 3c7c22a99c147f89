package manoeuvre

import (
	"math"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// input is a course of alternating steps on one control, off the trimmed value and back to it.
type input struct {
	control    flightlog.Quantity
	start, end float64   // s, of the steps
	free       float64   // s, when the free response ends
	amplitudes []float64 // rad, of each step
	widths     []float64 // s
}

func (in input) smallest() float64 { return slices.Min(statistic.Magnitudes(in.amplitudes)) }
func (in input) largest() float64  { return slices.Max(statistic.Magnitudes(in.amplitudes)) }

// inputs finds doublets and multisteps. flying tells whether the model is in the air at a time.
func (c control) inputs(flying func(float64) bool) []input {
	var out []input
	free := math.Inf(-1)
	for _, at := range c.edges() {
		if c.time(at) <= free || !flying(c.time(at)) {
			continue
		}
		if in, ok := c.inputAt(at); ok {
			out = append(out, in)
			free = in.end
		}
	}
	return out
}

// inputAt reads the course that begins with the step at an instant; ok is false when it is none. It goes over the course
// twice: what counts as the middle follows from the first step and the scatter ahead of it, then from all steps.
func (c control) inputAt(at int) (in input, ok bool) {
	before := run{at - c.count(quietBefore), at - c.count(rampHalf)}
	if before.from < 0 {
		return input{}, false
	}
	side := math.Copysign(1, c.moves[at])
	base, scatter := middle(c.value, before), spread(c.value, before)
	peak := 0.0
	for _, v := range c.value[at:min(c.n, at+c.count(firstPeak))] {
		peak = math.Max(peak, side*(v-base))
	}
	if !(peak >= c.least()) || !(scatter <= maxBefore*peak) {
		return input{}, false
	}
	steps := c.walk(at, side, base, math.Max(zoneShare*peak, zoneScatter*scatter))
	steps, amplitudes := withoutStragglers(steps, c.sizes(steps, base))
	if len(steps) == 0 {
		return input{}, false
	}
	steps = c.walk(at, side, base, zoneStep*slices.Min(statistic.Magnitudes(amplitudes)))
	steps, amplitudes = withoutStragglers(steps, c.amplitudes(steps, base))
	if len(steps) < 2 {
		return input{}, false
	}
	in = c.measure(steps, amplitudes, base)
	return in, c.sharp(in) && c.alternates(in) && scatter <= maxBefore*in.smallest() && c.returns(in, base)
}
