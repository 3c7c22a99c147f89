package study

import (
	"maps"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/keep"
)

// contrastInputs are all that the contrasts of a choice follow from.
type contrastInputs struct {
	Problem judgedInputs
	Choice  string
	Others  map[string]string
}

// Contrasts sets the sizes of a choice against its baseline at full size, the other choices at the levels given, as the same problem gave
// them before.
func (s *Study) Contrasts(choice string, others map[string]string) ([]decide.Contrast, error) {
	a, err := s.askAgain()
	if err != nil {
		return nil, err
	}
	others = maps.Clone(others)
	delete(others, choice)
	in := contrastInputs{a.inputs, choice, others}
	return keep.Result(s.keep, keep.Work[[]decide.Contrast]{Kind: "contrasts", Inputs: in, Compute: func() ([]decide.Contrast, error) {
		return a.judging.Contrasts(a.assessed, choice, others)
	}})
}

// cgLimitInputs are all that stations of the CG follow from.
type cgLimitInputs struct {
	Problem judgedInputs
	Masses  []float64
}

// CGLimits turns the limits that bound the CG into stations at some masses [kg], for every configuration, as the same problem gave them
// before; see decide.Judging.CGLimits.
func (s *Study) CGLimits(masses []float64) ([]decide.CGLimit, error) {
	a, err := s.askAgain()
	if err != nil {
		return nil, err
	}
	in := cgLimitInputs{a.inputs, masses}
	return keep.Result(s.keep, keep.Work[[]decide.CGLimit]{Kind: "cg-limits", Inputs: in, Compute: func() ([]decide.CGLimit, error) {
		return a.judging.CGLimits(a.assessed, masses)
	}})
}

// askAgain asks the problem of the study, which has mostly been judged by now.
func (s *Study) askAgain() (*drawn, error) {
	problem, err := s.Problem()
	if err != nil {
		return nil, err
	}
	return s.ask(problem)
}
