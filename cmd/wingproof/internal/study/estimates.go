package study

import (
	"fmt"
	"math"
	"slices"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/flightlog/estimate"
)

const normal95 = evidence.Normal95

// Axes that numbers stand in.
const (
	bodyAxes  = "body axes, moments about at.cg_m"
	windAxes  = "wind axes"
	datumAxes = "datum axes"
)

// AxesOf names the axes that a quantity stands in.
func AxesOf(quantity string) *string {
	switch quantity {
	case evidence.LiftCurveSlope, evidence.TrimmedLiftSlope, evidence.ZeroLiftDrag, "zero_lift_alpha", "drag_due_to_lift", prediction.ElevatorLift,
		prediction.InducedDrag, prediction.SpanEfficiency, prediction.BestSpanEfficiency, prediction.LiftCoefficient, prediction.LiftByPitchRate:
		return evidence.Pointer(windAxes)
	case evidence.NeutralPoint, evidence.NeutralPointPercent, evidence.StaticMargin, evidence.RootBendingMoment, prediction.Alpha,
		prediction.StallOrderMargin, prediction.StallTrimMargin, evidence.RotationMoment:
		return evidence.Pointer(datumAxes)
	}
	return evidence.Pointer(bodyAxes)
}

// estimates lists every number of the study in one form: measured, predicted, anchored.
func (s *Study) estimates() []evidence.Estimate {
	out := []evidence.Estimate{}
	for _, f := range s.Fits {
		out = append(out, s.measuredOf(f)...)
	}
	for _, c := range s.Configurations {
		out = append(out, s.predicted(c)...)
	}
	return append(out, s.anchored()...)
}

// anchored lists the verdict's beliefs with the axes they stand in, and the CG that derivatives are about.
func (s *Study) anchored() []evidence.Estimate {
	out := slices.Clone(s.Verdict.Anchored)
	for i := range out {
		out[i].Axes = AxesOf(out[i].Quantity)
		if cg, ok := s.momentCG(out[i].Quantity); ok {
			out[i].At.CG, out[i].At.CGPercent = evidence.Pointer(cg), evidence.Pointer(s.percent(cg))
		}
	}
	return out
}

// ElevatorPerLift is the quantity dδe/dCL in trim, rad.
const ElevatorPerLift = "elevator_per_lift"

