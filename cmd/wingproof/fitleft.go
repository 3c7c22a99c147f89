package main

import (
	"fmt"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/reduce"
)

func withOrigin(all []evidence.Estimate, origin string) []evidence.Estimate {
	out := []evidence.Estimate{}
	for _, e := range all {
		if e.Origin == origin {
			out = append(out, e)
		}
	}
	return out
}

func flightsLeftOut(st *study.Study) []leftOut {
	out := []leftOut{}
	for _, f := range st.Flights {
		if !f.Used {
			out = append(out, leftOut{f.Name, f.Why})
		}
	}
	return out
}

// notFitted lists the input manoeuvres that gave no derivatives, and why.
func notFitted(st *study.Study) []leftOut {
	out := []leftOut{}
	for _, f := range st.Flights {
		for _, why := range f.Dynamics.Why {
			out = append(out, leftOut{f.Name, why})
		}
	}
	return out
}

func tellLeftOut(s streams, st *study.Study) {
	for _, f := range flightsLeftOut(st) {
		fmt.Fprintf(s.Err, "left out: flight %s: %s\n", f.Flight, f.Why)
	}
}

// dangersOf lists the decelerations in which the wing let go first, those of flights that do not count too.
func dangersOf(st *study.Study, keep func(map[string]string) bool) []report.Danger {
	var out []report.Danger
	for _, f := range st.Flights {
		if keep(f.Levels) {
			r := f.Reduction
			r.Flight = f.Name
			out = append(out, report.Dangers(r, evidence.Name(f.Levels))...)
		}
	}
	return out
}

// everyLevel keeps every configuration.
func everyLevel(map[string]string) bool { return true }

// missingFlying is something that flights do not hold, with what to fly.
type missingFlying struct {
	Configuration string `json:"configuration"` // empty: no flight of the program holds it
	What          string `json:"what"`
}

// missingOf lists what no flight of the program holds, then what the flights of one configuration do not hold beside.
func missingOf(st *study.Study, keep func(map[string]string) bool) []missingFlying {
	var names []string
	var all []reduce.Reduction
	flown := map[string][]reduce.Reduction{}
	for _, f := range st.Flights {
		if !f.Used {
			continue
		}
		name := evidence.Name(f.Levels)
		if keep(f.Levels) && !slices.Contains(names, name) {
			names = append(names, name)
		}
		all = append(all, f.Reduction)
		flown[name] = append(flown[name], f.Reduction)
	}
	if len(all) == 0 {
		return nil
	}
	var out []missingFlying
	nowhere := reduce.MissingFlying(all)
	for _, what := range nowhere {
		out = append(out, missingFlying{"", what})
	}
	for _, name := range names {
		for _, what := range reduce.MissingFlying(flown[name]) {
			if !slices.Contains(nowhere, what) {
				out = append(out, missingFlying{name, what})
			}
		}
	}
	return out
}
