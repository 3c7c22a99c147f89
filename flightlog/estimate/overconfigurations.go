package estimate

import (
	"fmt"
	"math"
	"slices"
)

// Flown is one configuration, choice ► level, with what its flights gave for the quantity.
type Flown struct {
	Levels map[string]string
	Result Result
}

// LevelEffect is how far a level of a choice lies from the mean of that choice's levels.
type LevelEffect struct {
	Choice, Level string
	Result        Result
}

// LevelDifference is the quantity at one level minus the quantity at the other, everything else alike.
type LevelDifference struct {
	Choice, One, Other string
	Result             Result
}

// Overview is one quantity over all configurations.
type Overview struct {
	Changing       []string // choices that are estimated level by level, sorted
	Alike          []string // choices that do not change the quantity: what they hold is pooled
	Configurations []Flown  // those given, in their order, then those asked
	Effects        []LevelEffect
	Differences    []LevelDifference
	Additive       bool    // the effects of choices add up as far as the flights can tell
	ChiSquare      float64 // of the configurations about the sum of effects
	Freedom        int     // configurations with a number − parameters; 0: nothing is left to test with
	Limit          float64 // that ChiSquare does not pass in 95 of 100 cases when effects add up
	Words          []string
}

// OverConfigurations pools one quantity, in one power state and about one CG, over configurations by
//
//	value(configuration) = mean + Σ effect(choice, level)
//
// over the choices that can change it. changes says which can, by choice; one that is not named there can. What differs only in the others is
// estimated once. asked are configurations to be put together that need not have been flown.
//
// The fit is generalised least squares on the results' random parts; errors that they share are carried through with their signs, so that
// differences between levels are free of what moves both alike. How configurations scatter about the sum of effects counts as
// more evidence of the scatter, where they all stand on one: variances are multiplied by (ν + χ²)/(ν + q), ν the degrees of freedom behind them and q those of χ², and then stand on
// ν + q.
//
// Two tests at 95 % (see spread) guard it. When configurations that differ only in choices that cannot change the quantity differ after all,
// those choices are estimated as well. When effects do not add up, each flown configuration keeps its own result, nothing is put together,
// and differences of levels are left to be taken configuration by configuration. Words say so.
//
// Configurations without a number, and those that were not flown, are put together where their levels were flown in others; they are
// weak. A single configuration, or levels that were never flown apart, are no mistake: what cannot be told apart says so.
func OverConfigurations(flown []Flown, changes map[string]bool, asked []map[string]string) Overview {
	out := Overview{Additive: true}
	if words := mixed(flown); words != "" {
		out.Configurations, out.Words = slices.Clone(flown), []string{words}
		return out
	}
	m := newAdditive(flown, changes)
	if len(m.alike) > 0 && len(m.flown) > 1 {
		if test := m.cellTest(); test.freedom > 0 && test.chiSquare > test.limit {
			out.Words = append(out.Words, alikeDifferWords(m.quantity, m.alike, test))
			m = newAdditive(flown, nil)
		}
	}
	out.Changing, out.Alike = m.changing, m.alike
	test := m.test()
	out.ChiSquare, out.Freedom, out.Limit = test.chiSquare, test.freedom, test.limit
	if test.freedom > 0 && test.chiSquare > test.limit {
		out.Additive = false
		out.Words = append(out.Words, notAdditiveWords(m.quantity, m.changing, test))
	}
	m.rescale(test)
	m.fill(&out, flown, asked)
	return out
}

// fill gives the results of every configuration, effect and difference.
func (m additive) fill(out *Overview, flown []Flown, asked []map[string]string) {
	for _, f := range flown {
		r := f.Result
		if out.Additive || !hasNumber(r) {
			r = m.configuration(f.Levels, &f, out.Additive)
		}
		out.Configurations = append(out.Configurations, Flown{f.Levels, r})
	}
	for _, levels := range asked {
		if slices.ContainsFunc(flown, func(f Flown) bool { return sameLevels(f.Levels, levels) }) {
			continue
		}
		out.Configurations = append(out.Configurations, Flown{levels, m.configuration(levels, nil, out.Additive)})
	}
	for _, choice := range m.changing {
		levels := m.levels[choice]
		for i, one := range levels {
			out.Effects = append(out.Effects, LevelEffect{choice, one, m.contrast(m.effect(choice, one), "effect over the mean of "+choice, out.Additive)})
			for _, other := range levels[i+1:] {
				text := fmt.Sprintf("%s against %s of %s, all configurations", other, one, choice)
				out.Differences = append(out.Differences, LevelDifference{choice, other, one, m.contrast(m.difference(choice, other, one), text, out.Additive)})
			}
		}
	}
}

// configuration is the sum of effects for one configuration; own is what was flown of it, nil when nothing was.
func (m additive) configuration(levels map[string]string, own *Flown, additive bool) Result {
	r := m.label()
	r.Method = fmt.Sprintf("sum of effects over %d configurations", len(m.flown))
	measured := own != nil && hasNumber(own.Result)
	if own != nil {
		r.Warnings = slices.Clone(own.Result.Warnings)
	}
	if measured {
		r.Lift = own.Result.Lift
	}
	x, missing := m.row(levels)
	switch {
	case len(m.flown) == 0:
		return undetermined(r, "no configuration gives a number")
	case missing != "":
		return undetermined(r, missing)
	case !additive:
		return undetermined(r, "the effects of its choices do not add up in the configurations that were flown, so it cannot be put together from them; fly it")
	case !m.estimable(x):
		return undetermined(r, apartLevelsWords)
	}
	if measured && m.alone(x, own) {
		return own.Result // no other configuration tells anything about it
	}
	r = m.along(r, x)
	if !measured {
		r = weaken(r, m.putTogetherWords())
	}
	if measured && own.Result.State == Weak && *r.SD > math.Sqrt(0.5)**own.Result.SD {
		r = weaken(r, "it is weak by itself, and other configurations add little")
	}
	return thin(r)
}

// contrast is an effect or a difference.
func (m additive) contrast(x []float64, text string, additive bool) Result {
	r := m.label()
	r.Method = text
	switch {
	case !additive:
		return undetermined(r, "it depends on the other choices; compare configuration by configuration")
	case !m.estimable(x):
		return undetermined(r, apartLevelsWords)
	}
	return thin(m.along(r, x))
}

func hasNumber(r Result) bool {
	return r.Value != nil && r.SDOwn != nil && r.State != NotDetermined && allFinite(*r.Value, *r.SDOwn)
}

// sameLevels tells whether two configurations are one.
func sameLevels(a, b map[string]string) bool {
	if len(a) != len(b) {
		return false
	}
	for choice, level := range a {
		if b[choice] != level {
			return false
		}
	}
	return true
}
