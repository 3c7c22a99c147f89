package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/plan"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// chosen are the configurations to plan for, in the order to be flown.
func (o planOptions) chosen(st *study.Study) ([]study.Configuration, error) {
	byName := map[string]study.Configuration{}
	for _, c := range st.Configurations {
		byName[c.Name] = c
	}
	var names []string
	if len(o.configurations) > 0 {
		var m mistakes
		for _, text := range o.configurations {
			names = append(names, evidence.Name(levelsFlag(st.Program, text, &m)))
		}
		if err := m.err(); err != nil {
			return nil, err
		}
	} else {
		names = unflown(st)
	}
	var out []study.Configuration
	for i, name := range names {
		if c, ok := byName[name]; ok && !slices.Contains(names[:i], name) {
			out = append(out, c)
		}
	}
	return out, nil
}

// unflown is the baseline, settled levels in its place, then what is still possible and was never flown. Where everything was flown, or the
// baseline is out, what is still possible stands for it.
func unflown(st *study.Study) []string {
	flown := map[string]bool{}
	for _, f := range st.Flights {
		if f.Used {
			flown[evidence.Name(f.Levels)] = true
		}
	}
	base := evidence.Name(settledLevels(st))
	first, rest := []string{}, []string{}
	live := []string{}
	for _, c := range st.Verdict.Configurations {
		if !c.Live {
			continue
		}
		live = append(live, c.Configuration)
		switch {
		case c.Configuration == base:
			first = append(first, base)
		case !flown[c.Configuration]:
			rest = append(rest, c.Configuration)
		}
	}
	switch names := append(first, rest...); {
	case len(names) > 0:
		return names
	case len(live) > 0:
		return live[:1]
	}
	return []string{base}
}

// names are those of the flights to come: they go on from the last row of flights.csv, or from --first-flight.
func (o planOptions) names(p *program.Program) []string {
	taken := map[string]bool{}
	last := ""
	for _, f := range p.Flights {
		taken[strings.ToLower(f.Name)], last = true, f.Name
	}
	next := nextName(last)
	if o.first != "" {
		next = o.first
	}
	var out []string
	for len(out) < o.flights {
		if !taken[strings.ToLower(next)] {
			out = append(out, next)
		}
		next = nextName(next)
	}
	return out
}

// nextName counts a name up at its end: F18, F19. A name without a number at its end gets one.
func nextName(name string) string {
	stem := strings.TrimRight(name, "0123456789")
	digits := name[len(stem):]
	n, err := strconv.Atoi(digits)
	switch {
	case name == "":
		return "F01"
	case digits == "" || err != nil:
		return name + "-2"
	}
	return fmt.Sprintf("%s%0*d", stem, len(digits), n+1)
}

// atMostDive says that the dive speed of full size bounds the default.
func atMostDive(dive float64) string {
	if !(dive > 0) {
		return ""
	}
	return fmt.Sprintf(", but not much beyond the %.1f m/s that full size's dive speed is on the model", dive)
}

// assumptions says what stands in for what the folder does not state.
func (o planOptions) assumptions(st *study.Study, p plan.Problem) []string {
	out := []string{}
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if p.Range == nil {
		add("no loading that flies with an empty weight is stated: the CGs run over 10 %% of the chord ahead of the aft limit")
	}
	if len(p.Weighings) == 0 {
		add("no weighing: mass %.2f kg, %s; the CG of the model is not known until it stands on the scales", p.Mass.Value, p.Mass.Source)
	}
	if p.NeverExceed == 0 {
		add("nobody has said what speed the model stands: never exceed is 2.6 times the stalling speed%s (common practice, no source); give --never-exceed", atMostDive(p.DesignDive))
	}
	if !o.entryGiven || !o.lowSaid {
		add("cards begin %.0f m above the ground and are broken off below %.0f m (common practice, no source); local rules may allow less: --entry-height, --lowest-height", p.Heights.Entry, p.Heights.Lowest)
	}
	if p.ElevatorTravel == nil {
		add("no hinge states the elevator's travel: find its stops on the bench and write them on the sheet")
	}
	if slices.ContainsFunc(p.Configurations, func(c plan.Configuration) bool { return c.MaxLift[0].Source == defaultLiftSource }) {
		add("maximum lift %.2f ± %.2f at the model's size is taken from a default, no section data (common practice, no source)", usualMaxLift, usualMaxLiftSD)
	}
	if len(st.Program.Limits) == 0 {
		add("program.toml states no limit, so that nothing on the sheets serves one in particular")
	}
	add("glides cost height by a usual drag of a model with a stopped propeller, with a third added (common practice, no source)")
	return out
}
