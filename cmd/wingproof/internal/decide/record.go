package decide

import (
	"fmt"
	"strconv"
	"strings"
)

// Events of the record of decisions.
const (
	eventSettle  = "settle"
	eventReopen  = "reopen"
	eventVoid    = "void"
	eventSignoff = "signoff"
)

// standing is what the record of decisions comes to: the settled choices, the sign-offs, and what is odd.
type standing struct {
	settled  map[string]Decision // by choice
	effect   []Decision          // rows in force, oldest first
	oddities []string
}

// readRecord works through the rows, oldest first. A void row takes an earlier row out of force, and may
// itself be made void by a later one. Settling a settled choice anew replaces the level; reopening opens it.
func readRecord(s space, rows []Decision) standing {
	st := standing{settled: map[string]Decision{}}
	voided := st.voidedRows(rows)
	for i, row := range rows {
		if voided[i] || row.Event == eventVoid {
			continue
		}
		if !st.accepts(s, row) {
			continue
		}
		st.effect = append(st.effect, row)
		switch row.Event {
		case eventSettle:
			st.settled[row.Choice] = row
		case eventReopen:
			delete(st.settled, row.Choice)
		}
	}
	return st
}

// voidedRows finds, from the newest row back, which rows are out of force.
func (st *standing) voidedRows(rows []Decision) []bool {
	voided := make([]bool, len(rows))
	for i := len(rows) - 1; i >= 0; i-- {
		if rows[i].Event != eventVoid || voided[i] {
			continue
		}
		target, err := strconv.Atoi(strings.TrimSpace(rows[i].Choice))
		found := false
		for k := range i {
			if err == nil && rows[k].Number == target {
				voided[k], found = true, true
			}
		}
		if !found {
			st.oddities = append(st.oddities, fmt.Sprintf("decision %d makes row %q void, which is no earlier row", rows[i].Number, rows[i].Choice))
		}
	}
	return voided
}

// accepts tells whether a row means something in this program, and notes it when it does not. The record
// is never rewritten, so a row about a choice that has gone is odd but no mistake.
func (st *standing) accepts(s space, row Decision) bool {
	switch row.Event {
	case eventSignoff:
		return true
	case eventSettle, eventReopen:
	default:
		st.oddities = append(st.oddities, fmt.Sprintf("decision %d has the event %q; known are settle, reopen, void and signoff", row.Number, row.Event))
		return false
	}
	choice, ok := s.choice(row.Choice)
	if !ok {
		st.oddities = append(st.oddities, fmt.Sprintf("decision %d is about %q, which is no choice of this program", row.Number, row.Choice))
		return false
	}
	if row.Event == eventSettle && !contains(choice.Levels, row.Level) {
		st.oddities = append(st.oddities, fmt.Sprintf("decision %d settles %s at %q, which is none of its sizes; the choice stays open", row.Number, row.Choice, row.Level))
		return false
	}
	return true
}

// signoff finds the newest sign-off of a name that still stands for a part shaped by the given choices.
//
// A sign-off lapses when one of those choices was reopened, or settled at another level than it had been,
// after it was given; lapsed then names that later row.
func (st standing) signoff(name string, shapedBy []string) (row Decision, found bool, lapsed *Decision) {
	held := map[string]string{}
	for _, d := range st.effect {
		switch {
		case d.Event == eventSignoff && sameName(d.Choice, name):
			row, found, lapsed = d, true, nil
		case d.Event == eventReopen:
			if found && contains(shapedBy, d.Choice) {
				lapsed = &d
			}
			delete(held, d.Choice)
		case d.Event == eventSettle:
			before, was := held[d.Choice]
			if found && was && before != d.Level && contains(shapedBy, d.Choice) {
				lapsed = &d
			}
			held[d.Choice] = d.Level
		}
	}
	return row, found, lapsed
}

// cite writes who decided, when, and under which number.
func cite(d Decision) string {
	text := fmt.Sprintf("decision %d", d.Number)
	for _, more := range []string{d.Who, d.Date} {
		if more != "" {
			text += ", " + more
		}
	}
	return text
}
