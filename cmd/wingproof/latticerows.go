package main

import (
	"fmt"
	"math"
	"slices"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
)

// mainQuantities are those that every configuration is listed with; one configuration by itself has all of them.
func mainQuantities() []string {
	return []string{
		prediction.Alpha, prediction.LiftCoefficient, prediction.TrimElevator, evidence.NeutralPoint, evidence.NeutralPointPercent, evidence.StaticMargin,
		evidence.LiftCurveSlope, evidence.TrimmedLiftSlope, evidence.ElevatorTrimRate, prediction.ElevatorPower, prediction.ElevatorLift,
		prediction.PitchStiffness, prediction.PitchDamping, prediction.SideForceSlope, evidence.DirectionalStiffness, prediction.DihedralEffect,
		prediction.RollDamping, prediction.YawDamping, prediction.InducedDrag, prediction.SpanEfficiency, prediction.BestSpanEfficiency,
		evidence.RootBendingMoment,
	}
}

// predictedNumber is a number with the moment point that it holds about.
type predictedNumber struct {
	prediction.Number
	cg   float64
	note string
}

// numbers lists what is predicted of a subject: the analysis, Cn_β about the aftmost loading, where least of it is left and
// where limits are judged, and the bending at limit load. The grid's error of Cn_β about the aftmost loading is taken from the
// moment point: that of the side force times so short an arm is far below it.
func (c condition) numbers(p *program.Program, s *solved) []predictedNumber {
	var out []predictedNumber
	_, aft, known := prediction.LoadedRange(p)
	known = known && !c.given
	for _, n := range s.Numbers {
		out = append(out, predictedNumber{clean(n), c.setup.CG.X, ""})
		if n.Quantity == evidence.DirectionalStiffness && known && math.Abs(aft-c.setup.CG.X) > 1e-9 {
			moved := n
			moved.Value = stability.Moved(s.Derivatives, aft, s.Derivatives.MomentZ).ByBeta.Yaw
			out = append(out, predictedNumber{clean(moved), aft, fmt.Sprintf("about the aftmost loading at %.3f m", aft)})
		}
	}
	cg, note := c.setup.CG.X, ""
	if known && s.Trimmed {
		cg, note = aft, "trimmed at the aftmost loading"
	}
	return append(out, predictedNumber{clean(prediction.Number{Quantity: evidence.RootBendingMoment, Unit: "N·m", Value: s.bending.Value, Grid: s.bending.Error}), cg, note})
}

// clean takes away what round-off leaves of nothing.
func clean(n prediction.Number) prediction.Number {
	const nothing = 1e-12
	if math.Abs(n.Value) < nothing {
		n.Value = 0
	}
	if n.Grid < nothing {
		n.Grid = 0
	}
	return n
}

// rows are the numbers of a subject for a table; without names all of them.
func (c condition) rows(p *program.Program, s *solved, names []string) []report.PredictedRow {
	var out []report.PredictedRow
	for _, n := range c.numbers(p, s) {
		if names != nil && !slices.Contains(names, n.Quantity) {
			continue
		}
		row := report.PredictedRow{Quantity: n.Quantity, Unit: n.Unit, Value: n.Value, Grid: n.Grid, Low: math.NaN(), High: math.NaN(), Note: n.note}
		if t, ok := theoryOf(p, s.airframe.Reference, s.levels, n.Quantity, n.Value); ok {
			row.Low, row.High = t.interval(n.Value)
		}
		out = append(out, row)
	}
	return out
}

// head states the condition of solved subjects.
func (c condition) head(p *program.Program, all []solved) report.LatticeHead {
	first := &all[0]
	h := report.LatticeHead{
		Program: p.Name, Reference: first.airframe.Reference, MomentX: c.setup.CG.X, MomentZ: c.setup.CG.Z, MomentWhy: c.why, LengthRatio: p.Model.LengthRatio,
		Lift: clean(prediction.Number{Value: c.setup.Lift}).Value, Alpha: c.setup.Alpha, Trimmed: first.Trimmed, Manoeuvre: c.manoeuvre, Mach: c.setup.Lattice.Mach, AlongStream: c.alongFlow, Ground: c.ground,
		Fuselage: c.setup.Body != nil, Density: c.setup.Lattice.Density, GridErrors: c.setup.Grids,
	}
	for i := range all {
		h.Panels = append(h.Panels, all[i].Solution.Panels())
	}
	return h
}

// groups are solved subjects for the table.
func (c condition) groups(p *program.Program, all []solved, names []string) []report.PredictedGroup {
	var out []report.PredictedGroup
	for i := range all {
		out = append(out, report.PredictedGroup{Name: all[i].name, Rows: c.rows(p, &all[i], names), Warnings: all[i].notes})
	}
	return out
}
