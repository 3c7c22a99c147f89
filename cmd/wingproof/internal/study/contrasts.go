package study

import (
	"maps"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/keep"
)

// contrastInputs are all that the contrasts of a choice follow from.
type contrastInputs struct {
	Problem verdictInputs
	Choice  string
	Others  map[string]string
}

// Contrasts sets the sizes of a choice against its baseline at full size, the other choices at the levels given, as the same problem gave
// them before.
func (s *Study) Contrasts(choice string, others map[string]string) ([]decide.Contrast, error) {
	problem, err := s.shapeProblem()
	if err != nil {
		return nil, err
	}
	others = maps.Clone(others)
	delete(others, choice)
	in := contrastInputs{s.verdictInputs(problem), choice, others}
	return keep.Result(s.keep, keep.Work[[]decide.Contrast]{Kind: "contrasts", Inputs: in, Compute: func() ([]decide.Contrast, error) {
		return decide.Contrasts(problem, choice, others)
	}})
}

// cgLimitInputs are all that stations of the CG follow from.
type cgLimitInputs struct {
	Problem verdictInputs
	Masses  []float64
}

// CGLimits turns the limits that bound the CG into stations at some masses [kg], for every configuration, as the same problem gave them
// before; see decide.CGLimits.
func (s *Study) CGLimits(masses []float64) ([]decide.CGLimit, error) {
	problem, err := s.shapeProblem()
	if err != nil {
		return nil, err
	}
	in := cgLimitInputs{s.verdictInputs(problem), masses}
	return keep.Result(s.keep, keep.Work[[]decide.CGLimit]{Kind: "cg-limits", Inputs: in, Compute: func() ([]decide.CGLimit, error) {
		return decide.CGLimits(problem, masses)
	}})
}

// shapeProblem is the problem without what only the board reads: parts, the record and what was left out. What follows from it stays kept
// when the shop writes a stage or a decision down.
func (s *Study) shapeProblem() (decide.Problem, error) {
	problem, err := s.Problem()
	problem.Parts, problem.Decisions, problem.LeftOut, problem.Date = nil, nil, nil, ""
	return problem, err
}
