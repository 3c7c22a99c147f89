package report

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// said is a warning with the quantities that it concerns.
type said struct {
	words    string
	concerns []string
}

// warningLines tells each warning of one configuration once, with what it concerns. Warnings that differ in flight and size only become one
// sentence that names every flight; a warning of no known form stands as it is.
func warningLines(estimates []evidence.Estimate) []string {
	var all []said
	for _, e := range estimates {
		for _, warning := range e.Warnings {
			line := plain(warning)
			i := slices.IndexFunc(all, func(s said) bool { return s.words == line })
			if i < 0 {
				i = len(all)
				all = append(all, said{words: line})
			}
			if words := fitWords(e.Quantity); !slices.Contains(all[i].concerns, words) {
				all[i].concerns = append(all[i].concerns, words)
			}
		}
	}
	return gathered(withoutEchoes(all), repeatedForms())
}

var (
	leftOut   = regexp.MustCompile(`^left out of (.+?): flights? .+?: (.+)$`)
	undecided = regexp.MustCompile(`^no flight determines (.+?): (.+)$`)
)

// withoutEchoes drops what was left out of a number for the very reason for which no flight determines it.
func withoutEchoes(all []said) []said {
	echoes := func(s said) bool {
		left := leftOut.FindStringSubmatch(s.words)
		return left != nil && slices.ContainsFunc(all, func(other said) bool {
			none := undecided.FindStringSubmatch(other.words)
			return none != nil && none[1] == left[1] && strings.HasPrefix(none[2], left[2])
		})
	}
	return slices.DeleteFunc(slices.Clone(all), echoes)
}

// repeatedForm is a sentence that the fits say flight by flight, or pair by pair.
type repeatedForm struct {
	pattern  *regexp.Regexp
	key      func(m []string) string                      // sentences of one key are told together
	anything bool                                         // whatever they concern
	say      func(concerns string, all [][]string) string // the sentence for all matches
}

// gathered replaces the sentences of one form and key by one, at the place of the first.
func gathered(all []said, forms []repeatedForm) []string {
	var out []string
	told := map[string]bool{}
	for i, s := range all {
		form, match := formOf(s.words, forms)
		concerns := shortList(s.concerns)
		if form < 0 {
			out = append(out, concerns+": "+trueMinus(s.words))
			continue
		}
		f := forms[form]
		id := func(m []string, concerns string) string {
			if f.anything {
				concerns = ""
			}
			return fmt.Sprint(form, "\n", f.key(m), "\n", concerns)
		}
		if told[id(match, concerns)] {
			continue
		}
		told[id(match, concerns)] = true
		var these [][]string
		for _, other := range all[i:] {
			if k, m := formOf(other.words, forms); k == form && id(m, shortList(other.concerns)) == id(match, concerns) {
				these = append(these, m)
			}
		}
		out = append(out, f.say(concerns, these))
	}
	return out
}

func formOf(words string, forms []repeatedForm) (int, []string) {
	for i, f := range forms {
		if m := f.pattern.FindStringSubmatch(words); m != nil {
			return i, m
		}
	}
	return -1, nil
}

// repeatedForms are the sentences that package estimate says flight by flight.
func repeatedForms() []repeatedForm {
	none := func([]string) string { return "" }
	return []repeatedForm{
		{pattern: regexp.MustCompile(`^flight (.+?): the point at (.+?) lies (.+?) robust standard deviations off in (.+?) and counts (\d+) %$`),
			key: func(m []string) string { return m[4] }, say: farPoints},
		{pattern: regexp.MustCompile(`^flight (.+?) lies (.+?) standard deviations from (the others|what the other flights say) and counts (\d+) %(.*)$`),
			key: func(m []string) string { return m[3] + m[5] }, say: farFlights},
		{pattern: regexp.MustCompile(`^flight (.+?) reached CL (.+?) without a break, above the interval: (.+)$`),
			key: func(m []string) string { return m[3] }, say: unbroken},
		{pattern: regexp.MustCompile(`^left out of .+?: flights? (.+?): (.+?): .+? comes out as (.+?); (fly .+)$`),
			key: func(m []string) string { return m[2] + m[4] }, say: tooSmall},
		{pattern: undecided, key: func(m []string) string { return m[2] }, anything: true, say: noneDetermines},
		{pattern: regexp.MustCompile(`^the input of flights? (.+?) hardly tells (.+?) from (.+?) \((correlation over .+?)\): (.+)$`),
			key: none, anything: true, say: alikePairs},
		{pattern: regexp.MustCompile(`^the 95 % interval reaches (.+?) to either side$`), key: none, anything: false, say: wideInterval},
	}
}

