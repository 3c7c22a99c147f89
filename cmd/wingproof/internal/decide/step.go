package decide

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Ranks of steps: the order in which a row names what would clear it.
const (
	rankWrite   = iota // a gap in the list of parts
	rankRebuild        // whether a part is made anew
	rankSettle         // a choice, by a person
	rankMeasure        // flights, scales, proof loads, computations
	rankThen           // a choice, once that is in
	rankSign           // a sign-off
)

// step is one thing to do so that a part comes free: in a few words for the wall, and in full (which flight,
// which CG, which command) for the chain behind the row.
type step struct {
	rank int
	say  string // empty: for the chain alone
	full string
}

// clears joins steps for the wall: in the order of their ranks, each once, sign-offs in one breath.
func clears(steps []step) string {
	var words, names []string
	for _, s := range ordered(steps) {
		switch {
		case s.say == "":
		case s.rank == rankSign:
			names = append(names, s.say)
		default:
			words = append(words, s.say)
		}
	}
	if len(names) > 0 {
		words = append(words, "sign off "+list(names, "and"))
	}
	return fitted(words)
}

// most is how many characters the wall gives to what would clear a part.
const most = 150

// fitted joins words by "; then", and counts those that the wall has no room for. The first always stands, cut
// where long names leave no room even for it; the numbers of the part hold it whole.
func fitted(words []string) string {
	if len(words) < 2 {
		return cut(strings.Join(words, ""))
	}
	last := len(words) - 1
	text := strings.Join(words[:last], "; ") + "; then " + words[last]
	for kept := last; kept > 0 && utf8.RuneCountInString(text) > most; kept-- {
		rest := "1 more step"
		if n := len(words) - kept; n > 1 {
			rest = fmt.Sprintf("%d more steps", n)
		}
		text = strings.Join(words[:kept], "; ") + "; then " + rest + " (ask for its numbers)"
	}
	return cut(text)
}

// cut ends a text that is longer than the wall gives room for after a whole word.
func cut(text string) string {
	const end = " … (ask for its numbers)"
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	head := string(runes[:most-utf8.RuneCountInString(end)])
	if at := strings.LastIndex(head, " "); at > 0 {
		head = head[:at]
	}
	return strings.TrimRight(head, " ,;:(") + end
}

// fullSteps writes the long forms, in the same order.
func fullSteps(steps []step) []string {
	var lines []string
	for _, s := range ordered(steps) {
		switch {
		case s.full == "":
		case s.say == "":
			lines = append(lines, s.full)
		default:
			lines = append(lines, "to clear: "+s.full)
		}
	}
	return lines
}

// ordered sorts steps by rank and drops those that say the same; steps for the chain alone say nothing, and
// are the same where the long forms are.
func ordered(steps []step) []step {
	var unique []step
	for _, s := range steps {
		same := func(have step) bool { return have.say == s.say && (s.say != "" || have.full == s.full) }
		if !slices.ContainsFunc(unique, same) {
			unique = append(unique, s)
		}
	}
	slices.SortStableFunc(unique, func(a, b step) int { return a.rank - b.rank })
	return unique
}
