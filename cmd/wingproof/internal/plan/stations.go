package plan

import (
	"math"
	"slices"
)

// Common practice, no source.
const (
	longestStep  = 0.015 // of the mean chord between flights on the way aft
	leastRange   = 0.10  // of the mean chord, where the aft limit leaves less of the loadings' range
	withoutRange = 0.10  // of the mean chord ahead of the aft limit, where no loading tells the range
	stallMargin  = 0.08  // of the mean chord that decelerations need, two standard deviations off
	leastApart   = 0.005 // of the mean chord between two flights of a plan
)

// stations are the CGs to fly a configuration at, forward first, full-size m aft of datum, on the model's grid; cut tells
// that the aft limit took some of the range or of what was asked for.
func (p Problem) stations(c Configuration) (at []float64, cut bool) {
	limit := p.settable(p.limit(c))
	if len(p.CGs) > 0 {
		for _, x := range slices.Sorted(slices.Values(p.CGs)) {
			if x = p.settable(x); x > limit {
				cut = true
				continue
			}
			at = appendApart(at, x, leastApart*p.Chord)
		}
		return at, cut
	}
	forward, aft := limit-withoutRange*p.Chord, limit
	if p.Range != nil {
		forward, aft = p.Range.Forward, p.Range.Aft
		if cut = aft > limit; cut {
			aft = limit
			forward = math.Min(forward, aft-leastRange*p.Chord)
		}
	}
	for _, x := range []float64{forward, (forward + aft) / 2, aft} {
		at = appendApart(at, math.Min(p.settable(x), limit), leastApart*p.Chord)
	}
	return at, cut
}

// appendApart adds a station that lies apart from the last one.
func appendApart(at []float64, x, apart float64) []float64 {
	if len(at) > 0 && x-at[len(at)-1] < apart {
		return at
	}
	return append(at, x)
}

// way is the stations to stop at between what has been flown ahead of a CG and the CG itself, both left out; from is where it begins.
// None when nothing was flown or planned ahead of it, when it has been flown farther aft, or when the step is short.
func (p Problem) way(flown []float64, to float64) (from float64, stops []float64) {
	from = math.Inf(-1)
	for _, x := range flown {
		from = math.Max(from, math.Min(x, to))
	}
	if math.IsInf(from, -1) {
		return to, nil
	}
	start := p.settable(from)
	step := math.Max(1, math.Floor(longestStep*p.Chord*p.LengthRatio/p.grid())) * p.grid() / p.LengthRatio
	for k := 1; ; k++ {
		x := p.settable(start + float64(k)*step)
		if x >= to-p.grid()/p.LengthRatio/2 {
			return from, stops
		}
		stops = append(stops, x)
	}
}
