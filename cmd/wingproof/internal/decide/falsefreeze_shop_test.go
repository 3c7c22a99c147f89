package decide

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
)

// shopYear is one program of the study: its boards, and what came of them.
type shopYear struct {
	freezes  []frozenPart
	outs     []calledOut
	verdicts []statedAgainst // every judged limit of every configuration at every board
	hours    float64         // cleared rightly
	knowable float64         // what the all-knowing judge clears
	settled  []bool          // of every decision that the shop took: right in truth
}

// frozenPart is a part at the first board that called it frozen.
type frozenPart struct {
	part   string
	limits []string // that it must pass
	broken []string // of them, in truth, in some combination still possible
	wrong  bool     // the size that it is built to passes in no combination left
	flight int
}

func (f frozenPart) falsely() bool { return f.wrong || len(f.broken) > 0 }

// calledOut is a configuration or a size at the first board that called it out.
type calledOut struct {
	name    string
	falsely bool
}

// statedAgainst is a stated probability and what is true.
type statedAgainst struct {
	limit  string
	stated float64
	holds  bool
}

// runShop goes through the flights of one program, a board after each, and lets the shop act.
func runShop(s scenario, w *world, program int, draws *streams) (*shopYear, error) {
	p := w.problem
	p.Seed, p.Draws, p.streams = draws.seed, draws.n, draws
	p.Decisions = []Decision{{Number: 1, Event: eventSignoff, Choice: "flutter", Who: "the shop"}}
	y := &shopYear{}
	frozen, out := map[string]bool{}, map[string]bool{}
	for flown := 1; flown <= len(s.Flights.Order); flown++ {
		if flown == s.Scales.After {
			p.Aircraft = w.weighed(s, program)
		}
		var err error
		if p.TrimSlopes, p.Direct, err = w.evidence(s, program, flown); err != nil {
			return nil, err
		}
		for board := 0; ; board++ {
			v, err := Judge(p)
			if err != nil {
				return nil, fmt.Errorf("program %d after flight %d: %w", program, flown, err)
			}
			if board == 0 {
				y.state(w, v, program)
			}
			y.out(w, v, program, out)
			y.freeze(w, v, program, flown, frozen)
			before := len(p.Decisions)
			if p.Decisions = y.settle(s, w, v, program, p.Decisions); len(p.Decisions) == before {
				break
			}
		}
	}
	y.knowing(s, w, program)
	return y, nil
}

// weighed is the aircraft after the scales: the truth with the scales' own error.
func (w *world) weighed(s scenario, program int) Aircraft {
	a, real := w.problem.Aircraft, w.empties[program]
	z := normals(w.seed, 3, fmt.Sprint("program ", program), "scales")
	read := func(f Figure, truth, z float64) Figure {
		f.SD *= s.Scales.SDTimes
		f.Value, f.Status = truth+f.SD*z, "weighed"
		return f
	}
	a.EmptyMass, a.EmptyX, a.EmptyZ = read(a.EmptyMass, real.mass, z[0]), read(a.EmptyX, real.x, z[1]), read(a.EmptyZ, real.z, z[2])
	return a
}

// state notes every stated probability beside the truth.
func (y *shopYear) state(w *world, v Verdict, program int) {
	for c, config := range v.Configurations {
		for r, l := range config.Limits {
			if c > 0 && w.requirements[r].kind() == restsOnWeight {
				continue
			}
			y.verdicts = append(y.verdicts, statedAgainst{l.Limit, l.Probability, w.really(program, c, r)})
		}
	}
}

// out notes configurations and sizes at the first board that calls them out.
func (y *shopYear) out(w *world, v Verdict, program int, known map[string]bool) {
	note := func(name string, falsely bool) {
		if !known[name] {
			known[name] = true
			y.outs = append(y.outs, calledOut{name, falsely})
		}
	}
	for c, config := range v.Configurations {
		if config.State == Out {
			note(config.Configuration, w.passes(program, c))
		}
	}
	for _, level := range v.Levels {
		if level.State != Out {
			continue
		}
		all := true
		for c, config := range v.Configurations {
			if config.Levels[level.Choice] == level.Level {
				all = all && w.passes(program, c)
			}
		}
		note(level.Choice+" "+level.Level, all)
	}
}

