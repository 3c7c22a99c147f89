package flightlog

import (
	"errors"
	"strconv"
	"strings"
)

// Mistake is one thing that keeps a log from being read: where it stands, what is wrong, and what would
// be right. Line and Column count from 1, columns in bytes of the decoded line; 0 means that the mistake
// has no such place.
type Mistake struct {
	File         string
	Line, Column int
	What, Right  string
}

// Error is "file:line:column: what is wrong; what would be right".
func (m *Mistake) Error() string {
	var b strings.Builder
	b.WriteString(m.File)
	if m.Line > 0 {
		b.WriteString(":" + strconv.Itoa(m.Line))
		if m.Column > 0 {
			b.WriteString(":" + strconv.Itoa(m.Column))
		}
	}
	b.WriteString(": " + m.What)
	if m.Right != "" {
		b.WriteString("; " + m.Right)
	}
	return b.String()
}

// Mistakes lists the mistakes inside an error of Read, ReadFile or Sniff, in the order of the file. It is nil when the
// error holds none, as when a disk fails.
func Mistakes(err error) []*Mistake {
	var one *Mistake
	var many interface{ Unwrap() []error }
	switch {
	case errors.As(err, &many):
		var all []*Mistake
		for _, e := range many.Unwrap() {
			all = append(all, Mistakes(e)...)
		}
		return all
	case errors.As(err, &one):
		return []*Mistake{one}
	}
	return nil
}
