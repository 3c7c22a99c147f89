package decide

import (
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// sameStation is how far a CG may lie outside the range of the loadings and still count as in it, m at full size.
const sameStation = 0.02

// wingFirst lists the flights of a configuration that speak against a limit on stall order: those in which the wing let go first, with
// the CG where some loading of the limit puts it. Empty for every other limit.
func (p Problem) wingFirst(r requirement, s space, c int) []string {
	if r.Quantity != evidence.StallOrderMargin || r.AtLeast == nil {
		return nil
	}
	low, high := math.Inf(-1), math.Inf(1)
	if l, h, ok := p.Aircraft.flyingRange(); ok {
		low, high = l-sameStation, h+sameStation
	}
	var flights []string
	for _, w := range p.WingFirst {
		if at, err := s.locate(w.Levels); err == nil && at == c && w.CG >= low && w.CG <= high {
			flights = append(flights, w.Flights...)
		}
	}
	slices.Sort(flights)
	return slices.Compact(flights)
}

// againstStallOrder is what such flights leave of a verdict: two of them fail the limit whatever theory says, one leaves it at even
// chances at best, since a single stall may have been seen wrong.
func againstStallOrder(flights []string, v LimitVerdict, holds passes, n int) (LimitVerdict, passes) {
	switch {
	case len(flights) == 0:
		return v, holds
	case len(flights) == 1:
		holds = holds.and(everyOther(n))
	default:
		holds = newPasses(n)
	}
	v.Probability, v.Where = holds.share(n), wingFirstWords(flights)
	return v, holds
}

// everyOther passes every other draw.
func everyOther(n int) passes {
	p := newPasses(n)
	for i := 0; i < n; i += 2 {
		p[i/64] |= 1 << (i % 64)
	}
	return p
}

// wingFirstWords says what was seen.
func wingFirstWords(flights []string) string {
	if len(flights) == 1 {
		return "the wing of the model let go first (flight " + flights[0] + "); fly the stall once more before anything rests on it"
	}
	return "the wing of the model let go first (flights " + strings.Join(flights, ", ") + ")"
}
