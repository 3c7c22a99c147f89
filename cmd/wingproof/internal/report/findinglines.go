package report

import (
	"fmt"
	"strings"

	"wingproof/flightlog"
)

// mostRanges is how many time ranges of one and the same finding are told; more of them are counted.
const mostRanges = 4

// MergedFinding is a finding of a log with all times at which it came.
type MergedFinding struct {
	Severity string
	Channel  flightlog.Quantity // empty: the log as a whole
	When     string             // empty for a finding of the whole
	Words    string             // what, and what follows
}

// MergeFindings lists what was found in a log, in the order in which each was first found. A finding that comes again at other times
// is told once, with its time ranges in so many decimals and the unit behind each.
func MergeFindings(findings []flightlog.Finding, decimals int, unit string) []MergedFinding {
	var out []MergedFinding
	ranges := map[MergedFinding][]string{}
	for _, f := range findings {
		m := MergedFinding{Severity: string(f.Severity), Channel: f.Channel, Words: plain(f.What)}
		if f.Consequence != "" {
			m.Words += "; " + plain(f.Consequence)
		}
		if _, again := ranges[m]; !again {
			out = append(out, m)
		}
		ranges[m] = append(ranges[m], rangeWords(f.Start, f.End, decimals, unit))
	}
	for i, m := range out {
		out[i].When = rangesWords(ranges[m])
	}
	return out
}

// findingLines write what was found in a log, a line each.
func findingLines(findings []flightlog.Finding) []string {
	var lines []string
	for _, m := range MergeFindings(findings, 0, " s") {
		when := ""
		if m.When != "" {
			when = ", " + m.When
		}
		lines = append(lines, m.Severity+when+": "+m.Words)
	}
	return lines
}

// rangeWords is a stretch of the log, or an instant; empty for a finding of the whole.
func rangeWords(start, end float64, decimals int, unit string) string {
	from, to := number(start, decimals), number(end, decimals)
	switch {
	case start == 0 && end == 0:
		return ""
	case from == to:
		return from + unit
	}
	return from + "–" + to + unit
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
	words := strings.Join(shown, ", ")
	if more > 0 {
		words += fmt.Sprintf(" and %d more", more)
	}
	return words
}
