package program

import (
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// Basis is what a row was judged on before it is written.
type Basis struct {
	Inputs    Inputs  // the evidence; nil: as the folder is now, not compared
	Decisions *string // LastDigest of the record; nil: not compared
	Sheets    *string // digest of the newest sheet; nil: not compared
}

// Overtaken says that a row was written while another was judged, so that the judgement may not stand any more.
type Overtaken struct {
	What  string // the row that was written, or the file that changed
	ByRow bool   // it was a row: judged anew, the other may still be written
}

// Error says what came between and what to do.
func (e *Overtaken) Error() string {
	return e.What + " while the evidence was judged; nothing was recorded, repeat"
}

// Settle appends one row to decisions.csv and returns it as written; see SettleOn.
func Settle(dir string, d Decision) (Decision, error) { return SettleOn(dir, d, Basis{}) }

// SettleOn appends one row to decisions.csv and returns it as written. Number and PreviousSHA256 are set
// from the table, InputsSHA256 from the basis where it is empty; Event, Date (ISO), Who, Why and what the
// event names must be stated. A sign-off whose Level names a part is for that part alone.
//
// It refuses, with *InUse, when another wingproof holds the folder, when a spreadsheet has the table open, or when the table changed
// meanwhile; with *Overtaken when the folder is not the one that was judged any more; with Mistakes when the table cannot be read; with
// *Refused when the row says too little, the folder does not know what it names, or it does not fit the rows before it: a choice that is
// settled cannot be settled again, nor an open one reopened, nor a void row made void.
func SettleOn(dir string, d Decision, on Basis) (Decision, error) {
	if err := d.check(); err != nil {
		return Decision{}, err
	}
	list := on.Inputs
	cells := func(l *loader) (row map[string]string, err error) {
		l.p.Decisions = byNumber(l.p.Decisions, func(x Decision) int { return x.Number })
		if list, err = on.still(dir, l); err != nil {
			return nil, err
		}
		if d.InputsSHA256 == "" {
			d.InputsSHA256 = list.Fingerprint()
		}
		if d, err = l.chained(d); err != nil {
			return nil, err
		}
		return map[string]string{"number": strconv.Itoa(d.Number), "event": d.Event, "date": d.Date, "choice": d.Choice, "level": d.Level,
			"who": d.Who, "why": d.Why, "inputs_sha256": d.InputsSHA256, "previous_sha256": d.PreviousSHA256}, nil
	}
	g := ledger{DecisionsFile, decisionHeads(), func(l *loader, t *table) {
		l.p.Decisions = nil
		l.decisionRows(t)
	}}
	if err := g.add(dir, cells, func() error { return list.save(dir) }); err != nil {
		return Decision{}, err
	}
	return d, nil
}

// still returns the inputs of the folder, or *Overtaken when it is not what was judged any more.
func (on Basis) still(dir string, l *loader) (Inputs, error) {
	now, err := ReadInputs(dir)
	if err != nil {
		return nil, err
	}
	if on.Inputs != nil {
		c := now.Since(on.Inputs)
		for _, names := range [][]string{c.Changed, c.Added, c.Gone} {
			if len(names) > 0 {
				return nil, &Overtaken{names[0] + " changed", false}
			}
		}
	}
	if n := len(l.p.Decisions); on.Decisions != nil && *on.Decisions != LastDigest(l.p.Decisions) {
		if n == 0 {
			return nil, &Overtaken{DecisionsFile + " changed", true}
		}
		return nil, &Overtaken{fmt.Sprintf("%s: row %s was recorded", DecisionsFile, describe(l.p.Decisions[n-1])), true}
	}
	if n := len(l.p.Sheets); on.Sheets != nil && *on.Sheets != LastSheetDigest(l.p.Sheets) {
		if n == 0 {
			return nil, &Overtaken{SheetsFile + " changed", true}
		}
		return nil, &Overtaken{fmt.Sprintf("sheet %s was issued", l.p.Sheets[n-1].describe()), true}
	}
	return now, nil
}

// Refused is a row that cannot be written as it is: bad input.
type Refused struct{ Why string }

// Error says what is wrong and what would be right.
func (e *Refused) Error() string { return e.Why }

func refusef(format string, parts ...any) error { return &Refused{fmt.Sprintf(format, parts...)} }

// check reports a row that says too little.
func (d Decision) check() error {
	if _, ok := known(d.Event, decisionEvents()); !ok {
		return refusef("the event %s is not known; write %s", quoted(d.Event), oneOf(decisionEvents()))
	}
	if _, err := time.Parse(time.DateOnly, d.Date); err != nil {
		return refusef("the date %s of the decision is not one; write it as 2026-03-14", quoted(d.Date))
	}
	for _, part := range []struct{ name, text string }{{"who decided", d.Who}, {"why", d.Why}, {"what is decided", d.Choice}} {
		if strings.TrimSpace(part.text) == "" {
			return refusef("a decision needs to say %s", part.name)
		}
	}
	for _, part := range []struct{ name, text string }{{"who", d.Who}, {"why", d.Why}} {
		if err := keepsInASpreadsheet(part.name, part.text); err != nil {
			return err
		}
	}
	return nil
}

// keepsInASpreadsheet refuses words that a spreadsheet would turn into something else when it saves the table, which would look as
// if somebody had changed the row: formulas, and what it takes for a number or a date.
func keepsInASpreadsheet(name, text string) error {
	text = strings.TrimSpace(text)
	if strings.ContainsRune("=+-−@'", []rune(text)[0]) {
		return refusef("%s begins with %q, which a spreadsheet takes for a formula; begin with a word", name, string([]rune(text)[0]))
	}
	if !strings.ContainsFunc(text, unicode.IsLetter) {
		return refusef("%s is %s, which a spreadsheet takes for a number or a date; write a word or initials", name, quoted(text))
	}
	return nil
}

// chained gives the row its number and the digest of the row before it, and checks what it names against the folder and against
// the rows before it.
func (l *loader) chained(d Decision) (Decision, error) {
	line := func(text string) string { return strings.Join(strings.Fields(text), " ") }
	d.Event, _ = known(d.Event, decisionEvents())
	d.Choice, d.Level, d.Who, d.Why = line(d.Choice), line(d.Level), line(d.Who), line(d.Why)
	d.Number, d.PreviousSHA256 = 1, LastDigest(l.p.Decisions)
	if n := len(l.p.Decisions); n > 0 {
		d.Number = l.p.Decisions[n-1].Number + 1
	}
	record := Record(l.p.Decisions)
	switch d.Event {
	case "signoff":
		return d, nil
	case "void":
		return d, voidable(record, d)
	}
	name, ok := known(d.Choice, l.choiceNames())
	if !ok {
		return d, refusef("there is no choice %s; %s", quoted(d.Choice), suggest(d.Choice, l.choiceNames(), "choice"))
	}
	level, ok := known(d.Level, l.choice(name).levelNames())
	if !ok && (d.Event == "settle" || d.Level != "") {
		return d, refusef("choice %s has no level %s; %s", name, quoted(d.Level), suggest(d.Level, l.choice(name).levelNames(), "level"))
	}
	d.Choice, d.Level = name, level
	switch now := settledAt(record, name); {
	case d.Event == "settle" && now != nil:
		return d, refusef("%s is settled on %s already (row %d, %s, %s); reopen it first", name, now.Level, now.Number, now.Who, now.Date)
	case d.Event == "reopen" && now == nil:
		return d, refusef("%s is not settled, so there is nothing to reopen", name)
	}
	return d, nil
}

// voidable refuses to make a row void that is not there or is void already.
func voidable(record []Entry, d Decision) error {
	n, err := strconv.Atoi(d.Choice)
	if err != nil || n < 1 || n >= d.Number {
		if d.Number == 1 {
			return refusef("there is no row number %s to void: nothing is recorded yet", quoted(d.Choice))
		}
		return refusef("there is no row number %s to void; write the number of a row of %s, 1 to %d", quoted(d.Choice), DecisionsFile, d.Number-1)
	}
	for _, e := range record {
		if e.Number != n {
			continue
		}
		if e.VoidedBy != 0 {
			return refusef("row %d is void already, by row %d; to put it back into force, void row %d", n, e.VoidedBy, e.VoidedBy)
		}
		return nil
	}
	return refusef("there is no row number %d to void in %s: it is missing", n, DecisionsFile)
}
