package decide

import (
	"fmt"
	"strings"
)

// settleStep is the fewest decisions on open choices, the shapers among them, after which every combination
// left passes every limit; false when the evidence allows none. In this order:
//
//   - a shaper has a size that is good by itself: settle it; the others may follow in any size;
//   - another open choice has one: settle that first, and every size of the shapers passes with it;
//   - some sizes pass only together: name the fewest of them.
//
// Without shapers any open choice will do.
func (o *outcome) settleStep(shapers []string) (step, bool) {
	for _, choice := range shapers {
		if good := o.goodLevels(choice); len(good) > 0 {
			return o.settleShaper(choice, good, without(shapers, choice)), true
		}
	}
	if choice, level := o.bestOther(shapers); level != "" {
		return o.settleOther(choice, level, shapers), true
	}
	return o.settleTogether(shapers)
}

// goodLevels lists the live levels of an open choice that are good.
func (o *outcome) goodLevels(choice string) []string {
	var good []string
	v := o.choiceState(choice)
	for _, level := range v.Live {
		if v.State == Open && o.verdictOn(choice, level).State == Good {
			good = append(good, level)
		}
	}
	return good
}

// settleShaper settles a choice that shapes the part, then the others that do.
func (o *outcome) settleShaper(choice string, good, rest []string) step {
	verb := "passes"
	if len(good) > 1 {
		verb = "pass"
	}
	s := step{rank: rankSettle, say: fmt.Sprintf("settle the %s (%s %s every limit)", choice, list(good, "and"), verb)}
	if len(rest) > 0 {
		s.say += ", then the " + list(rest, "and") + ": every size left passes with it"
	}
	s.full = s.say + command(choice, good[0], "")
	return s
}

// bestOther is the good level of an open choice other than the shapers that leaves the most combinations;
// among equals a baseline, then the first listed.
func (o *outcome) bestOther(shapers []string) (choice, level string) {
	most := 0
	for _, c := range o.space.choices {
		if contains(shapers, c.Name) {
			continue
		}
		for _, l := range o.goodLevels(c.Name) {
			weight := 2 * o.liveWith(c.Name, l)
			if l == c.Baseline {
				weight++
			}
			if weight > most {
				choice, level, most = c.Name, l, weight
			}
		}
	}
	return choice, level
}

// liveWith counts the live configurations with a level.
func (o *outcome) liveWith(choice, level string) int {
	n := 0
	for _, c := range o.liveConfigs() {
		if o.space.configs[c].levels[choice] == level {
			n++
		}
	}
	return n
}

// settleOther settles a choice that does not shape the part, so that every size of those that do passes.
func (o *outcome) settleOther(choice, level string, shapers []string) step {
	if len(shapers) == 0 {
		return o.settleShaper(choice, o.goodLevels(choice), nil)
	}
	s := step{rank: rankSettle, say: fmt.Sprintf("settle the %s at %s, then the %s: ", choice, level, list(shapers, "and"))}
	switch left := o.levelsWith(shapers[0], choice, level); {
	case len(shapers) > 1:
		s.say += "every size left passes with it"
	case len(left) == 1:
		s.say += left[0] + " passes with it"
	default:
		s.say += bothOrAll(len(left)) + " sizes pass with it"
	}
	s.full = s.say + command(choice, level, "")
	return s
}

// levelsWith lists the live levels of one choice that are left with a level of another.
func (o *outcome) levelsWith(shaper, choice, level string) []string {
	var left []string
	for _, l := range o.choiceState(shaper).Live {
		for _, c := range o.liveConfigs() {
			if levels := o.space.configs[c].levels; levels[shaper] == l && levels[choice] == level {
				left = append(left, l)
				break
			}
		}
	}
	return left
}

// settleTogether names the fewest sizes that pass together although none of them is good by itself.
func (o *outcome) settleTogether(shapers []string) (step, bool) {
	live := o.liveConfigs()
	good := func(c int) bool { return o.state[c] == Good }
	best, at := []string(nil), -1
	for _, c := range live {
		if !good(c) {
			continue
		}
		chosen := o.narrowest(c, shapers, live, good)
		if at < 0 || len(chosen) < len(best) {
			best, at = chosen, c
		}
	}
	if at < 0 {
		return step{}, false
	}
	words := o.sizes(at, best)
	s := step{rank: rankSettle, say: "decide on " + words + ": proven only together"}
	for i, choice := range best {
		text := command(choice, o.space.configs[at].levels[choice], "")
		if i > 0 {
			text = " and then" + strings.TrimPrefix(text, ", with")
		}
		s.full += text
	}
	s.full = s.say + s.full
	return s, true
}

// command is how the decision is recorded.
func command(choice, level, flag string) string {
	return fmt.Sprintf(", with 'settle %s %s%s'", choice, level, flag)
}

// againstFlag is what settling a level that is not proven asks for.
const againstFlag = " --against-evidence"
