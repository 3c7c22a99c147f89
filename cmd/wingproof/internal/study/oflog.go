package study

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"

	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/reduce"
)

// LogWork is something made of the log of a flight that may be kept, as a figure of it.
type LogWork[T any] struct {
	Kind   string // of the result in small letters
	Inputs any    // plain data, all that Make reads beside what it is given
	Make   func(Logged) (T, error)
}

// Logged is the log of a flight with what it was reduced to, before its airspeed was calibrated.
type Logged struct {
	Logger    flightlog.Map
	Flight    program.Flight // without its place in the table and what is written for people
	Recording *flightlog.Recording
	Reduction reduce.Reduction
	LeftOut   string // why the flight cannot count; empty when it does
}

// OfLog finds what was made of the log of a flight of a study before, else reads the log and makes it. A flight that flights.csv leaves
// out is reduced like any other. The error says why there is no result, in words that name the log.
func OfLog[T any](ctx context.Context, s *Study, f Flight, w LogWork[T]) (T, error) {
	var none T
	if f.Log == "" {
		return none, fmt.Errorf("flights.csv names no log for it")
	}
	logger, ok := loggerNamed(s.Program.Loggers, f.Logger)
	if !ok {
		return none, fmt.Errorf("program.toml has no [logger.%s], so its log cannot be read", f.Logger)
	}
	baseline, _, err := s.Program.Airframe(s.Program.Configurations()[0])
	if err != nil {
		return none, err
	}
	in := struct {
		Reduction reductionInputs
		LeftOut   string // by what other flights hold
		Inputs    any
	}{reductionInputsOf(s.Program, baseline.Reference, f.Flight, logger), "", w.Inputs}
	known := slices.IndexFunc(s.reduced, func(r Flight) bool {
		return r.Name == f.Name && r.Use && len(r.Reduction.Points)+len(r.Reduction.Findings) > 0
	})
	if known >= 0 {
		in.LeftOut = s.reduced[known].Why
	}
	path := filepath.Join(s.Program.Dir, filepath.FromSlash(f.Log))
	store := s.keep
	digest, err := keep.FileDigest(path)
	if in.Reduction.LogSHA256 = digest; err != nil {
		store = nil
	}
	return keep.Result(store, keep.Work[T]{
		Kind: w.Kind, Inputs: in,
		Compute: func() (T, error) {
			if err := ctx.Err(); err != nil {
				return none, err
			}
			l, err := s.logged(in.Reduction, known)
			if err != nil {
				return none, err
			}
			return w.Make(l)
		},
		Unchanged: func() bool {
			now, err := keep.FileDigest(path)
			return err == nil && now == digest
		},
	})
}

// logged reads a log. known is the flight's place among the reduced ones, whose reduction is taken over; below 0 it is reduced here.
func (s *Study) logged(in reductionInputs, known int) (Logged, error) {
	out := Logged{Logger: in.Logger, Flight: in.Flight}
	var err error
	if out.Recording, err = readLog(s.Program.Dir, in.Flight.Log, in.Logger); err != nil {
		return out, fmt.Errorf("%s", firstOf(err))
	}
	if known >= 0 {
		out.Reduction, out.LeftOut = s.reduced[known].Reduction, s.reduced[known].Why
		return out, nil
	}
	gave := in.reduced(out.Recording)
	out.Reduction, out.LeftOut = gave.Reduction, gave.Why
	return out, nil
}

// Kept is what earlier runs computed, for what is made of a study beyond it; nil keeps nothing.
func (s *Study) Kept() *keep.Store { return s.keep }

// Each runs work(i) for 0 ≤ i < n on all processors; results belong in slots by index. The error is that of the lowest index.
func Each(ctx context.Context, n int, work func(i int) error) error { return each(ctx, n, work) }
