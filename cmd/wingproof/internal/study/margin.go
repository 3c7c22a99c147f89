package study

import (
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
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
		for _, l := range flyingLoadings(s.Program) {
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
		if !f.Use || f.CG == 0 {
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

// marginsAt gives the margins of one configuration at one CG flown.
func (s *Study) marginsAt(c Configuration, cg float64) []evidence.Estimate {
	var out []evidence.Estimate
	chord := c.Airframe.Reference.MeanChord
	for _, f := range s.Fits {
		if f.Configuration == c.Name {
			out = append(out, s.measured(f, estimate.StaticMargin(f.NeutralPoint, cg, chord)))
		}
	}
	sd, known := priorSD(TheoryErrors(s.Program, chord), evidence.NeutralPoint, c.NeutralPoint)
	predicted := s.marginRecord(c, evidence.Predicted, evidence.ModelScale, cg)
	predicted.Value = evidence.Pointer(100 * (c.NeutralPoint - cg) / chord)
	predicted.Method = evidence.Pointer("vortex lattice")
	out = append(out, withSD(predicted, 100*sd/chord, known))
	if x, sd, ok := s.anchoredNeutralPoint(c, evidence.ModelScale); ok {
		e := s.marginRecord(c, evidence.Anchored, evidence.ModelScale, cg)
		e.Value = evidence.Pointer(100 * (x - cg) / chord)
		e.Method = evidence.Pointer("vortex lattice anchored by the flights")
		out = append(out, withSD(e, 100*sd/chord, true))
	}
	return out
}

// marginLoaded gives the anchored full-size margin at a loading; the empty aircraft's mass and CG add
// their errors.
func (s *Study) marginLoaded(c Configuration, l program.Loading) (evidence.Estimate, bool) {
	x, sd, ok := s.anchoredNeutralPoint(c, evidence.FullSize)
	if !ok || s.Program.FullSize.EmptyMass.Value <= 0 {
		return evidence.Estimate{}, false
	}
	chord := c.Airframe.Reference.MeanChord
	_, cg := LoadedCG(s.Program.FullSize, l)
	e := s.marginRecord(c, evidence.Anchored, evidence.FullSize, cg)
	e.Value = evidence.Pointer(100 * (x - cg) / chord)
	e.Method = evidence.Pointer("loading \"" + l.Name + "\"; vortex lattice anchored by the flights, carried to full size")
	return withSD(e, 100*math.Hypot(sd, loadedCGSD(s.Program.FullSize, l))/chord, true), true
}

func (s *Study) marginRecord(c Configuration, origin, scale string, cg float64) evidence.Estimate {
	return evidence.Estimate{
		Configuration: c.Name, Levels: c.Levels, Quantity: evidence.StaticMargin, Unit: "%", Scale: scale, Origin: origin,
		State: evidence.Determined, Axes: evidence.Pointer(bodyAxes), Flights: []string{}, Warnings: []string{},
		At: evidence.At{CG: evidence.Pointer(cg), CGPercent: evidence.Pointer(s.percent(cg))},
	}
}

// anchoredNeutralPoint looks the anchored neutral point [m] and its sd up in the verdict.
func (s *Study) anchoredNeutralPoint(c Configuration, scale string) (x, sd float64, ok bool) {
	for _, e := range s.Verdict.Anchored {
		if e.Configuration == c.Name && e.Quantity == evidence.NeutralPoint && e.Scale == scale && e.Value != nil && e.SD != nil {
			return *e.Value, *e.SD, true
		}
	}
	return 0, 0, false
}
