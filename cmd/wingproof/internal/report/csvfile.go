package report

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// CSVFile writes a table as RFC 4180 has it: comma, quotes where they are needed, line breaks CRLF, UTF-8.
//
// A cell that a spreadsheet would take for a formula, because a name or a note begins like one, gets an apostrophe before it; numbers stay
// as they are.
func CSVFile(heads []string, rows [][]string) ([]byte, error) {
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.UseCRLF = true
	for i, row := range append([][]string{heads}, rows...) {
		if len(row) != len(heads) {
			return nil, fmt.Errorf("report: row %d of a table has %d cells where the heads have %d", i, len(row), len(heads))
		}
		cells := make([]string, len(row))
		for k, cell := range row {
			cells[k] = noFormula(strings.ToValidUTF8(cell, "\ufffd"))
		}
		if err := out.Write(cells); err != nil {
			return nil, fmt.Errorf("report: write a table: %w", err)
		}
	}
	out.Flush()
	return b.Bytes(), out.Error()
}

// noFormula keeps a spreadsheet from reckoning with a text.
func noFormula(cell string) string {
	if cell == "" || !strings.ContainsRune("=+-@\t\r\n＝＋－＠", []rune(cell)[0]) {
		return cell
	}
	if _, err := strconv.ParseFloat(cell, 64); err == nil {
		return cell
	}
	return "'" + cell
}
