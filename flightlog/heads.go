package flightlog

import "strings"

// sameHeads tells whether a row repeats the heads.
func sameHeads(cells []cell, heads []string) bool {
	if len(cells) < len(heads) {
		return false
	}
	for i, h := range heads {
		if readable(cells[i].text) != h {
			return false
		}
	}
	return true
}

// matches counts the wanted heads that are there.
func matches(heads, wanted []string) int {
	n := 0
	for _, w := range wanted {
		if i, _ := findHead(heads, w); i >= 0 {
			n++
		}
	}
	return n
}

// findHead looks for a head: as written, else without regard to case and runs of blanks. same counts
// how many heads match equally well; the first is given, −1 when there is none.
func findHead(heads []string, wanted string) (index, same int) {
	index = -1
	for _, plain := range []func(string) string{strings.TrimSpace, fold} {
		for i, h := range heads {
			if plain(h) != plain(wanted) {
				continue
			}
			if same == 0 {
				index = i
			}
			same++
		}
		if same > 0 {
			return index, same
		}
	}
	return index, 0
}

// fold is a head without regard to case and blanks.
func fold(s string) string { return strings.Join(strings.Fields(strings.ToLower(s)), " ") }
