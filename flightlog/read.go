package flightlog

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"wingproof/flightlog/statistic"
)

// ReadFile reads the log at path. See Read.
func ReadFile(path string, m Map) (*Recording, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, fmt.Errorf("read log: %w", err)
	}
	if info.IsDir() {
		return nil, &Mistake{File: path, What: "this is a folder, not a log", Right: "name a file inside it"}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("read log: %w", err)
	}
	defer f.Close()
	return Read(f, path, m)
}

// Read reads a log through a map of its columns. source names the log in messages.
//
// Sign and Scale of a Column that are 0 count as 1. The error of a log that is no table, or that lacks a
// column that the map names, holds Mistakes. Rows and cells that cannot be used are left out, and the
// Recording's Findings say which and what follows.
//
// A channel keeps its first sample of any instant, so rows that repeat a time add only channels that had
// none. A row whose time runs backward is left out, unless the rows behind it show that up to three rows ahead of it
// were the ones in error.
func Read(r io.Reader, source string, m Map) (*Recording, error) {
	t, err := openText(r, source)
	if err != nil {
		return nil, err
	}
	lines, err := t.ahead()
	if err != nil {
		return nil, err
	}
	wanted := []string{m.Time.Column}
	for _, c := range m.Columns {
		wanted = append(wanted, c.Column)
	}
	d, err := findDialect(lines, source, wanted)
	if err != nil {
		return nil, err
	}
	timeIndex, plans, mistakes := planColumns(m, d, source)
	clock, mistake := newClock(m.Time.Unit, source)
	if mistake != nil {
		mistakes = append(mistakes, mistake)
	}
	if len(mistakes) > 0 {
		return nil, errors.Join(mistakes...)
	}
	rows := newRowReader(d, timeIndex, plans, clock)
	if err := rows.readAll(t); err != nil {
		return nil, err
	}
	if len(rows.times) == 0 {
		return nil, rows.nothing(source)
	}
	return rows.recording(source), nil
}

// rowReader collects the samples of a file row by row. Times stay as the file counts them until all
// rows are known, because only then it shows which rows run backward.
type rowReader struct {
	dialect
	timeIndex int
	plans     []columnPlan
	clock     *clock
	times     []float64 // of each row, in units of the clock from its first reading
	lines     []int     // of each row
	samples   [][]sample
	cells     []cell

	repeated  tally // heads that come again
	badTime   tally // rows without a time that can be read
	torn      tally // rows with too few or too many cells
	cut       tally // last line without an end
	badCells  []tally
	outside   []tally // beyond a calibration
	firstTime struct {
		line, column int
		text         string
	}
}

// sample is one value and the row it stands in.
type sample struct {
	row   int
	value float64
}

// tally counts rows of one kind and keeps where the first and last of them stand.
type tally struct {
	count       int
	line        int    // of the first
	text        string // of the first
	first, last int    // number of rows read before it
}

func (t *tally) add(line, row int, text string) {
	if t.count == 0 {
		t.line, t.first, t.text = line, row, text
	}
	t.count++
	t.last = row
}

func newRowReader(d dialect, timeIndex int, plans []columnPlan, c *clock) *rowReader {
	n := len(plans)
	return &rowReader{dialect: d, timeIndex: timeIndex, plans: plans, clock: c,
		samples: make([][]sample, n), badCells: make([]tally, n), outside: make([]tally, n)}
}

func (r *rowReader) readAll(t *text) error {
	for {
		line, whole, err := t.next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if t.line > r.headLine {
			r.read(line, t.line, whole)
		}
	}
}

// read takes one line below the heads. A line that the file does not end is used up to its last cell,
// which may be cut in the middle of a number.
func (r *rowReader) read(line []byte, number int, whole bool) {
	if len(line) == 0 || (line[0] <= ' ' && len(trimBlanks(line)) == 0) {
		return
	}
	if line[0] == '#' || line[0] == '%' || line[0] == '/' || line[0] == ' ' {
		if _, remark := comment(line); remark {
			return
		}
	}
	r.cells = splitCells(line, r.separator, r.cells)
	cells, row := r.cells, len(r.times)
	if !whole {
		cells = r.cutLast(cells, number)
	} else if len(cells) < r.fewest || (len(cells) > len(r.heads) && usedCells(cells) > len(r.heads)) {
		if usedCells(cells) > 0 {
			r.torn.add(number, row, fmt.Sprint(len(cells)))
		}
		return
	}
	if r.timeIndex >= len(cells) {
		return
	}
	when, ok := r.clock.read(cells[r.timeIndex].text, r.decimal)
	if !ok {
		r.noTime(cells, number)
		return
	}
	r.times = append(r.times, when)
	r.lines = append(r.lines, number)
	for i := range r.plans {
		if r.plans[i].index < len(cells) {
			r.take(i, cells[r.plans[i].index].text, row, number)
		}
	}
}

// cutLast drops the last cell of a line without an end, and notes it where it would have been used.
func (r *rowReader) cutLast(cells []cell, number int) []cell {
	last := len(cells) - 1
	used := len(cells) < len(r.heads) || r.timeIndex == last
	for i := range r.plans {
		used = used || r.plans[i].index == last
	}
	if used {
		r.cut.add(number, len(r.times), "")
	}
	return cells[:last]
}

// noTime sorts rows without a time: repeated heads and the row of units are expected, others are not.
func (r *rowReader) noTime(cells []cell, number int) {
	text := readable(cells[r.timeIndex].text)
	switch {
	case usedCells(cells) == 0:
	case sameHeads(cells, r.heads):
		r.repeated.add(number, len(r.times), "")
	case len(r.times) == 0 && r.units != nil && !anyNumeric(cells):
	default:
		r.badTime.add(number, len(r.times), text)
		if r.firstTime.line == 0 {
			r.firstTime.line, r.firstTime.column, r.firstTime.text = number, cells[r.timeIndex].offset+1, text
		}
	}
}

// take reads one cell of a channel.
func (r *rowReader) take(i int, text []byte, row, line int) {
	number, ok := parseNumber(text, r.decimal)
	if !ok {
		if !noSample(text) {
			r.badCells[i].add(line, row, readable(bytes.Clone(text)))
		}
		return
	}
	value, beyond := r.plans[i].si(number)
	if !statistic.Finite(value) {
		r.badCells[i].add(line, row, readable(bytes.Clone(text)))
		return
	}
	if beyond {
		r.outside[i].add(line, row, readable(bytes.Clone(text)))
	}
	r.samples[i] = append(r.samples[i], sample{row, value})
}

// nothing is the error of a table without a single usable row.
func (r *rowReader) nothing(source string) error {
	if f := r.firstTime; f.line > 0 {
		return &Mistake{File: source, Line: f.line, Column: f.column,
			What:  fmt.Sprintf("column %q holds %q, which is no time in %s", r.heads[r.timeIndex], f.text, r.clock.unit),
			Right: "name another column or another unit of time in the logger map: s, ms, us or iso"}
	}
	return &Mistake{File: source, Line: r.headLine, What: "there is no row of samples below the heads", Right: "give a log with samples"}
}
