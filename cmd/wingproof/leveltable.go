package main

import (
	"io"
	"strings"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// levelTable prints the differences between the levels of each choice, and what stands in the way of adding effects up.
func levelTable(w io.Writer, st *study.Study) error {
	var rows []report.DifferenceRow
	for _, d := range st.LevelDifferences() {
		rows = append(rows, report.DifferenceRow{Choice: d.Choice, One: d.One, Other: d.Other, Estimate: d.Estimate})
	}
	if len(rows) == 0 {
		return nil
	}
	if err := report.Tell(w, "\n\nLEVELS AGAINST EACH OTHER (errors that both share cancel; derivatives per radian)\n\n"); err != nil {
		return err
	}
	if err := report.DifferenceTable(w, rows, tableWidth); err != nil {
		return err
	}
	for _, b := range st.Between {
		if words := b.Overview.Words; len(words) > 0 {
			if err := report.Paragraph(w, report.QuantityWords(b.Quantity)+": "+strings.Join(words, "; "), tableWidth); err != nil {
				return err
			}
		}
	}
	return nil
}
