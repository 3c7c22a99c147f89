package study

import (
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
)

// TheoryWork is something computed from the airframes of a program alone, no flight and no limit, that may be kept.
type TheoryWork[T any] struct {
	Kind   string // of the result in small letters
	Inputs any    // plain data, all that Make reads beside the program that it is given
	Make   func(p *program.Program) (T, error)
}

// OfTheory finds what was computed from the same airframes before, else computes it. Make is given the program without what theory does
// not read: its name, its folder, flights, weighings, limits, parts and records are empty; the errors of theory that the folder states
// are there.
func OfTheory[T any](s *Study, w TheoryWork[T]) (T, error) {
	in := struct {
		Program program.Program
		Inputs  any
	}{predictionInputsOf(s.Program).Program, w.Inputs}
	in.Program.TheoryErrors = s.Program.TheoryErrors
	return keep.Result(s.keep, keep.Work[T]{Kind: w.Kind, Inputs: in, Compute: func() (T, error) { return w.Make(&in.Program) }})
}
