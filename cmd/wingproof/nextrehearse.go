package main

import (
	"context"
	"fmt"
	"math"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/forecast"
	"wingproof/cmd/wingproof/internal/study"
)

// mostRehearsed is how many of the best flight steps are flown in simulation.
const mostRehearsed = 3

// A limit counts as open below this, and as moved by a rehearsal when its probability changes by more than one rehearsal tells.
const (
	openBelow = 0.955
	leastMove = 0.01
)

// nextRehearsal is a flight step of the forecast, flown in simulation.
type nextRehearsal struct {
	Do     string                 `json:"do"`
	Limits []forecast.LimitChance `json:"limits"` // open now, in configurations still possible
	Why    string                 `json:"why_not"`
}

// rehearseBest flies the best flight steps that may clear or narrow something.
func rehearseBest(ctx context.Context, s streams, st *study.Study, o decide.Outlook) ([]nextRehearsal, error) {
	var out []nextRehearsal
	for _, p := range o.Prospects {
		if len(p.Candidate.TrimSlopes) != 1 || len(out) == mostRehearsed || p.Hours == 0 && p.Narrows.Limit == "" {
			continue
		}
		flights, err := plannedFor(p.Candidate)
		if err != nil {
			return nil, err
		}
		result, err := forecast.Run(ctx, st, flights, forecast.Options{Seed: st.Program.Seed, Progress: s.progress(false)})
		if err != nil {
			return nil, fmt.Errorf("rehearse %q: %w", p.Candidate.Say, err)
		}
		one := nextRehearsal{Do: p.Candidate.Say, Limits: []forecast.LimitChance{}}
		for _, l := range result.Limits {
			if l.Live && l.Now < openBelow {
				one.Limits = append(one.Limits, l)
			}
		}
		for _, f := range result.Flights {
			if f.Why != "" {
				one.Why = f.Why
			}
		}
		out = append(out, one)
	}
	return out, nil
}

// plannedFor are the two flights of a step, at its two CGs, with the usual manoeuvres.
func plannedFor(c decide.Candidate) ([]forecast.Planned, error) {
	cards, err := forecast.Sheet([]string{"glide", "level", "doublet", "multistep", "sideslip"})
	if err != nil {
		return nil, err
	}
	slopes := c.TrimSlopes[0]
	var out []forecast.Planned
	for _, cg := range slopes.CG {
		out = append(out, forecast.Planned{Levels: slopes.Levels, CG: cg, Cards: cards})
	}
	return out, nil
}

// rehearsedWords are the rehearsals as lines.
func rehearsedWords(all []nextRehearsal) []string {
	if len(all) == 0 {
		return []string{"Rehearsed: no flight step, since none clears or narrows anything."}
	}
	var lines []string
	for _, r := range all {
		line, moves := "Rehearsed once: "+r.Do+":", false
		for _, l := range r.Limits {
			if math.Abs(l.After-l.Now) < leastMove {
				continue
			}
			moves = true
			line += fmt.Sprintf(" %s with %s %s now, %s then;", l.Limit, l.Configuration, decide.Surety(l.Now), decide.Surety(l.After))
		}
		if !moves {
			line += " no open limit moves by more than a hundredth;"
		}
		if r.Why != "" {
			line += " a flight would not count: " + r.Why + ";"
		}
		lines = append(lines, line[:len(line)-1]+" (forecast).")
	}
	return lines
}
