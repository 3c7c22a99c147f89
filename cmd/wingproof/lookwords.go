package main

import (
	"fmt"
	"strings"

	"wingproof/flightlog"
)

// lossWords is one loss as a clause: when, what, and what follows, without what the findings above explain further.
func lossWords(f flightlog.Finding, air airborne) string {
	when := fmt.Sprintf("from %.0f to %.0f s ", f.Start, f.End)
	switch {
	case f.Start == 0 && f.End == 0, f.Start <= air.start && f.End >= air.end:
		when = ""
	case f.End-f.Start < 0.1:
		when = fmt.Sprintf("at %.0f s ", f.Start)
	}
	return fmt.Sprintf("%s%s (%s)", when, firstClause(f.What), firstClause(f.Consequence))
}

// firstClause is a text up to its first semicolon or colon, without what stands in brackets.
func firstClause(text string) string {
	for {
		open := strings.Index(text, " (")
		if open < 0 {
			break
		}
		length := strings.Index(text[open:], ")")
		if length < 0 {
			break
		}
		text = text[:open] + text[open+length+1:]
	}
	text, _, _ = strings.Cut(text, "; ")
	text, _, _ = strings.Cut(text, ": ")
	return text
}

// lastClauses is what to do: a text behind its first semicolon, which ends what follows; the whole where there is none.
func lastClauses(text string) string {
	if _, do, more := strings.Cut(text, "; "); more {
		return do
	}
	return text
}

// firstReason is the first of several reasons.
func firstReason(text string) string {
	first, rest, more := strings.Cut(text, "; ")
	if more && rest != "" {
		return first + " …"
	}
	return first
}

func joinClauses(clauses []string) string {
	told := clauses[:min(clausesTold, len(clauses))]
	text := strings.Join(told, "; and ")
	if more := len(clauses) - len(told); more > 0 {
		text += fmt.Sprintf("; and %d more above", more)
	}
	return text
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
