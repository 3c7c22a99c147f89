package main

import (
	"math"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
)

// compareDocument is what compare prints with --json.
type compareDocument struct {
	Program   string              `json:"program"`
	Date      string              `json:"date"`
	Choice    string              `json:"choice"`
	Baseline  string              `json:"baseline"`
	Levels    map[string]string   `json:"levels"` // of the other choices
	Condition conditionDocument   `json:"condition"`
	Compared  []comparedDocument  `json:"compared"`  // the baseline first
	Drag      []dragDocument      `json:"drag"`      // by flight condition and level
	Missing   []string            `json:"missing"`   // what the drag wants and does not find, and its doubts
	FullSize  []decide.Contrast   `json:"full_size"` // what limits, built parts and beliefs come to, and their differences to the baseline
	Estimates []evidence.Estimate `json:"estimates"` // of the study: measured, predicted and anchored
}

// comparedDocument is one level as the lattice sees it.
type comparedDocument struct {
	Level         string               `json:"level"`
	Configuration string               `json:"configuration"`
	Quantities    []comparedNumberJSON `json:"quantities"`
	Warnings      []string             `json:"warnings"`
}

// comparedNumberJSON is one quantity; the difference is null for the baseline, its bounds (95 %, by the errors of theory that
// the levels do not share) where no error is stated.
type comparedNumberJSON struct {
	quantityDocument
	Difference     *float64 `json:"difference"`
	DifferenceGrid *float64 `json:"difference_grid_error"`
	DifferenceLow  *float64 `json:"difference_low"`
	DifferenceHigh *float64 `json:"difference_high"`
}

func (r *comparison) document() compareDocument {
	doc := compareDocument{Program: r.study.Program.Name, Date: r.study.Date, Choice: r.choice.Name, Baseline: r.choice.Baseline, Levels: r.others,
		Condition: conditionOf(r.condition.head(r.study.Program, r.solvedLevels())), Drag: r.dragDocuments(r.net),
		Missing: append([]string{}, r.missing...), FullSize: append([]decide.Contrast{}, r.contrasts...), Estimates: []evidence.Estimate{}}
	for i := range r.levels {
		l := &r.levels[i]
		one := comparedDocument{Level: l.level, Configuration: l.name, Quantities: []comparedNumberJSON{}, Warnings: append([]string{}, l.notes...)}
		for j, n := range l.numbers {
			if math.IsNaN(n.Value) {
				continue
			}
			q := comparedNumberJSON{quantityDocument: quantityDocument{n.Quantity, n.Unit, n.cg, n.Value, orNull(n.Grid)}}
			if l.differences != nil {
				d := l.differences[j]
				q.Difference, q.DifferenceGrid, q.DifferenceLow, q.DifferenceHigh = orNull(d.value), orNull(d.grid), orNull(d.low), orNull(d.high)
			}
			one.Quantities = append(one.Quantities, q)
		}
		doc.Compared = append(doc.Compared, one)
		doc.Estimates = append(doc.Estimates, r.estimatesOf(l.name)...)
	}
	return doc
}

// csv writes a row for each level, quantity and origin.
func (r *comparison) csv(s streams) error {
	head := []string{"level", "configuration", "quantity", "unit", "origin", "scale", "cg_m", "value", "low", "high", "grid_error",
		"difference", "difference_grid_error", "difference_low", "difference_high"}
	h := r.condition.head(r.study.Program, r.solvedLevels())
	stated, _ := conditionColumns(h, 0)
	var rows [][]string
	for i := range r.levels {
		l := &r.levels[i]
		_, condition := conditionColumns(h, l.Solution.Panels())
		for _, e := range r.estimatesOf(l.name) {
			if e.Origin == evidence.Predicted {
				continue // the lattice's own rows follow
			}
			row := []string{l.level, l.name, e.Quantity, e.Unit, e.Origin, e.Scale, cellOr(e.At.CG), cellOr(e.Value), cellOr(e.Low), cellOr(e.High), "", "", "", "", ""}
			rows = append(rows, append(row, make([]string, len(condition))...))
		}
		predicted := r.condition.rows(r.study.Program, &l.solved, nil)
		for j, n := range l.numbers {
			if math.IsNaN(n.Value) {
				continue
			}
			scale := evidence.ModelScale
			if n.Quantity == evidence.RootBendingMoment {
				scale = evidence.FullSize
			}
			row := []string{l.level, l.name, n.Quantity, n.Unit, evidence.Predicted, scale, cellOf(n.cg), cellOf(n.Value),
				cellOf(predicted[j].Low), cellOf(predicted[j].High), cellOf(n.Grid), "", "", "", ""}
			if l.differences != nil {
				d := l.differences[j]
				copy(row[11:], []string{cellOf(d.value), cellOf(d.grid), cellOf(d.low), cellOf(d.high)})
			}
			rows = append(rows, append(row, condition...))
		}
	}
	for _, row := range r.dragCells(r.net) {
		rows = append(rows, append(row, make([]string, len(stated))...))
	}
	return writeCSV(s.Out, append(head, stated...), rows)
}

// cellOr is an empty cell for what is null.
func cellOr(v *float64) string {
	if v == nil {
		return ""
	}
	return cellOf(*v)
}
