package report

import (
	"fmt"
	"io"
)

// Section is a part of a text sheet: a line that says what follows, then lines, then a table.
type Section struct {
	Title string
	Lines []string
	Heads []string // of the table; empty when there is none
	Most  []int    // the most that each column may take; 0 shares out what is left
	Rows  [][]string
}

// WriteSections writes sections as text no wider than width columns (100 when width is 0), a blank line between them.
// Sections without lines and rows are left out.
func WriteSections(w io.Writer, sections []Section, width int) error {
	first := true
	for _, s := range sections {
		if len(s.Lines) == 0 && len(s.Rows) == 0 {
			continue
		}
		if !first {
			if _, err := fmt.Fprintln(w); err != nil {
				return err
			}
		}
		first = false
		if err := s.write(w, width); err != nil {
			return err
		}
	}
	return nil
}

func (s Section) write(w io.Writer, width int) error {
	if s.Title != "" {
		if err := paragraph(w, plain(s.Title), width); err != nil {
			return err
		}
	}
	for _, line := range s.Lines {
		if err := paragraph(w, plain(line), width); err != nil {
			return err
		}
	}
	if len(s.Rows) == 0 {
		return nil
	}
	t := textTable{heads: s.Heads, most: s.Most}
	for _, row := range s.Rows {
		cells := make([]string, len(row))
		for i, c := range row {
			cells[i] = plain(c)
		}
		t.add(cells...)
	}
	return t.write(w, width)
}

// Number writes x with a true minus sign, as the tables of this package do.
func Number(x float64, decimals int) string { return number(x, decimals) }
