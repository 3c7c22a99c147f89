package prediction

import (
	"fmt"
	"math"
	"slices"

	"wingproof/aero/stall"
	"wingproof/cmd/wingproof/internal/evidence"
)

// modelCaution goes with every case of the model.
const modelCaution = "a small model's foreplane lets go early, so this case may break the limit and never keep it"

func sizeWords(size string) string {
	if size == evidence.ModelScale {
		return "model"
	}
	return "full size"
}

func inDegrees(rad float64) string { return fmt.Sprintf("%.1f°", math.Abs(rad)*180/math.Pi) }

// verdict is one line in the shop's words.
func verdict(c StallCase) string {
	words := orderWords(c.Order.Margin)
	if v, ok := c.Order.Margin.Value(); ok && c.Deviation > 0 {
		words += fmt.Sprintf(" (standard deviation %s)", inDegrees(c.Deviation))
		if math.Abs(v) < 2*c.Deviation {
			words += ", not certain"
		}
	}
	if c.Size == evidence.ModelScale {
		words += "; " + modelCaution
	}
	return words
}

// orderWords says a margin.
func orderWords(m stall.Bracket) string {
	v, known := m.Value()
	low, isLow := m.AtLeast()
	high, isHigh := m.AtMost()
	const together = 0.05 * math.Pi / 180
	switch {
	case known && math.Abs(v) < together:
		return "foreplane and WING let go together"
	case known && v > 0:
		return "the foreplane lets go " + inDegrees(v) + " before the wing"
	case known:
		return "the WING lets go first, " + inDegrees(v) + " before the foreplane"
	case isLow && low >= 0:
		return "the foreplane lets go at least " + inDegrees(low) + " before the wing"
	case isHigh && high <= 0:
		return "the WING lets go first, at least " + inDegrees(high) + " before the foreplane"
	}
	return "which lets go first is not determined between " + degreesOf(stallFrom) + " and " + degreesOf(stallTo) + " of angle of attack"
}

func degreesOf(rad float64) string { return fmt.Sprintf("%.0f°", rad*180/math.Pi) }

// note gathers the doubts of a case.
func (c *StallCase) note(t try) {
	c.Notes = append(c.Notes, c.Order.Notes...)
	for _, surface := range t.leftPolars(c.Order) {
		c.Notes = append(c.Notes, fmt.Sprintf("the polar of surface %q does not reach the Reynolds number or deflection of this case; its nearest rows are held", surface))
	}
	for i, s := range t.layout.strips {
		what := fmt.Sprintf("surface %q is swept by more than %s: a vortex lifts there before the section stalls, so that it is not held at a maximum", s.Surface, degreesOf(steepest))
		if math.Abs(t.layout.sweep[i]) > steepest && s.Part != stall.Other && !slices.Contains(c.Notes, what) {
			c.Notes = append(c.Notes, what)
		}
	}
	if v, ok := c.Trim.Left.AtMost(); ok && v <= 0 && c.AtStop {
		c.Notes = append(c.Notes, "a slow pull to the elevator's stop brings the aircraft to the angle of attack at which the first wing station lets go: a danger")
	}
}

// leftPolars lists the surfaces of foreplane and wing whose polars do not reach one of the two events.
func (t *try) leftPolars(o stall.Order) []string {
	var out []string
	for _, event := range []struct {
		part  stall.Part
		alpha float64
	}{{stall.Foreplane, nearestTo(o.Foreplane)}, {stall.Wing, nearestTo(o.Wing)}} {
		k, _ := t.path.step(event.alpha)
		for i, s := range t.layout.strips {
			if s.Part == event.part && t.outside[k][i] && !slices.Contains(out, s.Surface) {
				out = append(out, s.Surface)
			}
		}
	}
	return out
}
