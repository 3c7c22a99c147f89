package program

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"strings"

	"wingproof/flightlog/unit"
)

// table is a table of the program folder as a spreadsheet saved it: heads, then rows of cells that know
// where they stand.
type table struct {
	l        *loader
	file     string
	dialect  dialect
	heads    []head
	headSpot spot
	rows     []row
	asked    []string // heads that may stand here, for messages
	commas   bool     // some number of the table is written with a decimal comma
	cut      bool     // rows are missing because of broken quotation marks
}

// head is one column.
type head struct {
	name  string // folded
	text  string // as written
	at    spot
	taken bool
}

// row is one line of the table, numbered as a spreadsheet numbers it: the first line of the file is row 1.
type row struct {
	number int
	at     spot
	cells  []cell
}

type cell struct {
	text string
	at   spot
}

// column is a column that a reader asked for; index −1 when the table does not have it.
type column struct {
	index  int
	unit   unit.Unit
	marred bool // its head has a mistake, so that its cells are not read
	measure
}

// readTable splits a file into heads and rows. It reports cells without a head and broken quotation
// marks, and returns nil when there is no head line at all.
func (l *loader) readTable(file string, raw []byte) *table {
	text, stored := decode(raw)
	returns := !bytes.Contains(text, []byte("\n")) && bytes.Contains(text, []byte("\r"))
	if returns {
		text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	}
	t := &table{l: l, file: file}
	var skip int
	t.dialect, skip = sniff(text)
	t.dialect.encoding = stored
	if returns {
		t.dialect.end = "\r"
	}
	offset := bytes.Count(text[:skip], []byte("\n"))
	t.split(text[skip:], offset)
	if t.heads == nil {
		l.wrong(file, spot{1, 1}, "", "the table is empty", "write a line of heads, then one line a row")
		return nil
	}
	t.headless()
	return t
}

func (t *table) split(text []byte, offset int) {
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma = t.dialect.separator
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = r.Comma != '\t'
	extra := 0 // lines that a cell with a line break inside has used up; rows count on
	for {
		record, err := r.Read()
		if err != nil {
			t.broken(err, text, offset)
			return
		}
		cells := make([]cell, len(record))
		breaks := 0
		for i, c := range record {
			line, col := r.FieldPos(i)
			cells[i] = cell{strings.TrimSpace(c), spot{line + offset, col}}
			breaks += strings.Count(c, "\n")
		}
		t.add(row{cells[0].at.line - offset - extra, cells[0].at, cells})
		extra += breaks
	}
}

// empty tells whether the row holds nothing, as rows behind the end of a table do.
func (r row) empty() bool {
	for _, c := range r.cells {
		if c.text != "" {
			return false
		}
	}
	return true
}

// add takes a line as comment, head or row. Comments stand above the heads and begin with #.
func (t *table) add(r row) {
	switch {
	case r.empty():
	case t.heads == nil && strings.HasPrefix(r.cells[0].text, "#"):
	case t.heads == nil:
		t.headSpot = r.at
		for _, c := range r.cells {
			t.heads = append(t.heads, head{name: folded(c.text), text: c.text, at: c.at})
		}
		t.repeated()
	default:
		t.rows = append(t.rows, r)
		for _, c := range r.cells {
			t.commas = t.commas || looksDecimalComma(c.text)
		}
	}
}

func (t *table) repeated() {
	first := map[string]int{}
	for i := range t.heads {
		h := &t.heads[i]
		if h.name == "" {
			continue
		}
		if j, ok := first[h.name]; ok {
			t.l.wrong(t.file, h.at, "column "+letters(i), fmt.Sprintf("the head %s stands in column %s too", quoted(h.text), letters(j)), "keep one of the two columns")
			h.taken = true
			h.name = ""
			continue
		}
		first[h.name] = i
	}
}

