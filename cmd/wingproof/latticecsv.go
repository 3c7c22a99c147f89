package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
)

// writeCSV writes one table, SI units and radians, decimal points.
func writeCSV(w io.Writer, head []string, rows [][]string) error {
	out := csv.NewWriter(w)
	if err := out.Write(head); err != nil {
		return fmt.Errorf("write the table: %w", err)
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("write the table: %w", err)
	}
	return nil
}

// cellOf writes a number for a table; what there is none of stays empty.
func cellOf(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', 9, 64)
}

// unitSuffix is the unit of a quantity as heads of columns carry it; empty for pure numbers.
func unitSuffix(n prediction.Number) string {
	switch unit := n.Unit; unit {
	case "1", "-", "":
		return ""
	case "%":
		return "_percent"
	case "1/rad":
		return "_per_rad"
	case "rad/m":
		return "_rad_per_m"
	case "N·m":
		return "_nm"
	default:
		return "_" + strings.ToLower(unit)
	}
}

// columnsOf are the heads of a quantity: its value and the error of the grid.
func columnsOf(n predictedNumber) []string {
	name := n.Quantity
	if name == evidence.NeutralPointPercent {
		name = "neutral_point_of_mean_chord"
	}
	if n.note != "" && strings.HasPrefix(n.note, "about") {
		name += "_aftmost_loading"
	}
	return []string{name + unitSuffix(n.Number), name + "_grid_error" + unitSuffix(n.Number)}
}

// conditionColumns state what the numbers of a row hold in and are divided by.
func conditionColumns(h report.LatticeHead, panels int) (head, cells []string) {
	wake := "body"
	switch {
	case h.Ground > 0:
		wake = "ground"
	case h.AlongStream:
		wake = "stream"
	}
	ground := math.NaN()
	if h.Ground > 0 {
		ground = h.Ground
	}
	r := h.Reference
	head = []string{"moment_point_x_m", "moment_point_z_m", "reference_area_m2", "reference_span_m", "mean_aerodynamic_chord_m",
		"mean_aerodynamic_chord_leading_edge_x_m", "trimmed", "mach", "wake", "datum_over_ground_m", "density", "panels"}
	cells = []string{cellOf(h.MomentX), cellOf(h.MomentZ), cellOf(r.Area), cellOf(r.Span), cellOf(r.MeanChord), cellOf(r.MeanChordLeadingEdge),
		yesNo(h.Trimmed), cellOf(h.Mach), wake, cellOf(ground), cellOf(h.Density), strconv.Itoa(panels)}
	return head, cells
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// csv writes a row for each subject: first what names it, then every quantity with the error of the grid, then the condition.
func (c condition) csv(w io.Writer, p *program.Program, all []solved, names []string, naming func(i int) []string) error {
	head := append([]string{}, names...)
	h := c.head(p, all)
	var rows [][]string
	for i := range all {
		row := naming(i)
		for _, n := range c.numbers(p, &all[i]) {
			if i == 0 {
				head = append(head, columnsOf(n)...)
			}
			row = append(row, cellOf(n.Value), cellOf(n.Grid))
		}
		stated, cells := conditionColumns(h, all[i].Solution.Panels())
		if i == 0 {
			head = append(head, stated...)
		}
		rows = append(rows, append(row, cells...))
	}
	return writeCSV(w, head, rows)
}

// stripsCSV writes a row for each strip of each subject.
func (c condition) stripsCSV(w io.Writer, p *program.Program, all []solved) error {
	h := c.head(p, all)
	head := []string{"configuration", "surface", "x_m", "y_m", "z_m", "width_m", "chord_m", "section_lift_coefficient", "load", "alpha_rad", "lift_coefficient"}
	var rows [][]string
	for i := range all {
		stated, cells := conditionColumns(h, all[i].Solution.Panels())
		if i == 0 {
			head = append(head, stated...)
		}
		for _, s := range all[i].Solution.Strips(all[i].State) {
			row := []string{all[i].name, s.Surface, cellOf(s.Centre.X), cellOf(s.Centre.Y), cellOf(s.Centre.Z), cellOf(s.Width), cellOf(s.Chord),
				cellOf(s.SectionLift), cellOf(s.SectionLift * s.Chord / h.Reference.MeanChord), cellOf(all[i].State.Alpha), cellOf(all[i].Value(prediction.LiftCoefficient))}
			rows = append(rows, append(row, cells...))
		}
	}
	return writeCSV(w, head, rows)
}
