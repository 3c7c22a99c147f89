package report

import (
	"io"

	"wingproof/cmd/wingproof/internal/evidence"
)

// DifferenceRow is a quantity at one level of a choice minus that at another.
type DifferenceRow struct {
	Choice, One, Other string
	Estimate           evidence.Estimate
}

// DifferenceTable writes differences between levels with their 95 % intervals, as text no wider than width columns; derivatives per
// radian.
func DifferenceTable(w io.Writer, rows []DifferenceRow, width int) error {
	t := textTable{heads: []string{"quantity", "levels", "difference (95 % interval)", "rests on"}, most: []int{20, 26, 29, 0}, least: 17}
	last := ""
	for _, r := range rows {
		quantity := fitWords(r.Estimate.Quantity)
		if r.Estimate.Quantity == last {
			quantity = ""
		}
		last = r.Estimate.Quantity
		t.add(quantity, plain(r.Choice+" "+r.One+" minus "+r.Other), fitValue(r.Estimate, r.Estimate.Unit == "1/rad"), plain(restsOn(r.Estimate)))
	}
	return t.write(w, width)
}

// Paragraph writes a sentence, broken into lines no wider than width columns.
func Paragraph(w io.Writer, text string, width int) error { return paragraph(w, plain(text), width) }

// QuantityWords says a quantity in plain words, as the flights give it.
func QuantityWords(quantity string) string { return flownWords(quantity) }
