package decide

import (
	"cmp"
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

// openLimits lists those of a part's limits that some live configuration is not sure to hold, the least sure
// first.
func (o *outcome) openLimits(d demands) []int {
	var open []int
	least := func(r int) float64 {
		return o.judgement.verdicts[o.weakest(r, o.liveConfigs())][r].Probability
	}
	for _, r := range d.limits {
		if !reached(least(r), o.judgement.n) && !slices.Contains(open, r) {
			open = append(open, r)
		}
	}
	slices.SortStableFunc(open, func(a, b int) int { return cmp.Compare(least(a), least(b)) })
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

// names joins the names of limits for a sentence: "aft margin, fuel travel and strength of the main spar".
func (o *outcome) names(requirements []int) string {
	var words []string
	for _, r := range requirements {
		words = append(words, o.judgement.requirements[r].short())
	}
	return list(words, "and")
}

func bothOrAll(n int) string {
	if n == 2 {
		return "both"
	}
	return "all"
}
