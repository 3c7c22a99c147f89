package report

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/reduce"
)

// PointSection lists the test points of a flight, kept and dropped and why.
func PointSection(f reduce.Reduction) Section {
	columns := pointColumns([]reduce.Reduction{f}, roomy)
	var s Section
	for _, c := range columns {
		s.Heads = append(s.Heads, c.head)
	}
	for _, p := range f.Points {
		var row []string
		for _, c := range columns {
			row = append(row, c.cell(p))
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

// DynamicSections list what a flight holds beside steady points: stalls, sideslips, turns, inputs. What it does not hold is left out.
func DynamicSections(f reduce.Reduction) []Section {
	var out []Section
	for _, d := range dynamicTables() {
		if rows := d.rows(f); len(rows) > 0 {
			out = append(out, Section{Title: d.title, Heads: d.heads, Rows: rows})
		}
	}
	return out
}

// UsedForSection lists the measured numbers that rest on a flight, with how many flights stand behind each. ratio is model over full
// size, so that a CG stands at both sizes.
func UsedForSection(flight string, estimates []evidence.Estimate, ratio float64) Section {
	s := Section{Heads: []string{"number", "at", "value (95 % interval)", "rests on"}}
	for _, e := range estimates {
		if e.Origin != evidence.Measured || !slices.Contains(e.Flights, flight) {
			continue
		}
		rests := "this flight alone"
		switch others := without(e.Flights, flight); {
		case len(others) > 3:
			rests = fmt.Sprintf("this flight and %d more", len(others))
		case len(others) > 0:
			rests = "this flight and " + strings.Join(others, ", ")
		}
		s.Rows = append(s.Rows, []string{quantityWords(e.Quantity), plain(atCell(e, ratio)), estimateWords(e), plain(rests)})
	}
	return s
}

func without(list []string, one string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == one })
}

// CGWords writes a CG aft of datum at both sizes and in percent of the mean chord, where it is known.
func CGWords(x, ratio, chord, leadingEdge float64) string {
	words := cgWords(x, ratio)
	if x != 0 && chord > 0 {
		words += ", " + number(100*(x-leadingEdge)/chord, 1) + " % of chord"
	}
	return words
}
