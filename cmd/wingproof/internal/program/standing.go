package program

import (
	"os"
	"slices"
	"strconv"
	"strings"
)

// Entry is one row of the record with what became of it.
type Entry struct {
	Decision
	InForce  bool  // a settle that still decides its choice, or a sign-off that is not void
	VoidedBy int   // number of the row that made this one void; 0: none
	EndedBy  int   // number of the later row that reopened or replaced a settle, or gave a sign-off anew; 0: none
	Lapsed   []Row // of a sign-off: the first later change of each choice; parts that it shapes wait for a new one
}

// Row names a later row and the choice that it is about.
type Row struct {
	Number int    `json:"number"`
	Choice string `json:"choice"`
}

// Record works through the rows, oldest first, and says what became of each.
//
// A settle decides its choice until a later row reopens it or settles it anew. A void takes the row whose number it names back,
// as if that one had never been written: a void settle no longer decides, a void reopen leaves the choice settled as before, a
// void sign-off is wanted again, and a void row that is void itself puts the row that it named back into force. A sign-off lapses, for
// parts that a choice shapes, when that choice is reopened or settled at another level later, or when a later void changes what
// the choice was settled at when it was signed off.
func Record(rows []Decision) []Entry {
	out := make([]Entry, len(rows))
	voided := voids(rows)
	holder := map[string]int{} // by choice: index of the settle that decides it; by sign-off and part: the newest
	for i, d := range rows {
		out[i] = Entry{Decision: d, VoidedBy: voided[i]}
		if voided[i] != 0 {
			continue
		}
		switch key := folded(d.Choice); d.Event {
		case "settle", "reopen":
			if k, held := holder[key]; held {
				out[k].EndedBy, out[k].InForce = d.Number, false
			}
			delete(holder, key)
			if d.Event == "settle" {
				holder[key], out[i].InForce = i, true
			}
		case "signoff":
			key = "signoff " + key + " " + folded(d.Level)
			if k, given := holder[key]; given {
				out[k].EndedBy, out[k].InForce, out[k].Lapsed = d.Number, false, nil
			}
			holder[key] = i
			out[i].InForce, out[i].Lapsed = true, lapses(rows, voided, i)
		}
	}
	return out
}

// voids gives each row the number of the row that makes it void, from the newest back: a void row that is void itself does nothing.
func voids(rows []Decision) []int {
	voided := make([]int, len(rows))
	for i := len(rows) - 1; i >= 0; i-- {
		if rows[i].Event != "void" || voided[i] != 0 {
			continue
		}
		target, err := strconv.Atoi(strings.TrimSpace(rows[i].Choice))
		for k := range i {
			if err == nil && rows[k].Number == target {
				voided[k] = rows[i].Number
			}
		}
	}
	return voided
}

// levelsAt is what the choices are settled at, by folded name, after rows of which some are void.
func levelsAt(rows []Decision, voided []int) map[string]string {
	levels := map[string]string{}
	for i, d := range rows {
		switch {
		case voided[i] != 0:
		case d.Event == "settle":
			levels[folded(d.Choice)] = folded(d.Level)
		case d.Event == "reopen":
			delete(levels, folded(d.Choice))
		}
	}
	return levels
}

// lapses lists, for each choice, the first row behind a sign-off that changed it.
func lapses(rows []Decision, voided []int, at int) []Row {
	var out []Row
	lapse := func(by Decision, choice string) {
		if !slices.ContainsFunc(out, func(r Row) bool { return folded(r.Choice) == folded(choice) }) {
			out = append(out, Row{by.Number, choice})
		}
	}
	then, held := levelsAt(rows[:at], voids(rows[:at])), levelsAt(rows[:at], voided)
	choices := choicesOf(rows[:at])
	for i := at + 1; i < len(rows); i++ {
		d, key := rows[i], folded(rows[i].Choice)
		switch {
		case voided[i] != 0:
		case d.Event == "void":
			now := levelsAt(rows[:at], voids(rows[:i+1])[:at])
			for _, choice := range choices {
				if then[folded(choice)] != now[folded(choice)] {
					lapse(d, choice)
				}
			}
		case d.Event == "reopen":
			lapse(d, d.Choice)
			delete(held, key)
		case d.Event == "settle":
			if before, was := held[key]; was && before != folded(d.Level) {
				lapse(d, d.Choice)
			}
			held[key] = folded(d.Level)
		}
	}
	return out
}

// choicesOf lists the choices that rows settle or reopen, each once.
func choicesOf(rows []Decision) []string {
	var out []string
	for _, d := range rows {
		if (d.Event == "settle" || d.Event == "reopen") && !slices.ContainsFunc(out, func(have string) bool { return folded(have) == folded(d.Choice) }) {
			out = append(out, d.Choice)
		}
	}
	return out
}

// settledAt is the row that decides a choice; nil while it is open.
func settledAt(record []Entry, choice string) *Entry {
	for i := range record {
		if e := &record[i]; e.InForce && e.Event == "settle" && folded(e.Choice) == folded(choice) {
			return e
		}
	}
	return nil
}

// LastDigest is the digest of the newest row of the record, empty when there is none.
func LastDigest(rows []Decision) string {
	if len(rows) == 0 {
		return ""
	}
	return rows[len(rows)-1].SHA256()
}

// LoadToVoid loads the folder as if row number n of decisions.csv were void already. A row that names a choice or level which
// the program has no more is a mistake that stops every other command; this is the way to make it void.
func LoadToVoid(dir string, n int) (*Program, error) {
	l := newLoader(os.DirFS(dir), dir)
	l.voiding = n
	return l.loaded()
}
