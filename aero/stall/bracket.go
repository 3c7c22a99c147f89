package stall

import (
	"fmt"
	"math"
)

// Bracket is an angle, rad, that is known (Low = High) or only bounded, with an infinite end where there
// is no bound. The search gives known angles to within 1e-4 rad.
type Bracket struct {
	Low, High float64
}

func known(v float64) Bracket   { return Bracket{v, v} }
func below(v float64) Bracket   { return Bracket{math.Inf(-1), v} }
func beyond(v float64) Bracket  { return Bracket{v, math.Inf(1)} }
func unknown() Bracket          { return Bracket{math.Inf(-1), math.Inf(1)} }
func (b Bracket) isKnown() bool { return b.Low == b.High }

// Value returns the angle; ok is false when it is only bounded, and then there is no number to show.
func (b Bracket) Value() (v float64, ok bool) {
	if !b.isKnown() {
		return 0, false
	}
	return b.Low, true
}

// AtLeast returns the lower bound; ok is false when there is none.
func (b Bracket) AtLeast() (v float64, ok bool) {
	if math.IsInf(b.Low, 0) {
		return 0, false
	}
	return b.Low, true
}

// AtMost returns the upper bound; ok is false when there is none.
func (b Bracket) AtMost() (v float64, ok bool) {
	if math.IsInf(b.High, 0) {
		return 0, false
	}
	return b.High, true
}

// Minus returns what is known of the difference b − o.
func (b Bracket) Minus(o Bracket) Bracket { return Bracket{b.Low - o.High, b.High - o.Low} }

// String writes the angle in degrees, its bound in words, or "unknown".
func (b Bracket) String() string {
	low, isLow := b.AtLeast()
	high, isHigh := b.AtMost()
	switch {
	case b.isKnown():
		return degrees(low)
	case isLow && isHigh:
		return degrees(low) + " to " + degrees(high)
	case isLow:
		return "at least " + degrees(low)
	case isHigh:
		return "at most " + degrees(high)
	}
	return "unknown"
}

func degrees(v float64) string { return fmt.Sprintf("%.2f°", v*180/math.Pi) }
