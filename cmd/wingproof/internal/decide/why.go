package decide

import (
	"fmt"
	"slices"
	"strings"
)

// whyOut names what rules out all the configurations: one requirement when it is the same everywhere,
// else those that do it between them.
func (o *outcome) whyOut(configs []int) string {
	everywhere := o.commonRequirements(configs)
	if len(everywhere) > 0 {
		r := everywhere[0]
		return o.failure(r, o.mildest(r, configs))
	}
	var phrases []string
	for _, r := range o.anyRequirements(configs) {
		phrases = append(phrases, o.judgement.requirements[r].phrase())
	}
	return "every combination fails one of " + list(phrases, "and")
}

// commonRequirements lists what rules out every one of the configurations.
func (o *outcome) commonRequirements(configs []int) []int {
	var common []int
	for r := range o.judgement.requirements {
		all := true
		for _, c := range configs {
			all = all && slices.Contains(o.ruledOutBy(c), r)
		}
		if all {
			common = append(common, r)
		}
	}
	return common
}

// anyRequirements lists what rules out at least one of the configurations.
func (o *outcome) anyRequirements(configs []int) []int {
	var some []int
	for r := range o.judgement.requirements {
		for _, c := range configs {
			if slices.Contains(o.ruledOutBy(c), r) {
				some = append(some, r)
				break
			}
		}
	}
	return some
}

// mildest is the configuration that comes nearest to passing a requirement.
func (o *outcome) mildest(r int, configs []int) int {
	best := configs[0]
	for _, c := range configs {
		if o.judgement.verdicts[c][r].Probability > o.judgement.verdicts[best][r].Probability {
			best = c
		}
	}
	return best
}

// weakest is the configuration that is least sure to pass a requirement.
func (o *outcome) weakest(r int, configs []int) int {
	worst := configs[0]
	for _, c := range configs {
		if o.judgement.verdicts[c][r].Probability < o.judgement.verdicts[worst][r].Probability {
			worst = c
		}
	}
	return worst
}

// failure says in the shop's words how a configuration fails a requirement: figures that a tape or scales
// could show, but no coefficients.
func (o *outcome) failure(r, c int) string {
	requirement, v := o.judgement.requirements[r], o.judgement.verdicts[c][r]
	if requirement.built != nil {
		return fmt.Sprintf("the %s would carry %s of what it may", o.builtName(requirement.built.Part), inUnit(v.Median, v.Unit, v.Quantity))
	}
	if seen := o.problem.wingFirst(requirement, o.space, c); len(seen) > 1 {
		return fmt.Sprintf("it fails %s: %s, and at full size the foreplane holds on longer still", requirement.phrase(), wingFirstWords(seen))
	}
	text := fmt.Sprintf("it fails %s (%s sure)", requirement.phrase(), percent(1-v.Probability))
	if v.Unit != "-" && v.Unit != "1/rad" {
		text += fmt.Sprintf(": %s where %s is asked", inUnit(v.Median, v.Unit, v.Quantity), requirement.bounds())
	}
	return text
}

// builtName writes a built part with its stage: "laid-up main spar".
func (o *outcome) builtName(name string) string {
	for _, part := range o.problem.Parts {
		if sameName(part.Name, name) && part.Stage != stageDrawn {
			return stageWord(part.Stage) + " " + part.Name
		}
	}
	return plainName(name)
}

// whyUnproven says of a level with what other sizes it passes, and which limit is least sure with which.
func (o *outcome) whyUnproven(choice string, configs []int) string {
	var pool []int
	for _, c := range configs {
		if o.state[c] != Out {
			pool = append(pool, c)
		}
	}
	return o.passesWith(choice, pool) + o.leastSureOf(choice, pool)
}

// passesWith names the fewest other sizes with which a level is good: "passes every limit with winglet mid; ".
func (o *outcome) passesWith(choice string, pool []int) string {
	good := func(c int) bool { return o.state[c] == Good }
	best, at := []string(nil), -1
	for _, c := range pool {
		if !good(c) {
			continue
		}
		if chosen := o.narrowest(c, []string{choice}, pool, good); at < 0 || len(chosen) < len(best) {
			best, at = chosen, c
		}
	}
	if at < 0 {
		return ""
	}
	return "passes every limit with " + o.sizes(at, without(best, choice)) + "; "
}

// leastSureOf names the requirement of a level that is least sure, with the other sizes that are to blame.
func (o *outcome) leastSureOf(choice string, pool []int) string {
	worst, at := 0, pool[0]
	for _, c := range pool {
		for r, v := range o.judgement.verdicts[c] {
			if v.Probability < o.judgement.verdicts[at][worst].Probability {
				worst, at = r, c
			}
		}
	}
	if v := o.judgement.verdicts[at]; len(v) > 0 && !o.holds(worst, at) {
		blamed := without(o.narrowest(at, []string{choice}, pool, func(c int) bool { return !o.holds(worst, c) }), choice)
		with := ""
		if len(blamed) > 0 {
			with = "with " + o.sizes(at, blamed) + " "
		}
		return fmt.Sprintf("%s%s is only %s sure", with, o.judgement.requirements[worst].phrase(), surety(v[worst].Probability))
	}
	for r, requirement := range o.judgement.requirements {
		if o.needsFlights(r) {
			return requirement.phrase() + " asks for flights, and fewer than two stand behind it"
		}
	}
	return "each limit holds, but not all of them together with 95 %"
}

// againstEvidence says in which way a settled level lacks the evidence, or nothing.
func (o *outcome) againstEvidence(choice string) string {
	row := o.standing.settled[choice]
	for _, v := range o.levels {
		if v.Choice != choice || v.Level != row.Level {
			continue
		}
		switch v.State {
		case Out:
			return fmt.Sprintf("the evidence now rules %s out: %s", v.Level, v.Why)
		case Unproven:
			if strings.HasPrefix(v.Why, "passes every limit with ") {
				return fmt.Sprintf("%s %s; settle that next", v.Level, v.Why)
			}
			return fmt.Sprintf("settled although the evidence does not prove %s yet: %s", v.Level, v.Why)
		}
	}
	return ""
}

// whatRuledOut lists the other levels of a choice with what excluded them.
func (o *outcome) whatRuledOut(choice, left string) string {
	text := ""
	for _, v := range o.levels {
		if v.Choice != choice || v.Level == left {
			continue
		}
		text += fmt.Sprintf("; %s is out: %s", v.Level, v.Why)
	}
	if text == "" {
		return " (no other is listed)"
	}
	return text
}

// outBy names in brackets what rules out the other levels of a choice: "(small out by directional)".
func (o *outcome) outBy(choice, left string) string {
	var words []string
	for _, v := range o.levels {
		if v.Choice != choice || v.Level == left {
			continue
		}
		configs := o.withLevel(choice, v.Level)
		by := o.commonRequirements(configs)
		if len(by) > 0 {
			by = by[:1]
		} else {
			by = o.anyRequirements(configs)
		}
		words = append(words, v.Level+" out by "+o.names(by))
	}
	if len(words) == 0 {
		return ""
	}
	return " (" + strings.Join(words, "; ") + ")"
}

// contradiction names the limits because of which no configuration is left.
func (o *outcome) contradiction() string {
	var candidates []int
	for c, ok := range o.candidate {
		if ok {
			candidates = append(candidates, c)
		}
	}
	if common := o.commonRequirements(candidates); len(common) > 0 {
		return o.judgement.requirements[common[0]].Name
	}
	var names []string
	for _, r := range o.anyRequirements(candidates) {
		names = append(names, o.judgement.requirements[r].Name)
	}
	return list(names, "and") + " between them"
}
