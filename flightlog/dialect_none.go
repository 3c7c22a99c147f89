package flightlog

import (
	"bytes"
	"fmt"
)

// numberTorn sees pieces of numbers and instants, which a wrong separator leaves: "480;-0", "05Z", "2e-3;7". No head is written with digits
// and marks alone.
func numberTorn(text []byte) bool {
	digits := 0
	for _, c := range text {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case bytes.IndexByte([]byte(" \t+-.,;:/\"eETZ"), c) < 0:
			return false
		}
	}
	return digits > 0
}

// markup recognises text whose commas would make a table of what is none: pages and drawings begin with a tag.
func markup(lines [][]byte, source string) error {
	for i, line := range lines {
		line = trimBlanks(line)
		if len(line) == 0 {
			continue
		}
		if line[0] != '<' || len(line) < 2 {
			return nil
		}
		tag := line[1] == '?' || line[1] == '!' || bytes.ContainsAny(line, "=") || line[len(line)-1] == '>' && bytes.IndexAny(line, ",;\t") < 0
		if !tag {
			return nil
		}
		return &Mistake{File: source, Line: i + 1, What: "this is a page or a drawing (its text begins with a tag), not a log",
			Right: "give a table: a line of column heads and rows of numbers, split by comma, semicolon or tab"}
	}
	return nil
}

// noTable says why no heads were found.
func noTable(lines [][]byte, source string) error {
	first := 0 // line of the first that is neither blank nor a remark
	for i, line := range lines[:min(len(lines), headLines)] {
		if _, remark := comment(line); remark || len(trimBlanks(line)) == 0 {
			continue
		}
		if first == 0 {
			first = i + 1
		}
		switch {
		case isRow(line):
			return &Mistake{File: source, Line: first, What: "the table begins with numbers and has no line of column heads",
				Right: "the first part of the file is missing, or put a line above it that names the columns"}
		case mostCells(line) > 1 && len(bytes.TrimSpace(bytes.Join(lines[i+1:], nil))) == 0:
			return &Mistake{File: source, Line: i + 1, What: "there is a line of heads but no row of numbers below it", Right: "give a log with samples"}
		}
	}
	return &Mistake{File: source, Line: 1, What: fmt.Sprintf("no table was found in the first %d lines", min(len(lines), headLines)),
		Right: "give a line of column heads and rows of numbers, split by comma, semicolon or tab"}
}

// isRow tells whether a line is a row of numbers under some separator: two cells of three hold one, of those that hold anything.
func isRow(line []byte) bool {
	for _, separator := range []byte{'\t', ';', ','} {
		cells := splitCells(line, separator, nil)
		numeric, filled := 0, 0
		for _, c := range cells {
			switch {
			case noSample(c.text):
			case looksNumeric(c.text):
				numeric, filled = numeric+1, filled+1
			default:
				filled++
			}
		}
		if len(cells) > 1 && numeric > 1 && 3*numeric >= 2*filled {
			return true
		}
	}
	return false
}

// mostCells is the number of cells under the separator that gives most.
func mostCells(line []byte) int {
	most := 0
	for _, separator := range []byte{',', ';', '\t'} {
		most = max(most, len(splitCells(line, separator, nil)))
	}
	return most
}
