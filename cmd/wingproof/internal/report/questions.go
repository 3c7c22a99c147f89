package report

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// QuestionLines say once, above the rows, which questions are undecided, which sizes are out and why, and what is proven: the rows then only
// name what they wait for.
func QuestionLines(v decide.Verdict) []string {
	var lines []string
	open := 0
	for _, c := range v.Choices {
		switch c.State {
		case decide.Open:
			open++
			lines = append(lines, fmt.Sprintf("NOT DECIDED: %s, %s.", c.Choice, strings.Join(c.Live, " or ")))
		case decide.Elimination:
			open++
			lines = append(lines, fmt.Sprintf("NOT DECIDED: %s; only %s is left, and somebody must confirm it.", c.Choice, c.Level))
		case decide.Settled:
			lines = append(lines, fmt.Sprintf("Decided: %s %s.", c.Choice, c.Level))
		}
	}
	none := slices.ContainsFunc(v.Choices, func(c decide.ChoiceVerdict) bool { return c.State == decide.Contradiction })
	if none { // every size is out for the same reason, which stands in the alarm: one line is enough
		lines = append(lines, "NO COMBINATION OF SIZES PASSES: see the alarm.")
	}
	for _, l := range v.Levels {
		if l.State == decide.Out && !none {
			lines = append(lines, fmt.Sprintf("OUT: %s %s: %s.", l.Choice, l.Level, sizesWords(l.Why)))
		}
	}
	if open > 0 {
		lines = append(lines, provenLine(v))
	}
	if len(v.Board) > 0 {
		lines = append(lines, "How sure: a limit counts when it holds with 95 % or more; a part waits for what is less sure.")
	}
	return lines
}

// provenLine names the combinations that pass every limit.
func provenLine(v decide.Verdict) string {
	var proven []string
	for _, c := range v.Configurations {
		if c.Live && c.State == decide.Good {
			proven = append(proven, sizesWords(c.Configuration))
		}
	}
	switch len(proven) {
	case 0:
		return "Proven so far: no combination of sizes passes every limit with 95 %."
	default:
		return "Proven so far, every limit passed: " + strings.Join(proven, "; or ") + ". Nobody has decided on it yet: that takes a name and a reason ('wingproof settle')."
	}
}
