package study

import (
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/keep"
)

// verdictInputs are all that a verdict follows from: the fields of a decide.Problem, and in the place of its function for motions what
// that function reads.
type verdictInputs struct {
	Seed         uint64
	LengthRatio  float64
	Draws        int
	Date         string
	Choices      []decide.Choice
	Decisions    []decide.Decision
	Predictions  []decide.Prediction
	Errors       []decide.TheoryError
	Correlations []decide.Correlation
	TrimSlopes   []decide.TrimSlopes
	Direct       []decide.Direct
	Aircraft     decide.Aircraft
	Limits       []decide.Limit
	Built        []decide.Built
	Parts        []decide.Part
	LeftOut      []decide.LeftOut
	WingFirst    []decide.WingFirst
	Motions      []motionBase // in the order of the configurations
	Altitude     float64      // m, of the cruise
}

func (s *Study) verdictInputs(p decide.Problem) verdictInputs {
	in := verdictInputs{Seed: p.Seed, LengthRatio: p.LengthRatio, Draws: p.Draws, Date: p.Date, Choices: p.Choices, Decisions: p.Decisions,
		Predictions: p.Predictions, Errors: p.Errors, Correlations: p.Correlations, TrimSlopes: p.TrimSlopes, Direct: p.Direct, Aircraft: p.Aircraft,
		Limits: p.Limits, Built: p.Built, Parts: p.Parts, LeftOut: p.LeftOut, WingFirst: p.WingFirst, Altitude: s.Program.FullSize.CruiseAltitude}
	for _, c := range s.Configurations {
		in.Motions = append(in.Motions, s.motionBase(c))
	}
	return in
}

// verdict finds what the same problem came to before, or judges it.
func (s *Study) verdict(p decide.Problem) (decide.Verdict, error) {
	return keep.Result(s.keep, keep.Work[decide.Verdict]{Kind: "verdict", Inputs: s.verdictInputs(p), Compute: func() (decide.Verdict, error) {
		return decide.Judge(p)
	}})
}
