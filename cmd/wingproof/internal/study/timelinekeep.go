package study

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"

	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/identify"
)

// timelineInputs are all that the steps of a timeline read. Predictions follow from the program.
type timelineInputs struct {
	Program        program.Program // without what no limit is judged by
	ReferenceCG    float64
	Flights        []Flight // as reduced, before their airspeed was calibrated, without the series of samples that Series stands for
	Used           []bool   // of the same flights, in the end
	Dynamics       []Dynamics
	Series         string // digest of the samples of the input manoeuvres
	Configurations []map[string]string
}

func (s *Study) timelineInputs(configurations []string) (timelineInputs, error) {
	in := timelineInputs{Program: *s.Program, ReferenceCG: s.ReferenceCG}
	p := &in.Program
	p.Dir, p.Name, p.CautionsRead, p.DateOrder = "", "", "", ""
	p.Parts, p.Decisions, p.Sheets, p.Cards, p.Missing, p.Warnings, p.Alarms, p.Inputs, p.Held = nil, nil, nil, nil, nil, nil, nil, nil, nil
	var segments [][]identify.Segment
	for i, f := range s.reduced {
		segments = append(segments, f.Reduction.Segments)
		f.Reduction.Segments, f.Dynamics = nil, Dynamics{}
		in.Flights, in.Used = append(in.Flights, f), append(in.Used, s.Flights[i].Used)
		in.Dynamics = append(in.Dynamics, s.Flights[i].Dynamics.withoutHistories())
	}
	bytes, err := keep.Encode(segments)
	if err != nil {
		return in, err
	}
	sum := sha256.Sum256(bytes)
	in.Series = hex.EncodeToString(sum[:])
	for _, name := range configurations {
		at := slices.IndexFunc(s.Configurations, func(c Configuration) bool { return c.Name == name })
		if at < 0 {
			return in, fmt.Errorf("timeline: there is no configuration %q", name)
		}
		in.Configurations = append(in.Configurations, s.Configurations[at].Levels)
	}
	return in, nil
}

// withoutHistories leaves out the measured and fitted series, which nothing is pooled from.
func (d Dynamics) withoutHistories() Dynamics {
	d.Fits = slices.Clone(d.Fits)
	for i := range d.Fits {
		d.Fits[i].Histories = nil
	}
	return d
}

// keptSteps finds the steps below all flights that the same study gave before, or judges them.
func (s *Study) keptSteps(ctx context.Context, in timelineInputs, flights int) ([]TimelineStep, error) {
	return keep.Result(s.keep, keep.Work[[]TimelineStep]{Kind: "timeline", Inputs: in, Compute: func() ([]TimelineStep, error) {
		var steps []TimelineStep
		for _, n := range stepsTo(flights) {
			steps = append(steps, TimelineStep{Flights: n})
		}
		return steps, each(ctx, len(steps), func(i int) (err error) {
			steps[i].Limits, err = s.limitsAfter(steps[i].Flights, stepDraws, in.Configurations)
			return err
		})
	}})
}
