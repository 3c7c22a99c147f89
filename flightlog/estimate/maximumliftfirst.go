package estimate

import (
	"fmt"
	"slices"
	"strings"
)

// The surfaces that Stall.First names.
const (
	firstForeplane = "foreplane"
	firstWing      = "wing"
)

// firstWords says which surface let go first. A foreplane that lets go first drops the nose and saves the wing; a wing that lets go first
// drops a wing or pitches up, close to the ground without a way out.
func firstWords(kept []Stall) []string {
	var foreplane, unknown int
	var wing []string
	broken := countBroken(kept)
	for _, s := range kept {
		switch {
		case !s.Broke:
		case s.First == firstForeplane:
			foreplane++
		case s.First == firstWing:
			wing = append(wing, s.Flight)
		default:
			unknown++
		}
	}
	var out []string
	if len(wing) > 0 {
		out = append(out, fmt.Sprintf("in %d of %s the wing let go first: %s: a danger; do not slow this configuration to the stall again before the cause is known",
			len(wing), count(broken, "deceleration"), strings.Join(tallied(wing), ", ")))
	}
	if foreplane > 0 {
		out = append(out, fmt.Sprintf("the foreplane let go first in %d of %s", foreplane, count(broken, "deceleration")))
	}
	if unknown > 0 {
		out = append(out, fmt.Sprintf("in %d of %s nothing told which surface let go first", unknown, count(broken, "deceleration")))
	}
	if left := len(kept) - broken; left > 0 {
		out = append(out, fmt.Sprintf("%d of %s ended without a break and tell a lower bound only", left, count(len(kept), "deceleration")))
	}
	return out
}

// tallied lists names once each, in order, with their count where above one.
func tallied(names []string) []string {
	var out []string
	for i, name := range names {
		if slices.Contains(names[:i], name) {
			continue
		}
		n := 0
		for _, other := range names {
			if other == name {
				n++
			}
		}
		if n > 1 {
			name = fmt.Sprintf("%s (%d times)", name, n)
		}
		out = append(out, name)
	}
	return out
}

func countBroken(kept []Stall) int {
	n := 0
	for _, s := range kept {
		if s.Broke {
			n++
		}
	}
	return n
}
