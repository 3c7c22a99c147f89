package main

import (
	"fmt"
	"math"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// latticeDocument is what lattice prints with --json.
type latticeDocument struct {
	Program   string              `json:"program"`
	Date      string              `json:"date"`
	Condition conditionDocument   `json:"condition"`
	Estimates []evidence.Estimate `json:"estimates"`
}

// conditionDocument is the condition that numbers hold in, with what they are divided by.
type conditionDocument struct {
	AreaM2       float64  `json:"reference_area_m2"`
	SpanM        float64  `json:"reference_span_m"`
	MeanChordM   float64  `json:"mean_aerodynamic_chord_m"`
	LeadingEdgeM float64  `json:"mean_aerodynamic_chord_leading_edge_x_m"`
	MomentXM     float64  `json:"moment_point_x_m"`
	MomentZM     float64  `json:"moment_point_z_m"`
	Lift         *float64 `json:"lift_coefficient"` // null with an angle of attack
	AlphaRad     *float64 `json:"alpha_rad"`        // null with a lift coefficient
	Trimmed      bool     `json:"trimmed"`
	Mach         float64  `json:"mach"`
	Wake         string   `json:"wake"` // body, stream or ground
	GroundM      *float64 `json:"datum_over_ground_m"`
	Fuselage     bool     `json:"fuselage"`
	Density      float64  `json:"density"`
	Panels       []int    `json:"panels"` // on the right half, by configuration
	GridErrors   bool     `json:"grid_errors"`
}

func conditionOf(h report.LatticeHead) conditionDocument {
	r := h.Reference
	d := conditionDocument{AreaM2: r.Area, SpanM: r.Span, MeanChordM: r.MeanChord, LeadingEdgeM: r.MeanChordLeadingEdge, MomentXM: h.MomentX, MomentZM: h.MomentZ,
		Lift: &h.Lift, Trimmed: h.Trimmed, Mach: h.Mach, Wake: "body", Fuselage: h.Fuselage, Density: h.Density, Panels: h.Panels, GridErrors: h.GridErrors}
	if h.Alpha != nil {
		d.Lift, d.AlphaRad = nil, h.Alpha
	}
	if h.AlongStream {
		d.Wake = "stream"
	}
	if h.Ground > 0 {
		d.Wake, d.GroundM = "ground", &h.Ground
	}
	return d
}

// document holds all numbers of solved subjects as estimates.
func (c condition) document(p *program.Program, all []solved) latticeDocument {
	doc := latticeDocument{Program: p.Name, Date: study.NewestDate(p), Condition: conditionOf(c.head(p, all)), Estimates: []evidence.Estimate{}}
	for i := range all {
		doc.Estimates = append(doc.Estimates, c.estimates(p, &all[i])...)
	}
	return doc
}

// estimates are the numbers of a subject as records.
func (c condition) estimates(p *program.Program, s *solved) []evidence.Estimate {
	var out []evidence.Estimate
	ref := s.airframe.Reference
	for _, n := range c.numbers(p, s) {
		if math.IsNaN(n.Value) {
			continue
		}
		e := evidence.Estimate{
			Configuration: s.name, Levels: s.levels, Quantity: n.Quantity, Unit: n.Unit, Scale: evidence.ModelScale, Axes: study.AxesOf(n.Quantity),
			Power: evidence.Pointer("idle"), Origin: evidence.Predicted, State: evidence.Determined, Value: evidence.Pointer(n.Value),
			Method: evidence.Pointer(methodOf(s)), Flights: []string{}, Warnings: append([]string{}, s.notes...),
			At: evidence.At{CG: evidence.Pointer(n.cg), CGPercent: evidence.Pointer(ref.Percent(n.cg)), LiftCoefficient: evidence.Pointer(s.Value(prediction.LiftCoefficient))},
		}
		if n.Quantity == evidence.RootBendingMoment {
			e.Scale, e.At.LoadFactor = evidence.FullSize, evidence.Pointer(p.FullSize.LimitLoadFactor)
		}
		out = append(out, withErrors(p, ref, e, n.Grid))
	}
	return out
}

// methodOf says how the numbers were made.
func methodOf(s *solved) string {
	words := "vortex lattice, untrimmed state"
	if s.Trimmed {
		words = "vortex lattice, trimmed state"
	}
	return words
}

// withErrors gives an estimate the error of the grid and the stated error of theory. Where none of theory is stated there is no
// interval: that of the grid alone would promise too much.
func withErrors(p *program.Program, ref aero.Reference, e evidence.Estimate, grid float64) evidence.Estimate {
	t, stated := theoryOf(p, ref, e.Levels, e.Quantity, *e.Value)
	common := map[string]float64{}
	for name, sd := range t.common {
		common[name] = sd
	}
	if grid > 0 {
		source := "lattice grid of " + e.Quantity
		common[source] = grid / 2
		e.Method = evidence.Pointer(fmt.Sprintf("%s, grid error %.2g (the value at zero panel size is expected within it; the common source %q is half of it)", *e.Method, grid, source))
	}
	if len(common) > 0 {
		e.Common = common
	}
	if !stated {
		e.Warnings = append([]string{"no model error is stated for this quantity, so it has no interval"}, e.Warnings...)
		return e
	}
	sd := evidence.Total(t.own, common)
	e.SD, e.SDOwn = evidence.Pointer(sd), evidence.Pointer(t.own)
	e.Low, e.High, e.Set = evidence.Pointer(*e.Value-normal95*sd), evidence.Pointer(*e.Value+normal95*sd), evidence.Pointer(evidence.Interval)
	return e
}

// stripsDocument is what lattice --span-load prints with --json.
type stripsDocument struct {
	Program   string            `json:"program"`
	Date      string            `json:"date"`
	Condition conditionDocument `json:"condition"`
	SpanLoads []spanLoadOf      `json:"span_loads"`
}

type spanLoadOf struct {
	Configuration string            `json:"configuration"`
	Levels        map[string]string `json:"levels"`
	Strips        []stripDocument   `json:"strips"`
}

// stripDocument is one strip of the right half: quarter-chord point in datum axes.
type stripDocument struct {
	Surface     string  `json:"surface"`
	XM          float64 `json:"x_m"`
	YM          float64 `json:"y_m"`
	ZM          float64 `json:"z_m"`
	WidthM      float64 `json:"width_m"`
	ChordM      float64 `json:"chord_m"`
	SectionLift float64 `json:"section_lift_coefficient"`
	Load        float64 `json:"load"` // section lift times chord over the mean chord
}

func (c condition) stripsDocument(p *program.Program, all []solved) stripsDocument {
	head := c.head(p, all)
	doc := stripsDocument{Program: p.Name, Date: study.NewestDate(p), Condition: conditionOf(head)}
	doc.Condition.GridErrors = false
	for i := range all {
		one := spanLoadOf{Configuration: all[i].name, Levels: all[i].levels}
		for _, s := range all[i].Solution.Strips(all[i].State) {
			one.Strips = append(one.Strips, stripDocument{s.Surface, s.Centre.X, s.Centre.Y, s.Centre.Z, s.Width, s.Chord, s.SectionLift, s.SectionLift * s.Chord / head.Reference.MeanChord})
		}
		doc.SpanLoads = append(doc.SpanLoads, one)
	}
	return doc
}
