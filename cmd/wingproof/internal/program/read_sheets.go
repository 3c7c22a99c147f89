package program

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/flightlog/unit"
)

func (l *loader) readSheets(t *table) {
	l.sheetRows(t)
	var links []link
	for _, s := range l.p.Sheets {
		links = append(links, link{s.Number, s.PreviousSHA256, s.SHA256(), s.describe()})
	}
	l.p.Alarms = append(l.p.Alarms, chainAlarms(SheetsFile, links)...)
	l.p.Sheets = byNumber(l.p.Sheets, func(s Sheet) int { return s.Number })
	l.p.Alarms = append(l.p.Alarms, l.lostDecisions()...)
}

func (l *loader) sheetRows(t *table) {
	var cols []column
	for i, head := range sheetHeads() {
		m := measure{stem: head, must: true, dimension: unit.None}
		if i == 0 {
			m = number(head, 1, 1e6).required()
		}
		cols = append(cols, t.measured(m))
	}
	for _, r := range t.rows {
		n, ok := t.needNumber(r, cols[0])
		if ok && n != float64(int(n)) {
			t.wrong(r, cols[0], "number is not whole", "number the sheets 1, 2, 3")
		}
		t.need(r, cols[1], "the day of the sheet, such as 2026-03-14")
		t.need(r, cols[2], "who issued the sheet")
		s := Sheet{Number: int(n), Date: t.date(r, cols[1]), IssuedBy: r.cell(cols[2]).text, NewestFlight: r.cell(cols[3]).text,
			InputsSHA256: t.digest(r, cols[4]), DecisionsSHA256: t.digest(r, cols[5]), PreviousSHA256: t.digest(r, cols[7])}
		var wrong string
		if s.Board, wrong = parseBoardCell(r.cell(cols[6]).text); wrong != "" {
			t.wrong(r, cols[6], quoted(wrong)+" is no row of a board", "leave this cell as report --issue wrote it: part/side/stage/action; …")
		}
		l.p.Sheets = append(l.p.Sheets, s)
	}
}

// lostDecisions finds sheets that rested on a decision which the record does not hold any more. The chain of decisions by
// itself cannot see that its newest rows were cut off or changed; the sheets issued since can.
func (l *loader) lostDecisions() []string {
	var digests []string
	for _, d := range l.p.Decisions {
		digests = append(digests, d.SHA256())
	}
	for _, s := range l.p.Sheets {
		if s.DecisionsSHA256 != "" && !slices.Contains(digests, strings.ToLower(s.DecisionsSHA256)) {
			last := "which holds no row"
			if n := len(l.p.Decisions); n > 0 {
				last = "which ends with row " + describe(l.p.Decisions[n-1])
			}
			return []string{fmt.Sprintf("decisions.csv, %s: the decision that sheet %s rested on is not in it any more. It was changed or cut off since; ask who signed, and restore the table from a copy", last, s.describe())}
		}
	}
	return nil
}
