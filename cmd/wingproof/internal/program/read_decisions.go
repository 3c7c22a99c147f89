package program

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"

	"wingproof/flightlog/unit"
)

// decisionHeads lists the columns of decisions.csv in the order in which the program writes them.
func decisionHeads() []string {
	return []string{"number", "event", "date", "choice", "level", "who", "why", "inputs_sha256", "previous_sha256"}
}

func decisionEvents() []string { return []string{"settle", "reopen", "void", "signoff"} }

// Canonical is the text of the row that the next row's previous_sha256 is taken over: the nine cells in
// the order number, event, date, choice, level, who, why, inputs_sha256, previous_sha256, each on a line of its
// own ended by a line feed, in UTF-8. The date is ISO; white space at the ends of a cell is dropped and
// inside is one space each; hexadecimal digits are lower case. So saving the table from a spreadsheet, in
// another dialect or with another style of dates, does not break the chain.
func (d Decision) Canonical() string { return canonical(d.cells()) }

func (d Decision) cells() []string {
	return []string{strconv.Itoa(d.Number), d.Event, d.Date, d.Choice, d.Level, d.Who, d.Why, strings.ToLower(d.InputsSHA256), strings.ToLower(d.PreviousSHA256)}
}

// SHA256 is the digest of the canonical text, as the next row writes it into previous_sha256.
func (d Decision) SHA256() string { return digestOfCells(d.cells()) }

func (l *loader) readDecisions(t *table) {
	rows := l.decisionRows(t)
	l.p.Alarms = append(l.p.Alarms, decisionAlarms(l.p.Decisions)...)
	order := byNumber(rows, func(r decisionRow) int { return r.is.Number })
	l.p.Decisions = byNumber(l.p.Decisions, func(d Decision) int { return d.Number })
	voided := voids(l.p.Decisions)
	for i, d := range l.p.Decisions {
		if voided[i] == 0 && d.Number != l.voiding {
			l.checkDecision(t, order[i], d)
		}
	}
}

// decisionRow is one row with its columns, for messages.
type decisionRow struct {
	row
	is                    Decision
	number, choice, level column
}

func (l *loader) decisionRows(t *table) []decisionRow {
	var cols []column
	for i, head := range decisionHeads() {
		m := measure{stem: head, must: head != "why", dimension: unit.None}
		if i == 0 {
			m = number(head, 1, 1e6).required()
		}
		cols = append(cols, t.measured(m))
	}
	var rows []decisionRow
	for _, r := range t.rows {
		n, ok := t.needNumber(r, cols[0])
		if ok && n != float64(int(n)) {
			t.wrong(r, cols[0], "number is not whole", "number the decisions 1, 2, 3")
		}
		t.need(r, cols[1], oneOf(decisionEvents()))
		t.need(r, cols[2], "the day of the decision, such as 2026-03-14")
		t.need(r, cols[5], "who decided")
		d := Decision{Number: int(n), Event: t.named(r, cols[1], decisionEvents(), "event"), Date: t.date(r, cols[2]), Choice: r.cell(cols[3]).text,
			Level: r.cell(cols[4]).text, Who: r.cell(cols[5]).text, Why: r.cell(cols[6]).text, InputsSHA256: t.digest(r, cols[7]), PreviousSHA256: t.digest(r, cols[8])}
		l.p.Decisions = append(l.p.Decisions, d)
		rows = append(rows, decisionRow{r, d, cols[0], cols[3], cols[4]})
	}
	return rows
}

// digest reads a cell that holds 64 hexadecimal digits or nothing.
func (t *table) digest(r row, c column) string {
	text := strings.ToLower(r.cell(c).text)
	if text == "" {
		return ""
	}
	if _, err := hex.DecodeString(text); err != nil || len(text) != 2*sha256.Size {
		t.wrong(r, c, quoted(text)+" is no SHA-256 digest", "leave this cell as settle wrote it: 64 digits from 0 to 9 and a to f")
	}
	return text
}

// checkDecision reports a row that names what the program does not know.
func (l *loader) checkDecision(t *table, r decisionRow, d Decision) {
	back := fmt.Sprintf("; put it back into program.toml, or void row number %d: wingproof settle --void %d --who NAME --why REASON", d.Number, d.Number)
	switch d.Event {
	case "settle", "reopen":
		name, ok := known(d.Choice, l.choiceNames())
		if !ok {
			t.wrong(r.row, r.choice, "there is no choice "+quoted(d.Choice), suggest(d.Choice, l.choiceNames(), "choice")+back)
			return
		}
		levels := l.choice(name).levelNames()
		if _, ok := known(d.Level, levels); !ok && (d.Event == "settle" || d.Level != "") {
			t.wrong(r.row, r.level, fmt.Sprintf("choice %s has no level %s", name, quoted(d.Level)), suggest(d.Level, levels, "level")+back)
		}
	case "void":
		n, err := strconv.Atoi(d.Choice)
		if err != nil || n < 1 || n >= d.Number {
			t.wrong(r.row, r.choice, "void names "+quoted(d.Choice)+", which is no earlier row", "write the number of the row that is void")
		}
	case "signoff":
		if d.Choice == "" {
			t.wrong(r.row, r.choice, "the signoff does not say of what", "write the name behind signoff: in must_pass")
		}
	}
}

func decisionAlarms(all []Decision) []string {
	var links []link
	for _, d := range all {
		links = append(links, link{d.Number, d.PreviousSHA256, d.SHA256(), describe(d)})
	}
	return chainAlarms(DecisionsFile, links)
}

func describe(d Decision) string {
	return fmt.Sprintf("%d (%s)", d.Number, strings.Join(nonEmpty(d.Date, d.Event, d.Choice, d.Level, "by "+d.Who, quoted(d.Why)), " "))
}

func nonEmpty(words ...string) []string {
	var out []string
	for _, w := range words {
		if w != "" && w != `""` && w != "by " {
			out = append(out, w)
		}
	}
	return out
}
