package decide

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"
)

// Candidate is something that could be done next, with what it would tell: evidence without its values, or how much closer a
// figure would be known.
type Candidate struct {
	Kind string // flights, scales, proof load, sections, power, calibration
	Say  string // what to do, in a few words
	Why  string // what it lessens

	TrimSlopes []TrimSlopes       // their Slope is drawn
	Direct     []Direct           // their Value is drawn
	Scales     *Scales            // the full-size empty aircraft on scales
	Proof      map[string]float64 // by built part: standard deviation of what it carries, relative, that is left
	Step       map[string]float64 // by source of the step to full size: share of its standard deviation that is left
	Of         []string           // the quantities that Step and Doubts lessen; all when empty
	Doubts     float64            // share of the doubt of the computation itself that is left; 0 leaves all of it
	Calibrated map[string]float64 // by shared source of the flights: share of its standard deviation that is left

	Flights int // of the model
}

// Scales is how closely the empty aircraft would be weighed, one standard deviation each: kg, m, m.
type Scales struct{ Mass, X, Z float64 }

// Prospect is what a candidate may bring: a forecast, before anything was done.
type Prospect struct {
	Candidate Candidate
	Hours     float64        // shop hours that it can be expected to clear
	Parts     []PartProspect // the parts behind them, the most hours first
	Narrows   Narrowing      // the open limit that it narrows most
}

// PartProspect is a part that waits now, with the chance that it comes free.
type PartProspect struct {
	Part, Side string
	HoursLeft  float64
	Chance     float64
}

// Narrowing is a 95 % range of a judged quantity, its width now and as it would be.
type Narrowing struct {
	Limit, Configuration, Unit, Quantity string
	Now, After                           float64
}

// Outlook is what could be done next, best first.
type Outlook struct {
	Parts     int     // that wait, see Waiting
	Waiting   float64 // shop hours of all parts that wait and that no decision or sign-off alone clears
	Prospects []Prospect
	Together  []Prospect // the best of them with each other one, best first: what two of them clear between them
	Endless   Prospect   // what any number of flights of every combination would clear
	Settle    Prospect   // what settling sizes that pass every limit together would clear by itself; no hours where no sizes do
}

// Outcomes is how many are drawn for every candidate, the same truths for all.
const Outcomes = 10

const (
	forecastDraws = 2000 // joint draws of every judgement of an outcome
	mostPairs     = 3    // of the best candidate with others that are tried
)

// Next forecasts for every candidate how many shop hours it would clear.
//
// Truths are drawn from what is believed now, what the candidate would measure is drawn from each of them, and the board is judged
// anew. What people could then settle on proven sizes counts as settled, baseline first, and sign-offs as given, since neither is
// what a flight or a measurement is for; the same holds for the board of now, against which hours are counted. With 10 outcomes a
// chance is good to about a sixth: enough to rank, and the same truths serve all candidates.
//
// It stops soon after ctx ends, with its error.
//
// Endless is the candidate that stands for flying without end, so that what no flight clears shows.
func Next(ctx context.Context, p Problem, candidates []Candidate, endless Candidate, progress func(done, total int)) (Outlook, error) {
	f, err := newForecast(p, Outcomes, forecastDraws)
	if err != nil || len(f.waiting) == 0 {
		return Outlook{}, err
	}
	first, err := f.all(ctx, append(slices.Clone(candidates), endless), func(done, total int) { tell(progress, done, total+min(mostPairs, len(candidates)-1)) })
	if err != nil {
		return Outlook{}, err
	}
	out := Outlook{Prospects: first[:len(candidates)], Endless: first[len(candidates)]}
	out.Parts = len(f.waiting)
	for _, part := range f.waiting {
		out.Waiting += part.HoursLeft
	}
	out.Settle = f.settle
	byHours(out.Prospects)
	if len(out.Prospects) < 2 || out.Waiting == 0 {
		return out, nil
	}
	var pairs []Candidate
	for _, other := range out.Prospects[1:min(len(out.Prospects), 1+mostPairs)] {
		pairs = append(pairs, with(out.Prospects[0].Candidate, other.Candidate))
	}
	out.Together, err = f.all(ctx, pairs, func(done, total int) { tell(progress, len(candidates)+1+done, len(candidates)+1+total) })
	byHours(out.Together)
	return out, err
}

