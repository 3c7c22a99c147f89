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
	rows     []Decision          // oldest first
	voidedBy []int               // by row: index of the row that makes it void, −1 none
	oddities []string
}

// readRecord works through the rows, oldest first. A void row takes an earlier row out of force, and may
// itself be made void by a later one. Settling a settled choice anew replaces the level; reopening opens it.
func readRecord(s space, rows []Decision) standing {
	st := standing{settled: map[string]Decision{}}
	rows, st.voidedBy = st.acceptable(s, rows)
	st.rows = rows
	for i, row := range rows {
		if st.voidedBy[i] >= 0 {
			continue
		}
		switch row.Event {
		case eventSettle:
			st.settled[row.Choice] = row
		case eventReopen:
			delete(st.settled, row.Choice)
		}
	}
	return st
}

// acceptable leaves out what means nothing in this program and is not void, and says of the others which are.
func (st *standing) acceptable(s space, rows []Decision) (kept []Decision, voidedBy []int) {
	for i, by := range st.voidedRows(rows) {
		if by >= 0 || rows[i].Event == eventVoid || st.accepts(s, rows[i]) {
			kept = append(kept, rows[i])
		}
	}
	return kept, (&standing{}).voidedRows(kept)
}

// voidedRows finds, from the newest row back, which rows are out of force and by which row, −1 for none.
func (st *standing) voidedRows(rows []Decision) []int {
	voided := make([]int, len(rows))
	for i := range voided {
		voided[i] = -1
	}
	for i := len(rows) - 1; i >= 0; i-- {
		if rows[i].Event != eventVoid || voided[i] >= 0 {
			continue
		}
		target, err := strconv.Atoi(strings.TrimSpace(rows[i].Choice))
		found := false
		for k := range i {
			if err == nil && rows[k].Number == target {
				voided[k], found = i, true
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

// signoff finds the newest sign-off of a name that stands for a part: given for every part, or for this one alone.
//
// A sign-off lapses when one of the choices that shape the part was reopened, or settled at another level than it had been,
// after it was given, or when a later void changes what such a choice was settled at when it was given; lapsed then names that
// later row.
func (st standing) signoff(name string, part Part, shapedBy []string) (row Decision, found bool, lapsed *Decision) {
	held, then, at := map[string]string{}, map[string]string{}, 0
	for i, d := range st.rows {
		switch {
		case st.voidedBy[i] >= 0:
		case d.Event == eventSignoff && sameName(d.Choice, name) && isFor(d, part):
			row, found, lapsed, at = d, true, nil, i
			then = levelsAfter(st.rows[:i], (&standing{}).voidedRows(st.rows[:i]))
		case d.Event == eventVoid:
			now := levelsAfter(st.rows[:at], (&standing{}).voidedRows(st.rows[:i+1]))
			for _, choice := range shapedBy {
				if found && then[choice] != now[choice] {
					lapsed = &Decision{Number: d.Number, Event: d.Event, Date: d.Date, Choice: choice, Who: d.Who, Why: d.Why}
				}
			}
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

// isFor tells whether a sign-off serves a part: its level is empty, or names the part, with or without its side.
func isFor(d Decision, part Part) bool {
	return strings.TrimSpace(d.Level) == "" || sameName(d.Level, part.Name) || sameName(d.Level, part.Name+", "+part.Side)
}

// levelsAfter is what the choices are settled at after rows of which some are void.
func levelsAfter(rows []Decision, voidedBy []int) map[string]string {
	levels := map[string]string{}
	for i, d := range rows {
		switch {
		case voidedBy[i] >= 0:
		case d.Event == eventSettle:
			levels[d.Choice] = d.Level
		case d.Event == eventReopen:
			delete(levels, d.Choice)
		}
	}
	return levels
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
