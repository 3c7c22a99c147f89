package decide

import (
	"fmt"
	"slices"
)

// choiceState finds the verdict on a choice.
func (o *outcome) choiceState(choice string) ChoiceVerdict {
	for _, v := range o.choices {
		if v.Choice == choice {
			return v
		}
	}
	return ChoiceVerdict{}
}

// verdictOn finds the verdict on a level.
func (o *outcome) verdictOn(choice, level string) LevelVerdict {
	for _, v := range o.levels {
		if v.Choice == choice && v.Level == level {
			return v
		}
	}
	return LevelVerdict{}
}

// liveConfigs lists the live configurations.
func (o *outcome) liveConfigs() []int {
	var configs []int
	for c, live := range o.live {
		if live {
			configs = append(configs, c)
		}
	}
	return configs
}

// openLimits lists those of a part's limits that some live configuration is not sure to hold.
func (o *outcome) openLimits(d demands) []int {
	var open []int
	for _, r := range d.limits {
		c := o.weakest(r, o.liveConfigs())
		if !reached(o.judgement.verdicts[c][r].Probability, o.judgement.n) && !slices.Contains(open, r) {
			open = append(open, r)
		}
	}
	return open
}

// leastSure is the requirement that a configuration is least sure to hold.
func (o *outcome) leastSure(requirements []int, c int) int {
	worst := requirements[0]
	for _, r := range requirements {
		if o.judgement.verdicts[c][r].Probability < o.judgement.verdicts[c][worst].Probability {
			worst = r
		}
	}
	return worst
}

// phrases joins the names of limits for a sentence.
func (o *outcome) phrases(requirements []int) string {
	var words []string
	for _, r := range requirements {
		words = append(words, o.judgement.requirements[r].phrase())
	}
	return list(words, "and")
}

func bothOrAll(n int) string {
	if n == 2 {
		return "both"
	}
	return "all"
}

// clearChoice says what would close an open choice: a decision where the evidence is in, else the flight
// or measurement that the least sure requirement of its levels lacks.
func (o *outcome) clearChoice(choice string, v ChoiceVerdict) string {
	var good []string
	for _, level := range v.Live {
		if o.verdictOn(choice, level).State == Good {
			good = append(good, level)
		}
	}
	if len(good) == len(v.Live) {
		return fmt.Sprintf("a decision: %s pass everything, so settle the %s", list(good, "and"), choice)
	}
	settle := "then settle the " + choice
	if len(good) > 0 {
		settle = fmt.Sprintf("or settle the %s at %s, which passes everything", choice, list(good, "or"))
	}
	r, c := o.weakestOfAll()
	if r >= 0 && !reached(o.judgement.verdicts[c][r].Probability, o.judgement.n) {
		return o.clearRequirement(r, c) + "; " + settle
	}
	for k := range o.judgement.requirements {
		if o.needsFlights(k) {
			return "two flights of one combination still possible: " + o.clearFlight(o.judgement.requirements[k], o.liveConfigs()[0]) + "; " + settle
		}
	}
	if r >= 0 {
		return o.clearRequirement(r, c) + "; " + settle
	}
	return settle
}

// weakestOfAll is the requirement and live configuration least sure of all, or −1 without requirements.
func (o *outcome) weakestOfAll() (r, c int) {
	r, c = -1, -1
	least := 2.0
	for _, k := range o.liveConfigs() {
		for i, v := range o.judgement.verdicts[k] {
			if v.Probability < least {
				r, c, least = i, k, v.Probability
			}
		}
	}
	return r, c
}
