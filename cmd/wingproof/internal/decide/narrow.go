package decide

import (
	"math/bits"
	"slices"
)

// narrowest returns the fewest choices, those in must among them, such that every configuration of the pool
// that agrees with c in them has the property. It says which sizes of c are to blame, or to thank, for it.
// Among equally few the first by name counts. The configuration c has the property.
func (o *outcome) narrowest(c int, must []string, pool []int, property func(int) bool) []string {
	names := o.space.names
	best := names
	for mask := range 1 << len(names) {
		if bits.OnesCount(uint(mask)) >= len(best) {
			continue
		}
		var chosen []string
		for k, name := range names {
			if mask>>k&1 == 1 {
				chosen = append(chosen, name)
			}
		}
		if containsAll(chosen, must) && o.allAgreeing(c, chosen, pool, property) {
			best = chosen
		}
	}
	return best
}

// allAgreeing tells whether every configuration of the pool with the same levels as c in the named choices
// has the property.
func (o *outcome) allAgreeing(c int, choices []string, pool []int, property func(int) bool) bool {
	for _, k := range pool {
		if o.agree(c, k, choices) && !property(k) {
			return false
		}
	}
	return true
}

// agree tells whether two configurations have the same levels in the named choices.
func (o *outcome) agree(c, d int, choices []string) bool {
	for _, name := range choices {
		if o.space.configs[c].levels[name] != o.space.configs[d].levels[name] {
			return false
		}
	}
	return true
}

func containsAll(list, items []string) bool {
	for _, item := range items {
		if !slices.Contains(list, item) {
			return false
		}
	}
	return true
}

// sizes writes some of the levels of a configuration: "foreplane long and winglet small".
func (o *outcome) sizes(c int, choices []string) string {
	var words []string
	for _, name := range choices {
		words = append(words, name+" "+o.space.configs[c].levels[name])
	}
	return list(words, "and")
}

// without is a list less one item.
func without(names []string, name string) []string {
	var rest []string
	for _, have := range names {
		if have != name {
			rest = append(rest, have)
		}
	}
	return rest
}