func tell(progress func(done, total int), done, total int) {
	if progress != nil {
		progress(done, total)
	}
}

// byHours sorts prospects, the most hours first; of equals the one that narrows an open limit more, then that with fewer flights.
func byHours(list []Prospect) {
	left := func(p Prospect) float64 {
		if p.Narrows.Now == 0 {
			return 1
		}
		return p.Narrows.After / p.Narrows.Now
	}
	slices.SortStableFunc(list, func(a, b Prospect) int {
		return cmp.Or(cmp.Compare(b.Hours, a.Hours), cmp.Compare(left(a), left(b)), cmp.Compare(a.Candidate.Flights, b.Candidate.Flights))
	})
}

// all judges candidates side by side.
func (f *forecast) all(ctx context.Context, candidates []Candidate, progress func(done, total int)) ([]Prospect, error) {
	prospects := make([]Prospect, len(candidates))
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	done := make(chan struct{}, len(candidates))
	go func() {
		for i, c := range candidates {
			group.Go(func() error {
				defer func() { done <- struct{}{} }()
				var err error
				if prospects[i], err = f.prospect(ctx, c); err != nil {
					return fmt.Errorf("%s: %w", c.Say, err)
				}
				return nil
			})
		}
	}()
	for i := range candidates {
		<-done
		progress(i+1, len(candidates))
	}
	return prospects, group.Wait()
}

// with is both of two candidates.
func with(a, b Candidate) Candidate {
	out := Candidate{Kind: a.Kind + " and " + b.Kind, Say: a.Say + ", and " + b.Say, Why: a.Why + "; " + b.Why, Flights: a.Flights + b.Flights,
		TrimSlopes: append(slices.Clone(a.TrimSlopes), b.TrimSlopes...), Direct: append(slices.Clone(a.Direct), b.Direct...),
		Scales: a.Scales, Proof: map[string]float64{}, Step: map[string]float64{}, Calibrated: map[string]float64{}}
	if b.Scales != nil {
		out.Scales = b.Scales
	}
	out.Doubts = max(a.Doubts, b.Doubts) // two candidates that both lessen it do not stand in one list
	if len(a.Of) > 0 || len(b.Of) > 0 {
		out.Of = append(slices.Clone(a.Of), b.Of...)
	}
	for _, c := range []Candidate{a, b} {
		maps.Copy(out.Proof, c.Proof)
		maps.Copy(out.Step, c.Step)
		maps.Copy(out.Calibrated, c.Calibrated)
	}
	return out
}

// prospect judges the outcomes of one candidate.
func (f *forecast) prospect(ctx context.Context, c Candidate) (Prospect, error) {
	cleared := make([]int, len(f.problem.Parts))
	var widths [][][]float64 // [configuration][requirement][outcome]
	for m := range f.outcomes {
		if err := ctx.Err(); err != nil {
			return Prospect{}, err
		}
		p, err := f.after(c, m)
		if err != nil {
			return Prospect{}, err
		}
		free, v, err := f.free(p)
		if err != nil {
			return Prospect{}, err
		}
		for i := range free {
			if free[i] {
				cleared[i]++
			}
		}
		widths = noteWidths(widths, v)
	}
	out := Prospect{Candidate: c, Narrows: f.narrowing(widths)}
	for _, i := range f.waitingAt {
		part := f.problem.Parts[i]
		if cleared[i] > 0 {
			chance := float64(cleared[i]) / float64(f.outcomes)
			out.Hours += chance * part.HoursLeft
			out.Parts = append(out.Parts, PartProspect{part.Name, part.Side, part.HoursLeft, chance})
		}
	}
	slices.SortStableFunc(out.Parts, func(a, b PartProspect) int { return cmp.Compare(b.Chance*b.HoursLeft, a.Chance*a.HoursLeft) })
	return out, nil
}
