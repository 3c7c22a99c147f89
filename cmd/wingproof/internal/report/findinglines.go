package report

import (
	"fmt"
	"strings"

	"wingproof/flightlog"
)

// mostRanges is how many time ranges of one and the same finding are told; more of them are counted.
const mostRanges = 4

// findingLines write what was found in a log, in the order in which each was first found. A finding that comes again at other
// times is told once, with its time ranges.
func findingLines(findings []flightlog.Finding) []string {
	type told struct{ severity, words string }
	var order []told
	ranges := map[told][]string{}
	for _, f := range findings {
		t := told{string(f.Severity), plain(f.What)}
		if f.Consequence != "" {
			t.words += "; " + plain(f.Consequence)
		}
		if _, again := ranges[t]; !again {
			order = append(order, t)
		}
		ranges[t] = append(ranges[t], rangeWords(f.Start, f.End))
	}
	var lines []string
	for _, t := range order {
		lines = append(lines, t.severity+rangesWords(ranges[t])+": "+t.words)
	}
	return lines
}

// rangeWords is a stretch of the log, or an instant; empty for a finding of the whole.
func rangeWords(start, end float64) string {
	from, to := number(start, 0), number(end, 0)
	switch {
	case start == 0 && end == 0:
		return ""
	case from == to:
		return from + " s"
	}
	return from + "–" + to + " s"
}

func rangesWords(ranges []string) string {
	var shown []string
	more := 0
	for _, r := range ranges {
		switch {
		case r == "":
		case len(shown) == mostRanges:
			more++
		default:
			shown = append(shown, r)
		}
	}
	if len(shown) == 0 {
		return ""
	}
	words := ", " + strings.Join(shown, ", ")
	if more > 0 {
		words += fmt.Sprintf(" and %d more", more)
	}
	return words
}
