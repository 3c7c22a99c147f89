package manoeuvre

import (
	"cmp"
	"math"
	"slices"

	"wingproof/flightlog"
)

// findInputs gives the inputs on all controls in order of time, each with the end of its free response.
func findInputs(m *motion, all []control) []input {
	flying := func(t float64) bool { return m.flying[m.index(t)] }
	var out []input
	for _, c := range all {
		for _, in := range c.inputs(flying) {
			in.free = freeUntil(in, m, all)
			out = append(out, in)
		}
	}
	slices.SortStableFunc(out, func(a, b input) int { return cmp.Compare(a.start, b.start) })
	for i := range out {
		for _, next := range out[i+1:] {
			if next.start > out[i].end {
				out[i].free = math.Min(out[i].free, next.start)
				break
			}
		}
	}
	return out
}

// freeUntil is when somebody touches the controls that shape the response again: the control itself; aileron and
// rudder for one another; throttle for the elevator. It is no later than longestFree, than the end of flying, and than a hole.
func freeUntil(in input, m *motion, all []control) float64 {
	end := in.end + longestFree
	for _, c := range all {
		end = math.Min(end, c.touched(in))
	}
	from := m.index(in.end)
	for i := from; i < m.n && m.time(i) < end; i++ {
		throttled := in.control == flightlog.Elevator && m.throttle != nil && math.Abs(m.throttle[i]-m.throttle[from]) > throttleMove
		if throttled || !m.flying[i] {
			end = m.time(i)
		}
	}
	return math.Max(end, in.end)
}

// touched is when a control disturbs the free response to an input, on itself or on another.
func (c control) touched(in input) float64 {
	after := c.after(in)
	band := letGoScatter * spread(c.value, after)
	switch {
	case c.is == in.control:
		band = math.Max(band, letGoBand*in.smallest())
	case c.is != flightlog.Elevator && in.control != flightlog.Elevator:
		band = math.Max(band, math.Max(mateBand*in.smallest(), c.least()))
	default:
		return math.Inf(1)
	}
	return c.letGo(after.from, middle(c.value, after), band)
}

// letGo is the time until which the control stays where it was let go after an input, within a band.
func (c control) letGo(from int, rest, band float64) float64 {
	half := c.count(letGoHalf)
	for i := from; i < c.n; i++ {
		if now := c.sums.mean(i-half, i+half+1); !(math.Abs(now-rest) <= band) {
			return c.time(i)
		}
	}
	return c.time(c.n - 1)
}

// manoeuvre tells an input as what it is.
func (in input) manoeuvre(m *motion) Manoeuvre {
	out := Manoeuvre{
		Kind: Doublet, Control: in.control, Start: in.start, End: in.free,
		Amplitudes: in.amplitudes, Widths: in.widths, HandsOff: in.free - in.end,
	}
	if len(in.widths) > 2 {
		out.Kind = Multistep
	}
	for _, a := range in.amplitudes {
		out.Size += math.Abs(a) / float64(len(in.amplitudes))
	}
	out.Size = math.Copysign(out.Size, in.amplitudes[0])
	return out
}
