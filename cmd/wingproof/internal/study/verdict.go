package study

import (
	"reflect"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/keep"
)

// judgedInputs are all that the judging draws from: the fields of a decide.Problem but for those of the board, and in the place of its
// function for motions what that function reads.
type judgedInputs struct {
	Seed         uint64
	LengthRatio  float64
	Draws        int
	Choices      []decide.Choice
	Predictions  []decide.Prediction
	Errors       []decide.TheoryError
	Correlations []decide.Correlation
	TrimSlopes   []decide.TrimSlopes
	Direct       []decide.Direct
	Aircraft     decide.Aircraft
	Limits       []decide.Limit
	Built        []decide.Built
	WingFirst    []decide.WingFirst
	Motions      []motionBase // in the order of the configurations
	Altitude     float64      // m, of the cruise
}

func (s *Study) judgedInputs(p decide.Problem) judgedInputs {
	in := judgedInputs{Seed: p.Seed, LengthRatio: p.LengthRatio, Draws: p.Draws, Choices: p.Choices, Predictions: p.Predictions, Errors: p.Errors,
		Correlations: p.Correlations, TrimSlopes: p.TrimSlopes, Direct: p.Direct, Aircraft: p.Aircraft, Limits: p.Limits, Built: p.Built,
		WingFirst: p.WingFirst, Altitude: s.Program.FullSize.CruiseAltitude}
	for _, c := range s.Configurations {
		in.Motions = append(in.Motions, s.motionBase(c))
	}
	return in
}

// withoutBoard is a problem without what only the board reads: parts, the record, what was left out and the date. What follows from it stays
// kept when the shop writes a stage or a decision down.
func withoutBoard(p decide.Problem) decide.Problem {
	p.Parts, p.Decisions, p.LeftOut, p.Date = nil, nil, nil, ""
	return p
}

// drawn is one problem of the judging, and what its draws say.
type drawn struct {
	inputs   judgedInputs
	judging  *decide.Judging
	assessed decide.Assessment
}

// ask finds what the draws of the same problem said before, or draws. What is asked of one problem again comes out of the draws that were made.
func (s *Study) ask(p decide.Problem) (*drawn, error) {
	p = withoutBoard(p)
	in := s.judgedInputs(p)
	if a := s.drawn; a != nil && reflect.DeepEqual(a.inputs, in) {
		return a, nil
	}
	a := &drawn{inputs: in, judging: decide.NewJudging(p)}
	var err error
	a.assessed, err = keep.Result(s.keep, keep.Work[decide.Assessment]{Kind: "assessment", Inputs: in, Compute: a.judging.Assess})
	return a, err
}

// verdict is what the problem comes to.
func (s *Study) verdict(p decide.Problem) (verdict decide.Verdict, err error) {
	d, err := s.ask(p)
	if err != nil {
		return verdict, err
	}
	s.drawn = d
	return d.assessed.Verdict(p)
}
