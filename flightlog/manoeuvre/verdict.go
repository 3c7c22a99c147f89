package manoeuvre

import (
	"math"
	"slices"
)

// alternates tells whether the steps are those of an input: comparable in size and length, and flat where they are long enough
// for that to show.
func (c control) alternates(in input) bool {
	ratio := doubletWidths
	if len(in.widths) > 2 {
		ratio = multistepWidths
	}
	shortest, longest := slices.Min(in.widths), slices.Max(in.widths)
	if in.smallest() < c.least() || in.largest() > maxSizes*in.smallest() ||
		shortest < shortestStep || longest > longestStep || longest > ratio*shortest {
		return false
	}
	edge := in.start
	for i, w := range in.widths {
		inner := run{c.index(edge + rampHalf), c.index(edge + w - rampHalf)}
		if w >= flatFrom && spread(c.value, inner) > maxUneven*math.Abs(in.amplitudes[i]) {
			return false
		}
		edge += w
	}
	return true
}

// sharp tells whether every change from step to step is as quick as a hand that means it.
func (c control) sharp(in input) bool {
	edge := in.start
	for i := range len(in.widths) + 1 {
		size := math.Inf(1) // of the smaller step on either side
		for _, a := range in.amplitudes[max(0, i-1):min(i+1, len(in.amplitudes))] {
			size = math.Min(size, math.Abs(a))
		}
		fastest := 0.0
		for k := c.index(edge - rampHalf); k <= c.index(edge+rampHalf); k++ {
			if a := math.Abs(c.moves[k]); a > fastest {
				fastest = a
			}
		}
		if fastest < sharpness*size {
			return false
		}
		if i < len(in.widths) {
			edge += in.widths[i]
		}
	}
	return true
}

// returns tells whether the control comes back to where it was and stays there.
func (c control) returns(in input, base float64) bool {
	after := c.after(in)
	if after.to > c.n {
		return false
	}
	rest := middle(c.value, after)
	return math.Abs(rest-base) <= maxRest*in.smallest() && spread(c.value, after) <= maxAfter*in.smallest()
}

// after is the stretch that shows whether an input was let go.
func (c control) after(in input) run {
	from := c.index(in.end) + c.count(rampHalf)
	return run{from, from + c.count(quietAfter)}
}
