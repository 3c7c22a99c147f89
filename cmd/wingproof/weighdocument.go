package main

import (
	"wingproof/aero/weighing"
	"wingproof/cmd/wingproof/internal/evidence"
)

// weighDocument is what weigh --json prints: SI, stations at model size and beside them at full size.
type weighDocument struct {
	Program  string           `json:"program"`
	Sheet    string           `json:"sheet"`
	Date     string           `json:"date"` // empty when not stated
	Numbers  []weighNumber    `json:"numbers"`
	Swings   []weighSwing     `json:"swings"`
	Assumed  []string         `json:"assumed"`
	Missing  []string         `json:"missing"`
	Warnings []string         `json:"warnings"`
	Written  *weighWrittenRow `json:"written"` // null when nothing was written
}

type weighWrittenRow struct {
	File     string `json:"file"`
	Weighing string `json:"weighing"`
}

type weighNumber struct {
	Quantity string      `json:"quantity"` // mass, cg_x, cg_y, cg_z, ix, iy, iz, ixz
	Unit     string      `json:"unit"`
	Value    float64     `json:"value"` // on the model
	SD       float64     `json:"sd"`
	Low      float64     `json:"low"` // 95 %
	High     float64     `json:"high"`
	FullSize *float64    `json:"full_size_m"` // of a CG; null otherwise
	Percent  *float64    `json:"percent_of_chord"`
	Target   *float64    `json:"model_target"` // null when there is none
	Air      float64     `json:"air"`          // taken off
	Parts    []weighPart `json:"parts"`        // what the sd is made of, largest first
	Halved   []string    `json:"halved_by"`    // inputs whose errors, brought down by the factor, halve the sd
	HalvedTo *float64    `json:"halved_by_factor"`
}

type weighPart struct {
	Input   string  `json:"input"`
	Of      string  `json:"of"` // point or run; empty for none
	Value   float64 `json:"value"`
	InputSD float64 `json:"input_sd"`
	SD      float64 `json:"sd"` // signed
}

type weighSwing struct {
	Run     string   `json:"run"`
	Period  float64  `json:"period_s"`
	Arm     *float64 `json:"axis_to_cg_m"` // null for two lines
	Inertia float64  `json:"inertia_kg_m2"`
	SD      float64  `json:"sd_kg_m2"`
	Air     float64  `json:"air_kg_m2"`
}

func (w *weighed) document() weighDocument {
	c := w.content()
	doc := weighDocument{Program: w.program.Name, Sheet: w.file, Date: w.sheet.Date, Numbers: []weighNumber{}, Swings: []weighSwing{},
		Assumed: listOf(c.Assumed), Missing: listOf(c.Missing), Warnings: listOf(c.Warnings)}
	for _, n := range w.result.Numbers {
		one := numberOfWeighing(n)
		if one.Unit == "m" {
			full := n.Value / c.Ratio
			one.FullSize = &full
			if n.Quantity == weighing.CGX {
				percent := c.Reference.Percent(full)
				one.Percent = &percent
			}
		}
		if goal, ok := c.Target(n.Quantity); ok {
			one.Target = &goal
		}
		doc.Numbers = append(doc.Numbers, one)
	}
	for _, s := range w.result.Swings {
		one := weighSwing{Run: s.Name, Period: s.Period, Inertia: s.Value, SD: s.SD, Air: s.Air}
		if s.Arm > 0 {
			one.Arm = &s.Arm
		}
		doc.Swings = append(doc.Swings, one)
	}
	if w.written != "" {
		doc.Written = &weighWrittenRow{w.written, w.row.Name}
	}
	return doc
}

func numberOfWeighing(n weighing.Number) weighNumber {
	one := weighNumber{Quantity: string(n.Quantity), Unit: "kg·m²", Value: n.Value, SD: n.SD, Low: n.Value - evidence.Normal95*n.SD, High: n.Value + evidence.Normal95*n.SD,
		Air: n.Air, Parts: []weighPart{}, Halved: []string{}}
	switch n.Quantity {
	case weighing.Mass:
		one.Unit = "kg"
	case weighing.CGX, weighing.CGY, weighing.CGZ:
		one.Unit = "m"
	}
	for _, p := range n.Parts {
		one.Parts = append(one.Parts, weighPart{string(p.Source.Kind), p.Source.Of, p.Input, p.InputSD, p.SD})
	}
	if inputs, factor := n.Halving(); inputs != nil {
		for _, p := range inputs {
			one.Halved = append(one.Halved, string(p.Source.Kind)+" of "+p.Source.Of)
		}
		one.HalvedTo = &factor
	}
	return one
}

// listOf is a list that JSON writes as [] and not as null.
func listOf(words []string) []string { return append([]string{}, words...) }