// freeze notes parts at the first board that calls them frozen.
func (y *shopYear) freeze(w *world, v Verdict, program, flown int, known map[string]bool) {
	for i, row := range v.Board {
		if row.Status != Frozen || known[row.Part] {
			continue
		}
		known[row.Part] = true
		part := w.problem.Parts[i]
		f := frozenPart{part: row.Part, flight: flown}
		for r, requirement := range w.requirements {
			if !slices.Contains(part.MustPass, requirement.Name) {
				continue
			}
			f.limits = append(f.limits, requirement.Name)
			for c, config := range v.Configurations {
				if config.Live && !w.really(program, c, r) {
					f.broken = append(f.broken, requirement.Name)
					break
				}
			}
		}
		for _, choice := range part.ShapedBy {
			f.wrong = f.wrong || !w.anyPasses(program, v, choice)
		}
		y.freezes = append(y.freezes, f)
		if !f.falsely() {
			y.hours += part.HoursLeft
		}
	}
}

// anyPasses tells whether the settled or only size of a choice passes everything in truth in some combination that the
// settled choices leave.
func (w *world) anyPasses(program int, v Verdict, choice string) bool {
	settled := map[string]string{}
	for _, state := range v.Choices {
		if state.Level != "" {
			settled[state.Choice] = state.Level
		}
	}
	for c, config := range v.Configurations {
		left := true
		for name, level := range settled {
			left = left && config.Levels[name] == level
		}
		if left && settled[choice] != "" && w.passes(program, c) {
			return true
		}
	}
	return false
}

// settle lets the shop settle what the board says can be: a good size, else the sizes of a combination that passes everything; the
// baseline first.
func (y *shopYear) settle(s scenario, w *world, v Verdict, program int, decisions []Decision) []Decision {
	at, level := proven(s, v)
	if at < 0 {
		return decisions
	}
	choice := s.Choices[at].Name
	y.settled = append(y.settled, slices.ContainsFunc(v.Configurations, func(c ConfigurationVerdict) bool {
		i := slices.IndexFunc(v.Configurations, func(d ConfigurationVerdict) bool { return d.Configuration == c.Configuration })
		return c.Levels[choice] == level && c.Live && w.passes(program, i)
	}))
	return append(decisions, Decision{Number: len(decisions) + 1, Event: eventSettle, Choice: choice, Level: level, Who: "the shop"})
}

// proven is a choice that can be settled, and on what; −1 when none can.
func proven(s scenario, v Verdict) (int, string) {
	state := func(choice string) string {
		return v.Choices[slices.IndexFunc(v.Choices, func(c ChoiceVerdict) bool { return c.Choice == choice })].State
	}
	for i, choice := range s.Choices {
		for _, level := range inOrder(choice) {
			good := slices.ContainsFunc(v.Levels, func(l LevelVerdict) bool { return l.Choice == choice.Name && l.Level == level && l.State == Good })
			if good && state(choice.Name) != Settled {
				return i, level
			}
		}
	}
	for _, levels := range combinations(s.Choices) {
		together := slices.ContainsFunc(v.Configurations, func(c ConfigurationVerdict) bool {
			return c.Live && c.State == Good && maps.Equal(c.Levels, levels)
		})
		for i, choice := range s.Choices {
			if together && state(choice.Name) != Settled {
				return i, levels[choice.Name]
			}
		}
	}
	return -1, ""
}

// combinations lists all of them, those with baselines first.
func combinations(choices []Choice) []map[string]string {
	ordered := slices.Clone(choices)
	for i := range ordered {
		ordered[i].Levels = inOrder(ordered[i])
	}
	return product(ordered)
}

// inOrder lists the sizes of a choice, the baseline first.
func inOrder(c Choice) []string {
	levels := slices.Clone(c.Levels)
	slices.SortStableFunc(levels, func(a, b string) int {
		return cmp.Compare(fmt.Sprint(a != c.Baseline), fmt.Sprint(b != c.Baseline))
	})
	return levels
}

// knowing adds the hours that a judge who knows the truth clears: choices are settled on what passes, parts follow.
func (y *shopYear) knowing(s scenario, w *world, program int) {
	var left []int
	for c := range w.theory.space.configs {
		if w.passes(program, c) {
			left = append(left, c)
		}
	}
	if len(left) == 0 {
		y.hours = 0 // nobody can start anything; what was started all the same does not count as cleared
		return
	}
	// Everything left passes all limits, so that every part can be started once the choices are settled.
	for _, part := range s.Parts {
		y.knowable += part.HoursLeft
	}
}
