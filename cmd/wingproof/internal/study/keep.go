package study

import (
	"context"
	"path/filepath"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/quality"
	"wingproof/flightlog/reduce"
)

// A computation whose result is kept gets its inputs from here and nothing else of the folder. So whatever it
// reads stands in the key of the result, and a field of the program that somebody adds stands there too unless it is taken
// out by name.

// reductionInputs are all that the reduction of one flight reads.
type reductionInputs struct {
	LogSHA256   string // of the bytes of the log; empty until they have been read
	Logger      flightlog.Map
	Flight      program.Flight   // the row, without its place in the table and what is written for people
	Weighing    program.Weighing // that the row names; zero when it names none
	Instruments program.InstrumentErrors
	LengthRatio float64
	Reference   aero.Reference   // of the baseline, full size
	Aircraft    quality.Aircraft // the same flight's, to tell a log of another one
	Marks       []reduce.Mark
}

func reductionInputsOf(p *program.Program, reference aero.Reference, f program.Flight, logger flightlog.Map) reductionInputs {
	f.Row, f.Notes, f.WhyNot = 0, "", ""
	in := reductionInputs{Logger: logger, Flight: f, Instruments: p.Model.Errors, LengthRatio: p.Model.LengthRatio, Reference: reference, Marks: marksOf(p, f.Name)}
	for _, w := range p.Weighings {
		if w.Name == f.Weighing && w.Name != "" {
			in.Weighing = w
		}
	}
	if aircraft, err := statedAircraft(p, f); err == nil { // a geometry that cannot be built is told where it is predicted
		in.Aircraft = aircraft
	}
	return in
}

// outcome finds what a log gave, or reads and reduces it. The digest of the log is taken before and, where the result shall be
// kept, again behind the reading: a log that grows meanwhile gives a result that belongs to neither.
func (r reducer) outcome(ctx context.Context, in reductionInputs) (outcome, error) {
	path := filepath.Join(r.program.Dir, filepath.FromSlash(in.Flight.Log))
	store := r.keep
	if store != nil {
		digest, err := keep.FileDigest(path)
		if in.LogSHA256 = digest; err != nil {
			store = nil
		}
	}
	var stopped error // by the context; errors of the disk are told in the outcome
	out, _ := keep.Result(store, keep.Work[outcome]{
		Kind: "reduction", Inputs: in,
		Compute: func() (outcome, error) {
			var done func()
			if done, stopped = r.memory.take(ctx, path); stopped != nil {
				return outcome{}, stopped
			}
			defer done()
			return in.compute(r.program.Dir)
		},
		Unchanged: func() bool {
			now, err := keep.FileDigest(path)
			return err == nil && now == in.LogSHA256
		},
	})
	return out, stopped
}

// predictionInputs are all that the predictions of a program read.
type predictionInputs struct {
	Program program.Program // without what no prediction reads
	CG      float64         // full-size m aft of datum, that predictions are about
	KnownCG bool
}

// predictionInputsOf leaves out of a program what only flights, limits, parts and decisions are judged by.
func predictionInputsOf(p *program.Program) predictionInputs {
	in := predictionInputs{Program: *p}
	in.CG, in.KnownCG = prediction.ReferenceCG(p)
	q := &in.Program
	q.Dir, q.Name, q.CautionsRead, q.Seed, q.DateOrder = "", "", "", 0, ""
	q.Model.Errors = program.InstrumentErrors{}
	q.Limits, q.TheoryErrors, q.Parts, q.Decisions, q.Sheets, q.Servos = nil, nil, nil, nil, nil, nil
	q.Loggers, q.Flights, q.Weighings, q.Marks, q.Cards = nil, nil, nil, nil, nil
	q.Missing, q.Warnings, q.Alarms, q.Inputs, q.Held = nil, nil, nil, nil, nil
	return in
}

// predictions finds what was predicted of the same program before, or computes it.
func (in predictionInputs) predictions(ctx context.Context, store *keep.Store, count *counter) (predictionResults, error) {
	if store == nil {
		return in.compute(ctx, count)
	}
	solved := false
	kept, err := keep.Result(store, keep.Work[keptPredictions]{Kind: "prediction", Inputs: in, Compute: func() (keptPredictions, error) {
		solved = true
		out, err := in.compute(ctx, count)
		return keptOf(out), err
	}})
	if err != nil {
		return predictionResults{}, err
	}
	out, err := kept.whole(&in.Program)
	for range out.Configurations {
		if !solved {
			count.say("lattice")
		}
	}
	return out, err
}

// keptPredictions are predictions without the airframes, which are made anew at once, and without the solutions of the
// lattice, which take hundreds of megabytes.
type keptPredictions struct {
	ReferenceCG    float64
	Configurations []keptConfiguration
}

type keptConfiguration struct {
	Configuration Configuration
	Spars         map[string][]decide.BendingStation
}

func keptOf(p predictionResults) keptPredictions {
	out := keptPredictions{ReferenceCG: p.ReferenceCG}
	for _, c := range p.Configurations {
		a, spars := c.Analysis, c.spars
		c.Airframe, c.spars = aero.Airframe{}, nil
		c.Analysis = prediction.Analysis{State: a.State, Trimmed: a.Trimmed, Derivatives: a.Derivatives, Body: a.Body, Numbers: a.Numbers, Warnings: a.Warnings}
		out.Configurations = append(out.Configurations, keptConfiguration{c, spars})
	}
	return out
}

// whole puts the airframes back.
func (k keptPredictions) whole(p *program.Program) (predictionResults, error) {
	out := predictionResults{ReferenceCG: k.ReferenceCG}
	fresh, err := configurationsOf(p)
	if err != nil {
		return out, err
	}
	for i, one := range k.Configurations {
		c := one.Configuration
		c.Airframe, c.Analysis.Airframe, c.spars = fresh[i].Airframe, fresh[i].Airframe, one.Spars
		out.Configurations = append(out.Configurations, c)
	}
	return out, nil
}