func (t *table) broken(err error, text []byte, offset int) {
	var perr *csv.ParseError
	if !errors.As(err, &perr) {
		return // io.EOF
	}
	at := spot{perr.Line + offset, max(perr.Column, 1)}
	lines := bytes.Split(text, []byte("\n"))
	if perr.Line > len(lines) {
		at.line = len(lines) + offset
	}
	at.column = min(at.column, len(lines[at.line-offset-1])+1)
	t.cut = true
	right := `put the whole cell between quotation marks, and double a quotation mark inside it: "5"" plug"`
	t.l.wrong(t.file, at, "", "a quotation mark stands where none can be read; the rows from here on are not read", right)
}

// headless reports cells that stand under no head.
func (t *table) headless() {
	for _, r := range t.rows {
		for i, c := range r.cells {
			if c.text != "" && (i >= len(t.heads) || t.heads[i].text == "") {
				place := fmt.Sprintf("row %d, column %s", r.number, letters(i))
				t.l.wrong(t.file, c.at, place, "the cell "+quoted(c.text)+" stands under no head", "give the column a head, or empty the cell; a cell that holds the separator needs quotation marks")
			}
		}
	}
}

// letters names a column as a spreadsheet does: A to Z, AA ...
func letters(index int) string {
	text := ""
	for index++; index > 0; index = (index - 1) / 26 {
		text = string(rune('A'+(index-1)%26)) + text
	}
	return text
}

// text asks for a column of words.
func (t *table) text(name string, must bool) column {
	return t.measured(measure{stem: name, dimension: unit.None, must: must})
}

// measured asks for the column that holds a measure, with whatever unit its head carries.
func (t *table) measured(m measure) column {
	t.asked = append(t.asked, m.name())
	found := column{index: -1, measure: m}
	for i := range t.heads {
		h := &t.heads[i]
		u, how := m.match(h.name)
		if how == another || h.taken {
			continue
		}
		h.taken = true
		switch {
		case how != rightly:
			what, right := m.unitMistake(h.text, how)
			t.l.wrong(t.file, h.at, "column "+letters(i), what, right)
			found.marred = true
		case found.index >= 0:
			what := fmt.Sprintf("%s is stated twice, as %s and as %s", m.stem, t.heads[found.index].text, h.text)
			t.l.wrong(t.file, h.at, "column "+letters(i), what, "keep one of the two columns")
		default:
			found.index, found.unit = i, u
		}
	}
	if found.index < 0 && m.must && !found.marred {
		t.l.wrong(t.file, t.headSpot, "", "there is no column "+m.name(), "add a column headed "+m.name())
	}
	return found
}

// done reports heads that nobody asked for.
func (t *table) done() {
	for i, h := range t.heads {
		if h.taken || h.text == "" {
			continue
		}
		right := "heads here are " + listed(t.asked)
		if best, ok := nearest(h.name, t.asked); ok {
			right = "did you mean " + best + "?"
		}
		t.l.wrong(t.file, h.at, "column "+letters(i), "no column of this table is called "+quoted(h.text), right)
	}
}

// cell is the cell of a row in a column. An absent cell stands where the row begins.
func (r row) cell(c column) cell {
	if c.index < 0 || c.index >= len(r.cells) {
		return cell{at: r.at}
	}
	return r.cells[c.index]
}

func (t *table) place(r row, c column) string {
	if c.index < 0 {
		return fmt.Sprintf("row %d", r.number)
	}
	return fmt.Sprintf(`row %d, column %s "%s"`, r.number, letters(c.index), t.heads[c.index].text)
}

// wrong reports a mistake in one cell.
func (t *table) wrong(r row, c column, what, right string) {
	t.l.wrong(t.file, r.cell(c).at, t.place(r, c), what, right)
}

// need reports an empty cell that must be filled and returns the text.
func (t *table) need(r row, c column, example string) string {
	text := r.cell(c).text
	if text == "" && c.index >= 0 {
		t.wrong(r, c, c.name()+" is empty", "write "+example)
	}
	return text
}
