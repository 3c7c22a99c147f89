package program

import (
	"strconv"
	"strings"
	"time"
)

// Issue appends one row to sheets.csv and returns it as written. Number, DecisionsSHA256 and PreviousSHA256 are set from the
// tables, InputsSHA256 from the basis; Date (ISO), IssuedBy and Board must be stated.
//
// It refuses as SettleOn does; with *Refused also a sheet that is dated before the one that hangs.
func Issue(dir string, s Sheet, on Basis) (Sheet, error) {
	s.IssuedBy = strings.Join(strings.Fields(s.IssuedBy), " ")
	if s.IssuedBy == "" {
		return Sheet{}, refusef("a sheet needs to say who issues it")
	}
	if err := keepsInASpreadsheet("the name of who issues the sheet", s.IssuedBy); err != nil {
		return Sheet{}, err
	}
	if _, err := time.Parse(time.DateOnly, s.Date); err != nil {
		return Sheet{}, refusef("the date %s of the sheet is not one; write it as 2026-03-14", quoted(s.Date))
	}
	list := on.Inputs
	cells := func(l *loader) (row map[string]string, err error) {
		l.p.Sheets = byNumber(l.p.Sheets, func(x Sheet) int { return x.Number })
		if list, err = on.still(dir, l); err != nil {
			return nil, err
		}
		s.Number, s.PreviousSHA256 = 1, LastSheetDigest(l.p.Sheets)
		s.InputsSHA256, s.DecisionsSHA256 = list.Fingerprint(), LastDigest(l.p.Decisions)
		if n := len(l.p.Sheets); n > 0 {
			last := l.p.Sheets[n-1]
			s.Number = last.Number + 1
			if s.Date < last.Date {
				return nil, refusef("sheet %d is of %s; a newer sheet cannot be dated %s: leave --date out, or write %s or later", last.Number, last.Date, s.Date, last.Date)
			}
		}
		return map[string]string{"number": strconv.Itoa(s.Number), "date": s.Date, "issued_by": s.IssuedBy, "newest_flight": s.NewestFlight,
			"inputs_sha256": s.InputsSHA256, "decisions_sha256": s.DecisionsSHA256, "board": boardCell(s.Board), "previous_sha256": s.PreviousSHA256}, nil
	}
	g := ledger{SheetsFile, sheetHeads(), func(l *loader, t *table) {
		l.p.Sheets = nil
		l.sheetRows(t)
	}}
	if err := g.add(dir, cells, func() error { return list.save(dir) }); err != nil {
		return Sheet{}, err
	}
	return s, nil
}
