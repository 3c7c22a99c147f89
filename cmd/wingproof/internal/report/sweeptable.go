package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
)

// SweepTable is a table of sizes against quantities.
type SweepTable struct {
	Configuration string
	Sizes         []string // the keys that change, with their units, such as winglet.height_m
	Quantities    []string
	Units         []string // of the quantities
	Rows          []SweepRow
	Warnings      []string
}

// SweepRow is one airframe of a sweep.
type SweepRow struct {
	Sizes    []float64
	Baseline bool
	Values   []float64 // NaN: there is none
	Grid     []float64 // nil: not estimated here
}

// Write prints the sweep as text no wider than width columns (100 when width is 0), the error of the grid below the values
// of the airframes for which it was estimated.
func (s SweepTable) Write(w io.Writer, head LatticeHead, width int) error {
	if err := head.write(w, width); err != nil {
		return err
	}
	if err := paragraph(w, plain(s.Configuration), width); err != nil {
		return err
	}
	for i, kept := range s.blocks(columns(w, width)) {
		if i > 0 {
			if _, err := fmt.Fprintln(w); err != nil {
				return err
			}
		}
		if err := s.block(kept).write(w, width); err != nil {
			return err
		}
	}
	return warnOnce(w, []PredictedGroup{{Name: s.Configuration, Warnings: s.Warnings}}, width)
}

// What the columns of a sweep may take, and the space behind each.
const (
	sweepSize, sweepQuantity, sweepNote = 10, 12, 9
	behindColumn                        = 2
)

// blocks are the quantities that stand side by side: where one table is too wide, another with the same sizes follows below it.
func (s SweepTable) blocks(width int) [][]int {
	room := width - len(s.Sizes)*(sweepSize+behindColumn) - sweepNote
	return slices.Collect(slices.Chunk(s.kept(), max(room/(sweepQuantity+behindColumn), 1)))
}

// block is the table of some of the quantities.
func (s SweepTable) block(kept []int) *textTable {
	t := textTable{}
	for _, key := range s.Sizes {
		t.heads, t.most = append(t.heads, sizeHead(key)), append(t.most, sweepSize)
	}
	for _, q := range kept {
		head, _ := sweepHead(s.Quantities[q], s.Units[q])
		t.heads, t.most = append(t.heads, head), append(t.most, sweepQuantity)
	}
	t.heads, t.most = append(t.heads, ""), append(t.most, sweepNote)
	for _, row := range s.Rows {
		s.addTo(&t, row, kept)
	}
	return &t
}

func (s SweepTable) addTo(t *textTable, row SweepRow, kept []int) {
	var cells []string
	for _, size := range row.Sizes {
		if math.IsNaN(size) {
			cells = append(cells, "as drawn")
			continue
		}
		cells = append(cells, trimmedFigures(size, 5))
	}
	for _, q := range kept {
		_, k := sweepHead(s.Quantities[q], s.Units[q])
		cell := "none"
		if !math.IsNaN(row.Values[q]) {
			cell = number(k*row.Values[q], s.decimals(q))
		}
		if row.Grid != nil && !math.IsNaN(row.Grid[q]) {
			cell += "\n± " + number(k*row.Grid[q], s.decimals(q))
		}
		cells = append(cells, cell)
	}
	note := ""
	if row.Baseline {
		note = "baseline"
	}
	t.add(append(cells, note)...)
}

// kept are the quantities that some row has.
func (s SweepTable) kept() []int {
	var out []int
	for q := range s.Quantities {
		for _, row := range s.Rows {
			if !math.IsNaN(row.Values[q]) {
				out = append(out, q)
				break
			}
		}
	}
	return out
}

// decimals are those that the smallest error of the grid leaves; five figures
// without one.
func (s SweepTable) decimals(q int) int {
	_, k := sweepHead(s.Quantities[q], s.Units[q])
	least, size := math.Inf(1), 0.0
	for _, row := range s.Rows {
		if row.Grid != nil && row.Grid[q] > 0 {
			least = math.Min(least, k*row.Grid[q])
		}
		if v := math.Abs(k * row.Values[q]); v > size {
			size = v
		}
	}
	switch {
	case least > exact*size && !math.IsInf(least, 1):
		return errorDecimals(least)
	case size > 0:
		return max(0, min(8, 4-int(math.Floor(math.Log10(size)))))
	}
	return 3
}

// sweepHead is a short head of a column, with the factor that carries SI to what is shown.
func sweepHead(quantity, unit string) (head string, factor float64) {
	words, k := shown(unit)
	switch quantity {
	case evidence.DirectionalStiffness:
		return "Cn_β, per rad", k
	case prediction.DihedralEffect:
		return "Cl_β, per rad", k
	case evidence.LiftCurveSlope:
		return "CL_α, per rad", k
	case evidence.RootBendingMoment:
		return "root bending, kN·m", 1e-3
	case prediction.InducedDrag:
		return "induced drag, 10⁻⁴", 1e4
	case prediction.SpanEfficiency:
		return "span eff. e", k
	case prediction.BestSpanEfficiency:
		return "best e of trace", k
	}
	head = quantityWords(quantity)
	if words != "" {
		head += ", " + words
	}
	return head, k
}

// sizeHead breaks a key such as winglet.height_m into words that a narrow column takes.
func sizeHead(key string) string {
	return plain(strings.NewReplacer(".", " ", "_", " ").Replace(key))
}