// farPoints names every point that lies off, flight by flight.
func farPoints(concerns string, all [][]string) string {
	var items []string
	for _, m := range all {
		items = append(items, fmt.Sprintf("%s at %s (%s standard deviations off, counts %s %%)", m[1], trueMinus(m[2]), m[3], m[5]))
	}
	return fmt.Sprintf("%s: points that lie off in %s beside the rest of their flight count less: %s", concerns, all[0][4], strings.Join(items, "; "))
}

func farFlights(concerns string, all [][]string) string {
	var items []string
	for _, m := range all {
		items = append(items, fmt.Sprintf("%s (%s standard deviations off, counts %s %%)", m[1], m[2], m[4]))
	}
	return fmt.Sprintf("%s: flights that lie off from %s count less: %s%s", concerns, all[0][3], strings.Join(items, "; "), all[0][5])
}

func unbroken(concerns string, all [][]string) string {
	var items []string
	for _, m := range all {
		items = append(items, fmt.Sprintf("%s (CL %s)", m[1], m[2]))
	}
	return fmt.Sprintf("%s: above the interval, without a break, came %s: %s", concerns, withAnd(items), all[0][3])
}

func tooSmall(concerns string, all [][]string) string {
	var items []string
	for _, m := range all {
		items = append(items, fmt.Sprintf("%s (%s)", m[1], trueMinus(m[3])))
	}
	return fmt.Sprintf("%s: not used from %s: %s; %s", concerns, withAnd(items), all[0][2], all[0][4])
}

// noneDetermines names all numbers that want the same.
func noneDetermines(_ string, all [][]string) string {
	var names []string
	for _, m := range all {
		names = append(names, m[1])
	}
	return fmt.Sprintf("no flight determines %s: %s", withAnd(names), all[0][2])
}

// alikePairs tells each pair once, whichever of the two it was said of.
func alikePairs(_ string, all [][]string) string {
	var items, seen []string
	for _, m := range all {
		pair := []string{m[2], m[3]}
		slices.Sort(pair)
		id := strings.Join(pair, " and ")
		if slices.Contains(seen, id) {
			continue
		}
		seen = append(seen, id)
		items = append(items, fmt.Sprintf("%s and %s (%s)", m[2], m[3], strings.ReplaceAll(m[1], " and ", ", ")))
	}
	return fmt.Sprintf("the inputs hardly tell apart (%s) %s: %s", all[0][4], strings.Join(items, "; "), all[0][5])
}

func wideInterval(concerns string, all [][]string) string {
	return fmt.Sprintf("%s: weak, since the 95 %% interval reaches %s to either side", concerns, all[0][1])
}

var hyphenated = regexp.MustCompile(`(^|\s)-(\d)`)

// trueMinus writes the minus of numbers in a sentence as one.
func trueMinus(s string) string { return hyphenated.ReplaceAllString(s, "$1−$2") }

// withAnd lists names with "and" before the last.
func withAnd(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// shortList names three things at most.
func shortList(names []string) string {
	const most = 3
	if len(names) <= most {
		return strings.Join(names, "; ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], "; "), len(names)-most)
}
