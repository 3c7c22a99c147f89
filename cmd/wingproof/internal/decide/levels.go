package decide

import "fmt"

// outcome is where configurations, levels and choices stand.
type outcome struct {
	problem   Problem
	space     space
	standing  standing
	belief    *belief
	judgement *judgement
	agreement Agreement
	odd       string   // what stands out most where flights disagree with theory
	state     []string // by configuration
	candidate []bool   // left by the settled choices
	live      []bool   // candidate and not out
	levels    []LevelVerdict
	choices   []ChoiceVerdict
}

// weigh gives configurations, then levels, then choices their states.
func weigh(p Problem, s space, st standing, b *belief, j *judgement) *outcome {
	o := &outcome{problem: p, space: s, standing: st, belief: b, judgement: j}
	o.state, o.candidate, o.live = make([]string, len(s.configs)), make([]bool, len(s.configs)), make([]bool, len(s.configs))
	for c := range s.configs {
		o.candidate[c] = o.allowed(c, "")
		if len(o.ruledOutBy(c)) > 0 {
			o.state[c] = Out
		}
		o.live[c] = o.candidate[c] && o.state[c] != Out
	}
	informed := o.informed()
	for c := range s.configs {
		if o.state[c] == Out {
			continue
		}
		o.state[c] = Unproven
		if informed && reached(j.all[c], j.n) {
			o.state[c] = Good
		}
	}
	for _, choice := range s.choices {
		for _, level := range choice.Levels {
			o.levels = append(o.levels, o.levelVerdict(choice.Name, level))
		}
	}
	for _, choice := range s.choices {
		o.choices = append(o.choices, o.choiceVerdict(choice))
	}
	return o
}

// allowed tells whether a configuration is left by the settled choices, one choice not asked.
func (o *outcome) allowed(c int, except string) bool {
	for _, choice := range o.space.choices {
		row, ok := o.standing.settled[choice.Name]
		if ok && choice.Name != except && o.space.configs[c].levels[choice.Name] != row.Level {
			return false
		}
	}
	return true
}

// ruledOutBy lists the requirements that a configuration fails with 95 % or more.
func (o *outcome) ruledOutBy(c int) []int {
	var list []int
	for r, v := range o.judgement.verdicts[c] {
		if reached(1-v.Probability, o.judgement.n) {
			list = append(list, r)
		}
	}
	return list
}

// informed tells whether two flights or more of at least one live configuration stand behind every limit
// that asks for flight evidence.
func (o *outcome) informed() bool {
	for r := range o.judgement.requirements {
		if o.needsFlights(r) {
			return false
		}
	}
	return true
}

// needsFlights tells whether a requirement asks for flights that nobody has made yet.
func (o *outcome) needsFlights(r int) bool {
	requirement := o.judgement.requirements[r]
	if requirement.Evidence != "flight" {
		return false
	}
	for c, live := range o.live {
		if live && len(o.flightsBehind(requirement, c)) >= 2 {
			return false
		}
	}
	return true
}

// flightsBehind lists the flights of one configuration that inform a requirement.
func (o *outcome) flightsBehind(r requirement, c int) []string {
	q := o.belief.theory.quantity(r.belief())
	if q < 0 {
		return nil
	}
	return o.belief.observed.flights(q, c)
}

// liveCount is the number of live configurations.
func (o *outcome) liveCount() int {
	n := 0
	for _, live := range o.live {
		if live {
			n++
		}
	}
	return n
}

// withLevel lists the configurations that have a level and that the other settled choices leave.
func (o *outcome) withLevel(choice, level string) []int {
	var list []int
	for c, config := range o.space.configs {
		if config.levels[choice] == level && o.allowed(c, choice) {
			list = append(list, c)
		}
	}
	return list
}

// levelVerdict is out when every configuration with the level is out, good when every one that is not out is
// good. A level that a decision has put aside is still judged, as if its own choice were open.
func (o *outcome) levelVerdict(choice, level string) LevelVerdict {
	configs := o.withLevel(choice, level)
	out, good := 0, 0
	for _, c := range configs {
		switch o.state[c] {
		case Out:
			out++
		case Good:
			good++
		}
	}
	v := LevelVerdict{Choice: choice, Level: level, State: Unproven}
	switch {
	case out == len(configs):
		v.State, v.Why = Out, o.whyOut(configs)
	case good+out == len(configs):
		v.State, v.Why = Good, "passes every limit in every combination still possible"
	default:
		v.Why = o.whyUnproven(choice, configs)
	}
	if row, ok := o.standing.settled[choice]; ok && row.Level != level {
		v.Why += fmt.Sprintf("; put aside, %s is settled at %s (%s)", choice, row.Level, cite(row))
	}
	return v
}

// liveLevels lists the levels of a choice that some live configuration has.
func (o *outcome) liveLevels(choice Choice) []string {
	live := []string{}
	for _, level := range choice.Levels {
		for c, config := range o.space.configs {
			if o.live[c] && config.levels[choice.Name] == level {
				live = append(live, level)
				break
			}
		}
	}
	return live
}

// choiceVerdict tells whether a choice is settled, open, decided by elimination, or without a way out.
func (o *outcome) choiceVerdict(choice Choice) ChoiceVerdict {
	v := ChoiceVerdict{Choice: choice.Name, Live: o.liveLevels(choice)}
	row, settled := o.standing.settled[choice.Name]
	switch {
	case settled:
		v.State, v.Level, v.Why = Settled, row.Level, "settled at "+row.Level+" ("+cite(row)+")"
		if doubt := o.againstEvidence(choice.Name); doubt != "" {
			v.Why += "; " + doubt
		}
	case len(v.Live) == 0:
		v.State, v.Why = Contradiction, Contradiction+": "+o.contradiction()
	case len(v.Live) == 1:
		v.State, v.Level = Elimination, v.Live[0]
		v.Why = fmt.Sprintf("only %s is left%s; confirm with settle %s %s", v.Live[0], o.whatRuledOut(choice.Name, v.Live[0]), choice.Name, v.Live[0])
	default:
		v.State, v.Why = Open, list(v.Live, "and")+" are still possible"
	}
	return v
}
