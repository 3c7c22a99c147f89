package study

import (
	"context"
	"errors"
	"slices"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/keep"
)

// outlookInputs are all that the forecast of what could be done next reads: what the judging draws from, the parts and the record that
// hours are counted by, and what is tried.
type outlookInputs struct {
	Judged     judgedInputs
	Parts      []decide.Part
	Decisions  []decide.Decision
	Candidates []decide.Candidate
	Endless    decide.Candidate
}

// forecastOf is a problem without what a forecast never reads: the date, flights left out, and of a part who is responsible, by when it is
// needed and what was spent on it.
func forecastOf(p decide.Problem) decide.Problem {
	p.Date, p.LeftOut = "", nil
	p.Parts = slices.Clone(p.Parts)
	for i := range p.Parts {
		p.Parts[i].Responsible, p.Parts[i].NeededBy, p.Parts[i].HoursSpent = "", "", 0
	}
	return p
}

// outlookWork is the forecast of this study. tell may be nil.
func (s *Study) outlookWork(ctx context.Context, tell func(done, total int)) (work keep.Work[decide.Outlook], err error) {
	problem, err := s.Problem()
	if err != nil {
		return work, err
	}
	problem = forecastOf(problem)
	candidates, endless, err := s.Candidates()
	in := outlookInputs{Judged: s.judgedInputs(problem), Parts: problem.Parts, Decisions: problem.Decisions, Candidates: candidates, Endless: endless}
	return keep.Work[decide.Outlook]{Kind: "outlook", Inputs: in, Compute: func() (decide.Outlook, error) {
		return decide.Next(ctx, problem, candidates, endless, tell)
	}}, err
}

// Next forecasts what could be done next, the most shop hours first, or finds what was forecast of the same problem before. It stops soon
// after ctx ends, with its error. progress may be nil.
func (s *Study) Next(ctx context.Context, progress func(done, total int, what string)) (decide.Outlook, error) {
	work, err := s.outlookWork(ctx, func(done, total int) {
		if progress != nil {
			progress(done, total, "trying what could be done")
		}
	})
	if err != nil {
		return decide.Outlook{}, err
	}
	defer s.keep.Tidy()
	return keep.Result(s.keep, work)
}

// errNotKept stands in for a computation that nobody waits for.
var errNotKept = errors.New("not worked out before")

// NextKept is what Next would give, where it was worked out before; else it says so at once.
func (s *Study) NextKept() (decide.Outlook, bool) {
	work, err := s.outlookWork(context.Background(), nil)
	if err != nil {
		return decide.Outlook{}, false
	}
	work.Compute = func() (decide.Outlook, error) { return decide.Outlook{}, errNotKept }
	outlook, err := keep.Result(s.keep, work)
	return outlook, err == nil
}
