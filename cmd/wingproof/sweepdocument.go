package main

import (
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// sweepDocument is what lattice --sweep prints with --json.
type sweepDocument struct {
	Program       string            `json:"program"`
	Date          string            `json:"date"`
	Condition     conditionDocument `json:"condition"`
	Configuration string            `json:"configuration"`
	Levels        map[string]string `json:"levels"`
	Points        []pointDocument   `json:"points"`
	Warnings      []string          `json:"warnings"`
}

// pointDocument is one airframe of a sweep.
type pointDocument struct {
	Sizes      []sizeDocument     `json:"sizes"`
	Baseline   bool               `json:"baseline"`
	Quantities []quantityDocument `json:"quantities"`
}

// sizeDocument is a size in the unit that its name ends in; null where the baseline has no such size.
type sizeDocument struct {
	Size  string   `json:"size"`
	Value *float64 `json:"value"`
}

// quantityDocument is a number with the error of its grid, null where it was not estimated.
type quantityDocument struct {
	Quantity  string   `json:"quantity"`
	Unit      string   `json:"unit"`
	CG        float64  `json:"cg_m"`
	Value     float64  `json:"value"`
	GridError *float64 `json:"grid_error"`
}

func (r *sweepResult) document(p *program.Program, c condition) sweepDocument {
	doc := sweepDocument{Program: p.Name, Date: study.NewestDate(p), Condition: conditionOf(r.head(p, c)), Configuration: r.sweep.base.name, Levels: r.sweep.levels,
		Points: []pointDocument{}, Warnings: []string{}}
	doc.Condition.Panels = doc.Condition.Panels[:0:0]
	for _, point := range r.order() {
		one := pointDocument{Baseline: r.isBase(point), Quantities: []quantityDocument{}}
		for k, v := range r.sizes(point) {
			one.Sizes = append(one.Sizes, sizeDocument{r.sweep.ranges[k].size.Key, orNull(v)})
		}
		for _, n := range r.numbers(p, c, point) {
			if !math.IsNaN(n.Value) {
				one.Quantities = append(one.Quantities, quantityDocument{n.Quantity, n.Unit, n.cg, n.Value, orNull(n.Grid)})
			}
		}
		doc.Points = append(doc.Points, one)
		doc.Condition.Panels = append(doc.Condition.Panels, r.solvedAt(point).Solution.Panels())
	}
	seen := map[string]bool{}
	for _, warning := range r.warnings() {
		if !seen[warning] {
			seen[warning] = true
			doc.Warnings = append(doc.Warnings, warning)
		}
	}
	return doc
}

// orNull is null for what is no number.
func orNull(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return evidence.Pointer(v)
}

// csv writes the sizes, then every quantity with the error of the grid.
func (r *sweepResult) csv(s streams, p *program.Program, c condition) error {
	head := append(r.sweep.keys(), "baseline")
	h := r.head(p, c)
	var rows [][]string
	for i, point := range r.order() {
		var row []string
		for _, v := range r.sizes(point) {
			row = append(row, cellOf(v))
		}
		row = append(row, yesNo(r.isBase(point)))
		for _, n := range r.numbers(p, c, point) {
			if i == 0 {
				head = append(head, columnsOf(n)...)
			}
			row = append(row, cellOf(n.Value), cellOf(n.Grid))
		}
		stated, cells := conditionColumns(h, r.solvedAt(point).Solution.Panels())
		if i == 0 {
			head = append(head, stated...)
		}
		rows = append(rows, append(row, cells...))
	}
	return writeCSV(s.Out, head, rows)
}

// solvedAt is the solved airframe of a point; −1 is the base.
func (r *sweepResult) solvedAt(point int) *solved {
	if point < 0 {
		return &r.base
	}
	return &r.points[point]
}

// warnings of all airframes.
func (r *sweepResult) warnings() []string {
	var out []string
	for i := range r.points {
		out = append(out, r.points[i].notes...)
	}
	return append(out, r.base.notes...)
}
