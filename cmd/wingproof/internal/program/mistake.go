package program

import (
	"fmt"
	"sort"
	"strings"
)

// Mistake is something wrong in one file of the program folder, with what would be right there.
type Mistake struct {
	File   string // relative to the program folder, with slashes
	Line   int    // from 1
	Column int    // from 1, in bytes of the line as UTF-8, not counting a byte-order mark
	Place  string // for tables: row 7, column F "cg_mm"
	What   string
	Right  string
}

// Error writes the mistake as file:line:column: what is wrong; what would be right (row and column).
func (m Mistake) Error() string {
	text := fmt.Sprintf("%s:%d:%d: %s", m.File, m.Line, m.Column, m.What)
	if m.Right != "" {
		text += "; " + m.Right
	}
	if m.Place != "" {
		text += " (" + m.Place + ")"
	}
	return text
}

// Mistakes are all the mistakes of a program folder, sorted by file, line and column.
type Mistakes []Mistake

// Error writes one mistake a line.
func (m Mistakes) Error() string {
	lines := make([]string, len(m))
	for i, mistake := range m {
		lines[i] = mistake.Error()
	}
	return strings.Join(lines, "\n")
}

// sorted orders the mistakes and drops exact repetitions.
func (m Mistakes) sorted() Mistakes {
	out := append(Mistakes(nil), m...)
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i], out[j]
		switch {
		case a.File != b.File:
			return a.File < b.File
		case a.Line != b.Line:
			return a.Line < b.Line
		}
		return a.Column < b.Column
	})
	unique := out[:0]
	for i, mistake := range out {
		if i == 0 || mistake != unique[len(unique)-1] {
			unique = append(unique, mistake)
		}
	}
	return unique
}

// spot is a place in a file: line and column from 1.
type spot struct{ line, column int }
