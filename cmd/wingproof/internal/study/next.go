package study

import (
	"context"
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

// Next forecasts what could be done next, the most shop hours first, or finds what was forecast of the same problem before. It stops soon
// after ctx ends, with its error.
func (s *Study) Next(ctx context.Context, progress func(done, total int, what string)) (decide.Outlook, error) {
	problem, err := s.Problem()
	if err != nil {
		return decide.Outlook{}, err
	}
	problem = forecastOf(problem)
	candidates, endless, err := s.Candidates()
	if err != nil {
		return decide.Outlook{}, err
	}
	in := outlookInputs{Judged: s.judgedInputs(problem), Parts: problem.Parts, Decisions: problem.Decisions, Candidates: candidates, Endless: endless}
	defer s.keep.Tidy()
	return keep.Result(s.keep, keep.Work[decide.Outlook]{Kind: "outlook", Inputs: in, Compute: func() (decide.Outlook, error) {
		return decide.Next(ctx, problem, candidates, endless, func(done, total int) {
			if progress != nil {
				progress(done, total, "trying what could be done")
			}
		})
	}})
}
