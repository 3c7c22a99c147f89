package flightlog

import "bytes"

// dialect is how one file writes its table.
type dialect struct {
	separator byte
	decimal   byte
	headLine  int // from 1
	heads     []string
	offsets   []int    // column in bytes at which each head begins, from 1
	units     []string // the row of units below the heads, nil when there is none
	fewest    int      // cells of the shortest whole row seen: shorter ones later on are torn
}

const (
	headLines = 400 // lines that may stand ahead of the heads
	seenRows  = 60  // rows below a line of heads that must look like its table
)

// findDialect finds separator, heads and decimal mark from the first lines of a file. Heads that the
// caller wants decide where they are found; nil leaves it to the shape of the lines.
//
// Without wanted heads, a line is one of heads when most of its cells hold words and the rows below it
// have as many cells, some of them numbers. The line and separator with the largest table below win.
func findDialect(lines [][]byte, source string, wanted []string) (dialect, error) {
	if m := markup(lines, source); m != nil {
		return dialect{}, m
	}
	var best dialect
	bestScore := 0
	for _, separator := range []byte{',', ';', '\t'} {
		for i := range min(len(lines), headLines) {
			d, words := headsAt(lines, i, separator)
			if words < 2 {
				continue
			}
			rows := d.rowsBelow(lines[i+1:])
			score := rows * words
			if found := matches(d.heads, wanted); found > 0 {
				score = found*1_000_000 + min(score, 999_999)
			}
			// a later line must be clearly better: the row of units scores as high as the heads
			if score > bestScore+bestScore/10 {
				best, bestScore = d, score
			}
		}
	}
	if bestScore == 0 {
		return dialect{}, noTable(lines, source)
	}
	best.findUnits(lines[best.headLine:])
	best.findDecimal(lines[best.headLine:])
	return best, nil
}

// headsAt reads line i as heads and counts the cells that hold words.
func headsAt(lines [][]byte, i int, separator byte) (d dialect, words int) {
	line := lines[i]
	rest, remark := comment(line)
	shift := 0
	if remark {
		shift = bytes.Index(line, rest)
		line = rest
	}
	d = dialect{separator: separator, decimal: '.', headLine: i + 1}
	for _, c := range splitCells(line, separator, nil) {
		d.heads = append(d.heads, readable(c.text))
		d.offsets = append(d.offsets, c.offset+shift+1)
		switch {
		case noSample(c.text):
		case looksNumeric(c.text), numberTorn(c.text):
			words--
		default:
			words++
		}
	}
	for n := len(d.heads); n > 0 && d.heads[n-1] == ""; n-- {
		d.heads = d.heads[:n-1]
	}
	return d, words
}

// rowsBelow counts the lines that look like rows of the table, and notes the shortest.
func (d *dialect) rowsBelow(lines [][]byte) int {
	rows := 0
	var cells []cell
	for _, line := range lines[:min(len(lines), seenRows)] {
		if _, remark := comment(line); remark || len(trimBlanks(line)) == 0 {
			continue
		}
		cells = splitCells(line, d.separator, cells)
		if len(cells) < 2 || usedCells(cells) > len(d.heads) || !anyNumeric(cells) {
			continue
		}
		if rows == 0 || len(cells) < d.fewest {
			d.fewest = len(cells)
		}
		// a separator that splits the rows into fewer cells than the heads is hardly the right one
		if 2*len(cells) > len(d.heads) {
			rows++
		}
	}
	return rows
}

// findUnits takes the first line below the heads as units when it holds words and no number.
func (d *dialect) findUnits(lines [][]byte) {
	for _, line := range lines {
		if len(trimBlanks(line)) == 0 {
			continue
		}
		rest, _ := comment(line)
		cells := splitCells(rest, d.separator, nil)
		if anyNumeric(cells) || usedCells(cells) < 2 || sameHeads(cells, d.heads) {
			return
		}
		for _, c := range cells {
			d.units = append(d.units, readable(c.text))
		}
		return
	}
}

// findDecimal counts which decimal mark the cells of the first rows use; a comma only where it does
// not separate cells.
func (d *dialect) findDecimal(lines [][]byte) {
	if d.separator == ',' {
		return
	}
	points, commas := 0, 0
	var cells []cell
	for _, line := range lines {
		cells = splitCells(line, d.separator, cells)
		for _, c := range cells {
			_, point := parseNumber(c.text, '.')
			_, comma := parseNumber(c.text, ',')
			switch {
			case point && !comma:
				points++
			case comma && !point:
				commas++
			}
		}
	}
	if commas > points {
		d.decimal = ','
	}
}

// looksNumeric tells whether a cell is a number in either decimal mark, or an instant.
func looksNumeric(text []byte) bool {
	if len(text) == 0 {
		return false
	}
	if _, ok := parseNumber(text, '.'); ok {
		return true
	}
	if _, ok := parseNumber(text, ','); ok {
		return true
	}
	_, ok := parseInstant(text)
	return ok
}

func anyNumeric(cells []cell) bool {
	for _, c := range cells {
		if looksNumeric(c.text) {
			return true
		}
	}
	return false
}

// usedCells counts the cells up to the last that is not empty.
func usedCells(cells []cell) int {
	n := len(cells)
	for n > 0 && len(cells[n-1].text) == 0 {
		n--
	}
	return n
}