// SlopeInterval is the 95 % interval of the trim slope at the CG of index i, shared errors included.
func SlopeInterval(t estimate.TrimSlopes, i int) (low, high float64) {
	r := estimate.ElevatorPerLift(t)[i]
	if r.Low == nil || r.High == nil {
		return math.Inf(-1), math.Inf(1)
	}
	return *r.Low, *r.High
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// measured turns a fit's result into the common record.
func (s *Study) measured(f Fit, r estimate.Result) evidence.Estimate {
	r = ofOneRudder(r)
	e := evidence.Estimate{
		Configuration: f.Configuration, Levels: f.Levels, Quantity: r.Quantity, Unit: r.Unit, Scale: evidence.ModelScale,
		Axes: AxesOf(r.Quantity), Origin: evidence.Measured, State: r.State, Value: r.Value, SD: r.SD, SDOwn: r.SDOwn,
		Common: r.Common, Low: r.Low, High: r.High, Flights: nonNil(r.Flights), Points: evidence.Pointer(r.Points), Warnings: nonNil(r.Warnings),
	}
	e.Power, e.Set, e.Method = stated(r.Power), stated(r.Set), stated(r.Method)
	if r.HasCG {
		e.At.CG = evidence.Pointer(r.CG)
		e.At.CGPercent = evidence.Pointer(s.percent(r.CG))
	}
	if r.Lift != 0 {
		e.At.LiftCoefficient = evidence.Pointer(r.Lift)
	}
	if r.Reynolds != 0 {
		e.At.Reynolds = evidence.Pointer(r.Reynolds)
	}
	return e
}

// percent turns a station into percent of the mean aerodynamic chord of the wing.
func (s *Study) percent(x float64) float64 {
	return s.Configurations[0].Airframe.Reference.Percent(x)
}

// predicted lists what the lattice says of a configuration, with the stated error of the theory where the
// program states one. The trimmed lift slope is given at the CG of the configuration's fit, where there is one,
// so that it stands beside the measured one like for like.
func (s *Study) predicted(c Configuration) []evidence.Estimate {
	ref := c.Airframe.Reference
	errors := TheoryErrors(s.Program, ref.MeanChord)
	var out []evidence.Estimate
	for _, q := range c.predictedQuantities() {
		cg := c.Derivatives.MomentPoint
		switch q.Quantity {
		case evidence.DirectionalStiffness:
			cg = c.StiffnessCG
		case evidence.TrimmedLiftSlope:
			cg, q.Value = s.trimmedAsFlown(c, q.Value)
		}
		if !finite(q.Value) {
			continue
		}
		e := evidence.Estimate{
			Configuration: c.Name, Levels: c.Levels, Quantity: q.Quantity, Unit: q.Unit, Scale: evidence.ModelScale,
			Axes: AxesOf(q.Quantity), Power: evidence.Pointer("idle"), Origin: evidence.Predicted, State: evidence.Determined,
			Value: evidence.Pointer(q.Value), Method: evidence.Pointer("vortex lattice, trimmed state"),
			Flights: []string{}, Warnings: nonNil(c.Warnings),
			At: evidence.At{CG: evidence.Pointer(cg), CGPercent: evidence.Pointer(ref.Percent(cg)), LiftCoefficient: evidence.Pointer(PredictionLift)},
		}
		if q.Quantity == evidence.RootBendingMoment {
			e.Scale = evidence.FullSize
			s.atRoot(c, &e)
		}
		own, common, known := ModelError(errors, c.Levels, q.Quantity, q.Value, e.Scale)
		if q.Quantity == evidence.NeutralPointPercent {
			own, common, known = ModelError(errors, c.Levels, evidence.NeutralPoint, c.NeutralPoint, e.Scale)
			own, common = own*100/ref.MeanChord, times(common, 100/ref.MeanChord)
		}
		out = append(out, withError(withGrid(e, q.Grid, common), own, common, known))
	}
	return append(out, s.slowEstimates(c, errors)...)
}

// withGrid names the error that the lattice's grid leaves, and counts half of it as one standard deviation, since the bound is meant
// to hold nearly always.
func withGrid(e evidence.Estimate, grid float64, common map[string]float64) evidence.Estimate {
	if !finite(grid) {
		return e
	}
	e.Method = evidence.Pointer(fmt.Sprintf("%s, grid error %.2g", *e.Method, grid))
	if common != nil && grid > 0 {
		common["lattice grid of "+e.Quantity] = grid / 2
	}
	return e
}

// trimmedAsFlown is the trimmed lift slope at the CG of the configuration's fit, else what is given, at ReferenceCG.
func (s *Study) trimmedAsFlown(c Configuration, slope float64) (cg, trimmed float64) {
	for _, f := range s.Fits {
		if f.Configuration != c.Name {
			continue
		}
		if there, err := stability.TrimmedLiftSlope(stability.Moved(c.Derivatives, f.CG, c.Derivatives.MomentZ)); err == nil {
			return f.CG, there
		}
	}
	return c.Derivatives.MomentPoint, slope
}

// withError gives an estimate with a value a normal interval, or says that nobody states its error.
func withError(e evidence.Estimate, own float64, common map[string]float64, known bool) evidence.Estimate {
	if !known {
		e.Warnings = append([]string{"no model error is stated for this quantity, so it has no interval"}, e.Warnings...)
		return e
	}
	sd := evidence.Total(own, common)
	e.SD, e.SDOwn, e.Common = evidence.Pointer(sd), evidence.Pointer(own), common
	e.Low, e.High = evidence.Pointer(*e.Value-normal95*sd), evidence.Pointer(*e.Value+normal95*sd)
	e.Set = evidence.Pointer(evidence.Interval)
	return e
}

func stated(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

func nonNil(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}
