package flightlog

import (
	"errors"
	"io"
)

// Sniffed is what the first part of a log shows about its table, before anybody has said what the columns are.
type Sniffed struct {
	Source    string
	Encoding  string
	Separator string     // ",", ";" or a tab
	Decimal   string     // "." or ","
	HeadLine  int        // line of the heads, from 1
	Heads     []string   // as written
	Units     []string   // the row of units below the heads; nil when there is none
	Rows      [][]string // sample rows, cells as written, at most as many as heads
}

// How much is taken along as a sample: some minutes at usual rates, so that the sample reaches from the ground into the flight. Where most cells
// are blank, as in a log with a row for each sensor, rows are added until half of the columns hold enough numbers: common practice, no source.
const (
	sniffRows  = 20000
	sniffCells = 6000 // of a column
	sniffMost  = 200000
)

// sample counts the cells of each column that hold something.
type sample []int

func (n sample) add(cells []cell) {
	for i, c := range cells[:min(len(cells), len(n))] {
		if !noSample(c.text) {
			n[i]++
		}
	}
}

// enough tells whether a sample of so many rows will do.
func (n sample) enough(rows int) bool {
	if rows < sniffRows || rows >= sniffMost {
		return rows >= sniffMost
	}
	used, full := 0, 0
	for _, cells := range n {
		if cells > 0 {
			used++
		}
		if cells >= sniffCells {
			full++
		}
	}
	return 2*full >= used
}

// Sniff finds out how the table of a log is written: encoding, separator, decimal mark, heads, and a
// sample of its rows. source names the log in messages. Errors hold Mistakes, as those of Read do.
func Sniff(r io.Reader, source string) (Sniffed, error) {
	t, err := openText(r, source)
	if err != nil {
		return Sniffed{}, err
	}
	lines, err := t.ahead()
	if err != nil {
		return Sniffed{}, err
	}
	d, err := findDialect(lines, source, nil)
	if err != nil {
		return Sniffed{}, err
	}
	s := Sniffed{Source: source, Encoding: t.encoding, Separator: string(d.separator), Decimal: string(d.decimal),
		HeadLine: d.headLine, Heads: d.heads, Units: d.units}
	var cells []cell
	held := make(sample, len(d.heads))
	for !held.enough(len(s.Rows)) {
		line, whole, err := t.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Sniffed{}, err
		}
		if _, remark := comment(line); t.line <= d.headLine || remark || !whole {
			continue
		}
		cells = splitCells(line, d.separator, cells)
		if used := usedCells(cells); used == 0 || used > len(d.heads) || !anyNumeric(cells) {
			continue
		}
		held.add(cells)
		row := make([]string, 0, len(cells))
		for _, c := range cells[:min(len(cells), len(d.heads))] {
			row = append(row, readable(c.text))
		}
		s.Rows = append(s.Rows, row)
	}
	return s, nil
}

// numbers is the sample of one column, blank and text cells left out, with the row of each number.
func (s Sniffed) numbers(column int) (values []float64, rows []int) {
	for i, row := range s.Rows {
		if column >= len(row) {
			continue
		}
		if v, ok := parseNumber([]byte(row[column]), s.Decimal[0]); ok {
			values = append(values, v)
			rows = append(rows, i)
		}
	}
	return values, rows
}
