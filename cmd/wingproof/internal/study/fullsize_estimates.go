package study

import (
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
)

// sectionData is the source of what section data may be off by at full size.
const sectionData = "section data"

// slowEstimates are the predictions that limits on stall and take-off rest on, with the stated errors of the theory: greatest lift at both
// sizes, the others at full size. Stall order is told with its cases (Stalls).
func (s *Study) slowEstimates(c Configuration, errors []decide.TheoryError) []evidence.Estimate {
	var out []evidence.Estimate
	add := func(b Belief, scale string, value float64) {
		e := evidence.Estimate{
			Configuration: c.Name, Levels: c.Levels, Quantity: b.Quantity, Unit: "1", Scale: scale, Axes: AxesOf(b.Quantity), Power: evidence.Pointer("idle"),
			Origin: evidence.Predicted, State: evidence.Determined, Value: evidence.Pointer(value), Method: evidence.Pointer(b.Method), Flights: []string{}, Warnings: []string{},
		}
		if lift := c.FullSize.ModelLifts; b.Quantity == evidence.MaxLift && len(lift) > 0 {
			e.At.CG, e.At.CGPercent = evidence.Pointer(lift[0].CG), evidence.Pointer(s.percent(lift[0].CG))
		}
		own, common, known := ModelError(errors, c.Levels, b.Quantity, value, scale)
		if known && b.SD > 0 && scale == evidence.FullSize {
			common[sectionData] = b.SD
		}
		out = append(out, withError(e, own, common, known))
	}
	for _, b := range c.FullSize.Beliefs {
		switch {
		case b.Quantity == prediction.StallOrderMargin:
		case b.HasStep:
			add(b, evidence.ModelScale, b.Value)
			add(b, evidence.FullSize, b.Value+b.Step)
		default:
			add(b, evidence.FullSize, b.Value)
		}
	}
	return out
}
