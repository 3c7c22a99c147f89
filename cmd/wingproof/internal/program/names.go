package program

import (
	"strings"
)

// folded writes a name as comparisons see it: lower case, with spaces, hyphens and underscores alike.
func folded(name string) string {
	name = strings.ToLower(strings.Join(strings.Fields(name), " "))
	return strings.NewReplacer(" ", "_", "-", "_").Replace(name)
}

// namesOf lists the names of things, without the empty ones.
func namesOf[T any](things []T, name func(T) string) []string {
	var names []string
	for _, thing := range things {
		if n := name(thing); n != "" {
			names = append(names, n)
		}
	}
	return names
}

// known finds a name in a list, exactly or folded, and returns it as the list writes it.
func known(name string, list []string) (string, bool) {
	for _, candidate := range list {
		if candidate == name {
			return candidate, true
		}
	}
	for _, candidate := range list {
		if folded(candidate) == folded(name) {
			return candidate, true
		}
	}
	return "", false
}

// nearest returns the name of the list that is spelt most like name; ok is false when none comes close.
func nearest(name string, list []string) (best string, ok bool) {
	limit := len(name)/3 + 1
	least := limit + 1
	for _, candidate := range list {
		if d := spelling(folded(name), folded(candidate), least); d < least {
			best, least = candidate, d
		}
	}
	return best, best != ""
}

// suggest says what to write instead of an unknown name.
func suggest(name string, list []string, what string) string {
	if best, ok := nearest(name, list); ok {
		return "did you mean " + quoted(best) + "?"
	}
	if len(list) == 0 {
		return "the program names no " + what + " yet"
	}
	return "write " + oneOf(list)
}

// oneOf lists choices in words: "a", "b" or "c".
func oneOf(list []string) string { return joined(list, " or ") }

func joined(list []string, last string) string {
	marked := make([]string, len(list))
	for i, name := range list {
		marked[i] = quoted(name)
	}
	if len(marked) < 2 {
		return strings.Join(marked, "")
	}
	return strings.Join(marked[:len(marked)-1], ", ") + last + marked[len(marked)-1]
}

// quoted puts a word from a file between quotation marks, short and on one line.
func quoted(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if runes := []rune(text); len(runes) > 60 {
		text = string(runes[:57]) + "..."
	}
	return `"` + text + `"`
}

// spelling counts the letters to insert, remove, replace or swap with a neighbour to turn a into b. It
// stops counting at limit.
//
// Source: F. J. Damerau, "A technique for computer detection and correction of spelling errors", 1964
// (restricted form: no letter is edited twice).
func spelling(a, b string, limit int) int {
	if d := len(a) - len(b); d >= limit || -d >= limit {
		return limit
	}
	before, last, now := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}
