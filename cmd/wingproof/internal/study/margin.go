package study

import (
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/estimate"
)

// margins lists the static margin of every configuration: at each CG flown, model scale, measured,
// predicted and anchored; at each loading that flies, full size, anchored.
func (s *Study) margins() []evidence.Estimate {
	out := []evidence.Estimate{}
	flown := flownCGs(s.Program)
	for _, c := range s.Configurations {
		for _, cg := range flown {
			out = append(out, s.marginsAt(c, cg)...)
		}
		for _, l := range prediction.FlyingLoadings(s.Program) {
			if e, ok := s.marginLoaded(c, l); ok {
				out = append(out, e)
			}
		}
	}
	return out
}

// flownCGs lists the CGs of the flights that count, to the millimetre of full size, forward first.
func flownCGs(p *program.Program) []float64 {
	var out []float64
	for _, f := range p.Flights {
		if !f.Use {
			continue
		}
		cg := math.Round(f.CG*1000) / 1000
		if !slices.Contains(out, cg) {
			out = append(out, cg)
		}
	}
	slices.Sort(out)
	return out
}

// marginsAt gives the margins of one configuration at one CG flown. All three are margins at that station itself: the
// error of the scales, which a measured neutral point carries, is in the interval.
func (s *Study) marginsAt(c Configuration, cg float64) []evidence.Estimate {
	var out []evidence.Estimate
	chord := c.Airframe.Reference.MeanChord
	for _, f := range s.Fits {
		if f.Configuration == c.Name {
			out = append(out, s.measured(f, estimate.StaticMargin(f.NeutralPoint, cg, chord)))
		}
	}
	own, common, known := ModelError(TheoryErrors(s.Program, chord), c.Levels, evidence.NeutralPoint, c.NeutralPoint, evidence.ModelScale)
	predicted := s.marginRecord(c, evidence.Predicted, evidence.ModelScale, cg)
	predicted.Value = evidence.Pointer(100 * (c.NeutralPoint - cg) / chord)
	predicted.Method = evidence.Pointer("vortex lattice")
	out = append(out, withError(predicted, own*100/chord, times(common, 100/chord), known))
	if np, ok := s.anchoredNeutralPoint(c, evidence.ModelScale); ok {
		out = append(out, s.anchoredMargin(c, np, cg, "vortex lattice anchored by the flights", nil))
	}
	return out
}

// marginLoaded gives the anchored full-size margin at a loading; the empty aircraft's mass and CG add
// their errors.
func (s *Study) marginLoaded(c Configuration, l program.Loading) (evidence.Estimate, bool) {
	np, ok := s.anchoredNeutralPoint(c, evidence.FullSize)
	if !ok || s.Program.FullSize.EmptyMass.Value <= 0 {
		return evidence.Estimate{}, false
	}
	_, cg := prediction.LoadedCG(s.Program.FullSize, l)
	method := "loading \"" + l.Name + "\"; vortex lattice anchored by the flights, carried to full size"
	return s.anchoredMargin(c, np, cg, method, prediction.LoadedCGErrors(s.Program.FullSize, l)), true
}

// anchoredMargin is the margin of an anchored neutral point at a CG, whose own errors [m] come on top.
func (s *Study) anchoredMargin(c Configuration, np evidence.Estimate, cg float64, method string, cgErrors map[string]float64) evidence.Estimate {
	percent := 100 / c.Airframe.Reference.MeanChord
	e := s.marginRecord(c, evidence.Anchored, np.Scale, cg)
	e.Value, e.Method = evidence.Pointer(percent*(*np.Value-cg)), evidence.Pointer(method)
	e.Flights, e.Warnings = np.Flights, np.Warnings
	common := times(np.Common, percent)
	for source, effect := range cgErrors {
		common[source] = -percent * effect
	}
	return withError(e, percent**np.SDOwn, common, true)
}

func (s *Study) marginRecord(c Configuration, origin, scale string, cg float64) evidence.Estimate {
	return evidence.Estimate{
		Configuration: c.Name, Levels: c.Levels, Quantity: evidence.StaticMargin, Unit: "%", Scale: scale, Origin: origin,
		State: evidence.Determined, Axes: AxesOf(evidence.StaticMargin), Flights: []string{}, Warnings: []string{},
		At: evidence.At{CG: evidence.Pointer(cg), CGPercent: evidence.Pointer(s.percent(cg))},
	}
}

// anchoredNeutralPoint looks the anchored neutral point up in the verdict.
func (s *Study) anchoredNeutralPoint(c Configuration, scale string) (evidence.Estimate, bool) {
	for _, e := range s.Verdict.Anchored {
		if e.Configuration == c.Name && e.Quantity == evidence.NeutralPoint && e.Scale == scale && e.Value != nil && e.SDOwn != nil {
			return e, true
		}
	}
	return evidence.Estimate{}, false
}
