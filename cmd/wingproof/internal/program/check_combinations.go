package program

import (
	"errors"
	"fmt"
	"sort"
	"strings"

	"wingproof/aero"
)

// mostCombinations bounds how many combinations of levels are built while a folder is read. Beyond that,
// every level alone and every pair of levels is tried.
const mostCombinations = 1500

// departure is one level that is not the baseline of its choice.
type departure struct{ choice, level string }

// checkCombinations builds the combinations of levels and reports those that no computation can use, each
// at the place of the level that spoils it. A combination that holds a smaller one which failed is left out: one
// mistake is told once. Surfaces that pass through one another are told as warnings, likewise once.
func (l *loader) checkCombinations(base aero.Airframe) {
	told := map[string]bool{}
	l.doubtArrangement(base, nil, told)
	var failed [][]departure
	combinations, all := l.p.combinations()
	for _, changes := range combinations {
		if holdsOneOf(changes, failed) {
			continue
		}
		levels := l.p.baseline()
		for _, c := range changes {
			levels[c.choice] = c.level
		}
		airframe, _, err := l.p.Airframe(levels)
		if err != nil {
			failed = append(failed, changes)
			l.unbuildable(changes, err)
			continue
		}
		l.doubtArrangement(airframe, changes, told)
	}
	if !all {
		l.warn("program.toml: there are more than %d combinations of levels; each level and each pair was tried, not every combination", mostCombinations)
	}
}

// combinations lists the levels alone, then pairs, then more at once; all is false when there are too
// many for more than pairs.
func (p *Program) combinations() (list [][]departure, all bool) {
	product := 1
	for _, c := range p.Choices {
		product = min(product*max(1, len(c.Levels)), mostCombinations+1)
	}
	all = product <= mostCombinations
	list = [][]departure{nil}
	for _, c := range p.Choices {
		for _, before := range list[:len(list):len(list)] {
			if !all && len(before) >= 2 {
				continue
			}
			for _, level := range c.Levels {
				if level.Name != c.Baseline {
					list = append(list, append(before[:len(before):len(before)], departure{c.Name, level.Name}))
				}
			}
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return len(list[i]) < len(list[j]) })
	return list[1:], all
}

func holdsOneOf(changes []departure, failed [][]departure) bool {
	for _, f := range failed {
		held := 0
		for _, c := range changes {
			for _, other := range f {
				if c == other {
					held++
				}
			}
		}
		if held == len(f) {
			return true
		}
	}
	return false
}

// unbuildable reports a combination at the place of its last level.
func (l *loader) unbuildable(changes []departure, err error) {
	last := changes[len(changes)-1]
	what := fmt.Sprintf("level %s of choice %s cannot be built", last.level, last.choice)
	right := "correct the edits of this level"
	if others := changes[:len(changes)-1]; len(others) > 0 {
		what += " together with " + wording(others)
		right = "correct the edits of one of these levels"
	}
	var place *aero.GeometryError
	if inner := errors.Unwrap(err); inner != nil && errors.As(inner, &place) {
		err = inner // without the level, which is named already
	}
	l.wrong(ProgramFile, l.levelAt[[2]string{last.choice, last.level}], "", what+": "+err.Error(), right)
}

// wording names levels: winglet tall and foreplane large.
func wording(changes []departure) string {
	var parts []string
	for _, c := range changes {
		parts = append(parts, c.choice+" "+c.level)
	}
	return strings.Join(parts, " and ")
}
