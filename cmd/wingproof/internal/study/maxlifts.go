package study

import (
	"cmp"
	"fmt"
	"slices"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/reduce"
)

// movedError is the relative standard deviation of a predicted difference of greatest lift between two CGs. Common practice, no source.
const movedError = 0.2

// sourceMovedLift names it; the prediction being the same for all, its error is shared.
const sourceMovedLift = "greatest lift moved to the foremost loading"

// maxLiftEvidence hands on what the flights say of the greatest lift in trim, moved from the CG flown to that of the foremost loading.
func (s *Study) maxLiftEvidence() []decide.Direct {
	var out []decide.Direct
	for _, f := range s.Fits {
		for _, r := range f.MaxLifts {
			shift, _, ok := s.towardsForemost(f, r)
			if !ok || r.SDOwn == nil {
				continue
			}
			common := map[string]float64{sourceMovedLift: movedError * shift}
			for source, effect := range r.Common {
				common[source] = effect
			}
			out = append(out, decide.Direct{Levels: f.Levels, Quantity: evidence.MaxLift, Value: *r.Value + shift, SDOwn: *r.SDOwn,
				Common: common, Degrees: r.Degrees, Flights: r.Flights, Power: r.Power})
		}
	}
	return out
}

// towardsForemost is what a measured greatest lift gains on the way from its CG to that of the foremost loading, by what the prediction says
// between the two, and that in words. ok is false, and the words say why, where it cannot judge: a CG further outside those of the
// predictions than half their distance, a number that is not determined. Without predictions there are no words.
func (s *Study) towardsForemost(f Fit, r estimate.Result) (shift float64, says []string, ok bool) {
	lifts := s.modelLifts(f.Configuration)
	switch {
	case r.Value == nil || !r.HasCG || len(lifts) < 2:
		return 0, nil, false
	case r.State != estimate.Determined:
		return 0, []string{"not used to judge stalling speed: it is not determined well enough"}, false
	}
	shift, ok = alongCG(lifts, r.CG)
	if !ok {
		return 0, []string{"not used to judge stalling speed: flown too far from the CGs of the loadings that fly"}, false
	}
	return shift, []string{fmt.Sprintf("to judge stalling speed, %+.3f is added: the predicted difference from here to the foremost loading, %.3f m aft of datum, itself uncertain by %.0f %%",
		shift, lifts[0].CG, 100*movedError)}, true
}

// modelLifts are the predicted greatest lifts of a configuration at model scale, the foremost CG first.
func (s *Study) modelLifts(configuration string) []LiftAt {
	for _, c := range s.Configurations {
		if c.Name == configuration {
			return c.FullSize.ModelLifts
		}
	}
	return nil
}

// alongCG is what a straight line through the predicted lifts adds on the way from a CG to the foremost one.
func alongCG(lifts []LiftAt, cg float64) (shift float64, ok bool) {
	forward, aft := lifts[0], lifts[len(lifts)-1]
	reach := aft.CG - forward.CG
	if !(reach > estimate.SameStation) || cg < forward.CG-reach/2 || cg > aft.CG+reach/2 {
		return 0, false
	}
	return (aft.Lift - forward.Lift) / reach * (forward.CG - cg), true
}

// wingFirst lists the stalls of the model in which the wing let go before the foreplane, by configuration and place of the CG, the
// foremost first; a flight is named once.
func (s *Study) wingFirst() []decide.WingFirst {
	var out []decide.WingFirst
	for _, c := range s.Configurations {
		var seen []estimate.Stall
		for _, stall := range stallsOf(s.flightsOf(c.Levels)) {
			if stall.First == reduce.FirstWing {
				seen = append(seen, stall)
			}
		}
		slices.SortStableFunc(seen, func(a, b estimate.Stall) int { return cmp.Compare(a.CG, b.CG) })
		from := len(out)
		for _, stall := range seen {
			last := len(out) - 1
			if last < from || stall.CG-out[last].CG > estimate.SameStation {
				out = append(out, decide.WingFirst{Levels: c.Levels, CG: stall.CG})
				last++
			}
			if w := &out[last]; !slices.Contains(w.Flights, stall.Flight) {
				w.Flights = append(w.Flights, stall.Flight)
			}
		}
	}
	return out
}
