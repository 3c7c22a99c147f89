package study

import (
	"context"
	"slices"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/program"
)

// With carries a judged study on with flights that did not take place, reduced as ReduceLog does it: airspeed, fits and judging are done
// again over all flights together, predictions and reductions stand as they are. p is the program with the rows of these flights and their
// weighings added, and nothing else changed. The study itself is left as it is, and nothing is kept: the folder knows nothing of such flights.
func (s *Study) With(ctx context.Context, p *program.Program, more []Flight, progress func(done, total int, what string)) (*Study, error) {
	copied := *s // predictions stay
	out := &copied
	out.Program, out.keep = p, nil
	out.Airspeeds, out.Fits, out.Between, out.Margins, out.Estimates, out.Verdict = nil, nil, nil, nil, nil, decide.Verdict{}
	out.Flights = append(slices.Clone(s.reduced), more...)
	slices.SortStableFunc(out.Flights, func(a, b Flight) int { return inOrder(a.Name, b.Name) })
	count := &counter{total: len(out.Flights) + 2, tell: progress} // fits of each, fitting, judging
	if err := out.conclude(ctx, Judged, count); err != nil {
		return nil, err
	}
	return out, nil
}
