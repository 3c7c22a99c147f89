// Package study runs the whole chain on a program folder: predictions of every configuration, reduction
// of every flight, fits, anchored beliefs, the board and the scaling sheet.
//
// Work is cut by input (one configuration, one flight) and put together in input order, so that the same
// folder gives the same numbers however many processors there are.
package study

import (
	"context"
	"runtime"
	"slices"
	"sync"

	"golang.org/x/sync/errgroup"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
)

// Stage is how far a study goes.
type Stage int

// The stages, each with all that it needs. Reduced needs no lattice; Predicted needs no log.
const (
	Predicted Stage = iota // lattice of every configuration
	Reduced                // test points of every flight, no lattice
	Fitted                 // fits, with predictions beside them
	Judged                 // everything
)

// Options of a study.
type Options struct {
	Until    Stage
	Date     string                             // of the verdict; empty: the newest date in the folder
	Progress func(done, total int, what string) // may be nil; done never falls
	Keep     *keep.Store                        // of what was computed before; nil keeps nothing
}

// Study is what the chain gives.
type Study struct {
	Program        *program.Program
	Date           string
	ReferenceCG    float64 // full-size m aft of datum; moments of predictions refer to it
	Configurations []Configuration
	Flights        []Flight
	Airspeeds      []AirspeedCalibration // what the flights say about each logger's airspeed, taken off their points
	Fits           []Fit
	Between        []Between           // levels of choices against each other, as the flights tell them
	Margins        []evidence.Estimate // static margin per configuration and CG
	Estimates      []evidence.Estimate // measured, predicted, anchored, in that order
	Verdict        decide.Verdict

	keep    *keep.Store
	reduced []Flight // before their airspeed was calibrated, for With
	drawn   *drawn   // what the draws of the judging say, and what further is asked of them
}

// Run carries a program through the chain up to the stage asked for.
func Run(ctx context.Context, p *program.Program, o Options) (*Study, error) {
	s := &Study{Program: p, Date: dateOf(p, o.Date), keep: o.Keep}
	defer o.Keep.Tidy()
	count := newCounter(p, o)
	// Neither reads what the other gives, and each leaves a processor idle now and then.
	halves := []func() error{func() error { return s.foresee(ctx, o.Until, count) }, func() error { return s.reduceUntil(ctx, o.Until, count) }}
	err := each(ctx, len(halves), func(i int) error { return halves[i]() })
	if err != nil {
		return nil, err
	}
	if err = s.conclude(ctx, o.Until, count); err != nil {
		return nil, err
	}
	return s, nil
}

// foresee computes what theory says, on the model and at full size.
func (s *Study) foresee(ctx context.Context, until Stage, count *counter) error {
	if until == Reduced {
		return nil
	}
	if err := s.predict(ctx, count); err != nil || until < Judged {
		return err
	}
	return s.fullSize(ctx)
}

func (s *Study) reduceUntil(ctx context.Context, until Stage, count *counter) error {
	if until < Reduced {
		return nil
	}
	return s.reduce(ctx, count)
}

// conclude calibrates, fits and judges what was predicted and reduced.
func (s *Study) conclude(ctx context.Context, until Stage, count *counter) error {
	if until >= Reduced {
		s.reduced = slices.Clone(s.Flights)
		s.calibrateAirspeed()
	}
	if until >= Fitted {
		s.checkElevators()
		if err := s.identify(ctx, count); err != nil {
			return err
		}
		count.say("fitting")
		s.fit()
		s.Between = s.between()
	}
	if until >= Judged {
		count.say("judging every part")
		if err := s.judge(); err != nil {
			return err
		}
		s.Margins = s.margins()
	}
	s.Estimates = s.estimates()
	return nil
}

// dateOf returns the given date, or the newest one in the folder's tables.
func dateOf(p *program.Program, given string) string {
	if given != "" {
		return given
	}
	return NewestDate(p)
}

// NewestDate is the newest date in the folder's tables; empty when there is none.
func NewestDate(p *program.Program) string {
	newest := ""
	for _, f := range p.Flights {
		newest = max(newest, f.Date)
	}
	for _, w := range p.Weighings {
		newest = max(newest, w.Date)
	}
	for _, d := range p.Decisions {
		newest = max(newest, d.Date)
	}
	for _, sheet := range p.Sheets {
		newest = max(newest, sheet.Date)
	}
	return newest
}

// counter reports progress over all pieces of work of a study.
type counter struct {
	mu          sync.Mutex
	done, total int
	tell        func(done, total int, what string)
}

func newCounter(p *program.Program, o Options) *counter {
	c := &counter{tell: o.Progress}
	if o.Until != Reduced {
		c.total += len(p.Configurations())
	}
	if o.Until >= Reduced {
		c.total += len(p.Flights)
	}
	if o.Until >= Fitted {
		c.total += len(p.Flights) + 1
	}
	if o.Until >= Judged {
		c.total++
	}
	return c
}

func (c *counter) say(what string) {
	if c.tell == nil {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done++
	c.tell(c.done, c.total, what)
}

// together runs work(i) for 0 ≤ i < n on all processors; results belong in slots by index.
func together(n int, work func(i int)) {
	_ = each(context.Background(), n, func(i int) error { work(i); return nil }) // nothing in it can fail
}

// each runs work(i) for 0 ≤ i < n on all processors; results belong in slots by index. The error is that of the
// lowest index, so that it does not depend on who was first.
func each(ctx context.Context, n int, work func(i int) error) error {
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	failed := make([]error, n)
	for i := range n {
		group.Go(func() error {
			if failed[i] = ctx.Err(); failed[i] == nil {
				failed[i] = work(i)
			}
			return nil
		})
	}
	_ = group.Wait() // every error stands in failed
	for _, err := range failed {
		if err != nil {
			return err
		}
	}
	return ctx.Err()
}
