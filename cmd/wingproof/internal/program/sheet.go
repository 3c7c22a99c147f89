package program

import (
	"fmt"
	"strconv"
	"strings"
)

// Sheet is one row of sheets.csv: a board that was issued to the wall.
type Sheet struct {
	Number          int
	Date            string // ISO
	IssuedBy        string
	NewestFlight    string // the newest flight that counted, in words such as "flight F14 of 2026-04-02"; empty: none
	InputsSHA256    string // fingerprint of the evidence
	DecisionsSHA256 string // digest of the newest decision then; empty: none
	Board           []SheetRow
	PreviousSHA256  string
}

// SheetRow is what a sheet said of one part.
type SheetRow struct {
	Part, Side, Stage, Action string
}

// cells are what the digest of a sheet is taken over, in the order in which the program writes them.
func (s Sheet) cells() []string {
	return []string{strconv.Itoa(s.Number), s.Date, s.IssuedBy, s.NewestFlight, strings.ToLower(s.InputsSHA256), strings.ToLower(s.DecisionsSHA256), boardCell(s.Board),
		strings.ToLower(s.PreviousSHA256)}
}

func sheetHeads() []string {
	return []string{"number", "date", "issued_by", "newest_flight", "inputs_sha256", "decisions_sha256", "board", "previous_sha256"}
}

// SHA256 is the digest that the next sheet writes into previous_sha256. Like that of a decision it is over meanings: another
// dialect of the table, another style of dates and other white space do not change it.
func (s Sheet) SHA256() string { return digestOfCells(s.cells()) }

// describe names a sheet for messages.
func (s Sheet) describe() string {
	return fmt.Sprintf("%d (%s)", s.Number, strings.Join(nonEmpty(s.Date, "issued by "+s.IssuedBy, s.NewestFlight), ", "))
}

// LastSheetDigest is the digest of the newest sheet, empty when none was issued.
func LastSheetDigest(sheets []Sheet) string {
	if len(sheets) == 0 {
		return ""
	}
	return sheets[len(sheets)-1].SHA256()
}

// boardCell writes rows as "part/side/stage/action; …". A backslash stands before a slash, a semicolon or a backslash of a name.
func boardCell(rows []SheetRow) string {
	guard := strings.NewReplacer(`\`, `\\`, "/", `\/`, ";", `\;`)
	plain := func(s string) string { return guard.Replace(strings.Join(strings.Fields(s), " ")) }
	var out []string
	for _, r := range rows {
		out = append(out, strings.Join([]string{plain(r.Part), plain(r.Side), plain(r.Stage), plain(r.Action)}, "/"))
	}
	return strings.Join(out, "; ")
}

// parseBoardCell reads what boardCell wrote; wrong is the first entry that is not of its form.
func parseBoardCell(text string) (rows []SheetRow, wrong string) {
	if strings.TrimSpace(text) == "" {
		return nil, ""
	}
	for _, entry := range splitGuarded(text, ';') {
		cells := splitGuarded(entry, '/')
		for i := range cells {
			cells[i] = unguarded(strings.TrimSpace(cells[i]))
		}
		if len(cells) != 4 || cells[0] == "" || cells[3] == "" {
			return nil, strings.TrimSpace(entry)
		}
		rows = append(rows, SheetRow{cells[0], cells[1], cells[2], cells[3]})
	}
	return rows, ""
}

// splitGuarded cuts a text at a separator that no backslash stands before; the backslashes stay.
func splitGuarded(text string, separator byte) []string {
	var out []string
	from := 0
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case separator:
			out = append(out, text[from:i])
			from = i + 1
		}
	}
	return append(out, text[min(from, len(text)):])
}

func unguarded(text string) string {
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] == '\\' && i+1 < len(text) {
			i++
		}
		b.WriteByte(text[i])
	}
	return b.String()
}
