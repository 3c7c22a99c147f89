package main

import (
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// sameName compares names as the tables do: capitals and the number of blanks do not matter.
func sameName(a, b string) bool {
	plain := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	return strings.EqualFold(plain(a), plain(b))
}

func choiceNamed(choices []decide.ChoiceVerdict, name string) (decide.ChoiceVerdict, error) {
	var names []string
	for _, c := range choices {
		if sameName(c.Choice, name) {
			return c, nil
		}
		names = append(names, c.Choice)
	}
	return decide.ChoiceVerdict{}, usagef("settle: no choice %q in program.toml; it has %s", name, strings.Join(names, ", "))
}

func levelNamed(levels []decide.LevelVerdict, choice, name string) (decide.LevelVerdict, error) {
	var names []string
	for _, l := range levels {
		if l.Choice != choice {
			continue
		}
		if sameName(l.Level, name) {
			return l, nil
		}
		names = append(names, l.Level)
	}
	return decide.LevelVerdict{}, usagef("settle: choice %q has no level %q; it has %s", choice, name, strings.Join(names, ", "))
}
