package estimate

import (
	"fmt"
	"math"
)

const apartLevelsWords = "the levels were never flown apart from those of another choice, so that it cannot be told which of the two does it; fly one configuration that changes only one of them"

func neverFlownWords(choice, level string) string {
	return fmt.Sprintf("%s %s was not flown; fly it once in any configuration", choice, level)
}

func (m additive) putTogetherWords() string {
	words := fmt.Sprintf("not flown itself: put together from %s", withAnd(m.names()))
	if len(m.flown) <= len(m.basis) {
		words += "; whether the choices add up could not be tested"
	}
	return words
}

// names are the configurations with a number, by the levels of their changing choices.
func (m additive) names() []string {
	var out []string
	for _, f := range m.flown {
		var levels []string
		for _, choice := range m.changing {
			levels = append(levels, choice+"="+f.Levels[choice])
		}
		name := withAnd(levels)
		if name == "" {
			name = "all flights"
		}
		if len(out) == 0 || out[len(out)-1] != name {
			out = append(out, name)
		}
	}
	return out
}

func alikeDifferWords(quantity string, choices []string, test spreadTest) string {
	return fmt.Sprintf("configurations that differ only in %s differ in %s by more than their errors allow (χ² %.1f, limit %.1f), although theory says that it cannot change it: each level is estimated by itself",
		withAnd(choices), spoken(quantity), test.chiSquare, test.limit)
}

func notAdditiveWords(quantity string, choices []string, test spreadTest) string {
	return fmt.Sprintf("the effects of %s on %s do not add up (χ² %.1f, limit %.1f): each configuration keeps the value that was flown with it",
		withAnd(choices), spoken(quantity), test.chiSquare, test.limit)
}

// mixed says why results do not belong into one fit; empty when they do.
func mixed(flown []Flown) string {
	var first *Result
	for _, f := range flown {
		r := f.Result
		if !hasNumber(r) {
			continue
		}
		if first == nil {
			first = &r
			continue
		}
		switch {
		case r.Quantity != first.Quantity || r.Unit != first.Unit:
			return fmt.Sprintf("%s and %s are not one quantity and are not pooled over configurations", spoken(first.Quantity), spoken(r.Quantity))
		case r.Power != first.Power:
			return fmt.Sprintf("power %s and %s are not pooled over configurations; each keeps its own value", first.Power, r.Power)
		case r.HasCG && first.HasCG && math.Abs(r.CG-first.CG) > differentCG:
			return fmt.Sprintf("the configurations' values stand about CGs that lie %s apart; move them to one before they are pooled", millimetres(math.Abs(r.CG-first.CG)))
		}
	}
	return ""
}
