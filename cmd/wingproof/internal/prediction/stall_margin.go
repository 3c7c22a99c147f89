package prediction

import (
	"math"

	"wingproof/aero/stall"
)

// marginDeviation is the standard deviation of a stall margin whose own is not known, because moving the section maxima takes the stall out of
// the range searched: five per cent of a maximum of 1.4 over a slope of 5 a radian, on foreplane and on wing. Common practice, no source.
const marginDeviation = 1.2 * deg

// StallMargin is the least stall-order margin of the cases that can pass, rad, with its standard deviation by the section data and
// the case. Where only a bound is known, it is that bound; ok is false where the bounds leave open which surface goes first, or there is no case.
func StallMargin(cases []StallCase) (margin, deviation float64, governing StallCase, ok bool) {
	margin = math.Inf(1)
	for _, c := range cases {
		if !c.CanPass() {
			continue
		}
		v, known := onOneSide(c.Order.Margin)
		if !known {
			return math.NaN(), math.NaN(), c, false
		}
		if v < margin {
			margin, governing, ok = v, c, true
		}
	}
	if deviation = governing.Deviation; !(deviation > 0) {
		deviation = marginDeviation
	}
	return margin, deviation, governing, ok
}

// onOneSide is a margin or, where all that it can be lies on one side of zero, the bound that is nearer to zero.
func onOneSide(b stall.Bracket) (float64, bool) {
	if v, ok := b.Value(); ok {
		return v, true
	}
	if low, ok := b.AtLeast(); ok && low >= 0 {
		return low, true
	}
	if high, ok := b.AtMost(); ok && high <= 0 {
		return high, true
	}
	return math.NaN(), false
}
