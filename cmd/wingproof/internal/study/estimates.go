package study

import (
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/estimate"
)

const normal95 = 1.959963984540054 // two-sided 95 % of the normal distribution

const (
	bodyAxes = "body axes, moments about at.cg_m"
	windAxes = "wind axes"
)

// estimates lists every number of the study in one form: measured, predicted, anchored.
func (s *Study) estimates() []evidence.Estimate {
	out := []evidence.Estimate{}
	for _, f := range s.Fits {
		for _, r := range []estimate.Result{f.NeutralPoint, f.TrimmedLiftSlope, f.ZeroLiftAlpha, f.LiftSlope, f.ZeroLiftDrag, f.DragDueToLift, f.SpanEfficiency} {
			out = append(out, s.measured(f, r))
		}
	}
	for _, c := range s.Configurations {
		out = append(out, s.predicted(c)...)
	}
	return append(out, s.Verdict.Anchored...)
}

// measured turns a fit's result into the common record.
func (s *Study) measured(f Fit, r estimate.Result) evidence.Estimate {
	e := evidence.Estimate{
		Configuration: f.Configuration, Levels: f.Levels, Quantity: r.Quantity, Unit: r.Unit, Scale: evidence.ModelScale,
		Axes: evidence.Pointer(windAxes), Origin: evidence.Measured, State: r.State, Value: r.Value, SD: r.SD, SDOwn: r.SDOwn,
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
// program states one.
func (s *Study) predicted(c Configuration) []evidence.Estimate {
	ref := c.Airframe.Reference
	errors := TheoryErrors(s.Program, ref.MeanChord)
	var out []evidence.Estimate
	for _, q := range c.predictedQuantities() {
		if math.IsNaN(q.value) {
			continue
		}
		e := evidence.Estimate{
			Configuration: c.Name, Levels: c.Levels, Quantity: q.quantity, Unit: q.unit, Scale: evidence.ModelScale,
			Axes: evidence.Pointer(bodyAxes), Power: evidence.Pointer("idle"), Origin: evidence.Predicted, State: evidence.Determined,
			Value: evidence.Pointer(q.value), Method: evidence.Pointer("vortex lattice, trimmed state"),
			Flights: []string{}, Warnings: nonNil(c.Warnings),
			At: evidence.At{CG: evidence.Pointer(c.Derivatives.MomentPoint), CGPercent: evidence.Pointer(ref.Percent(c.Derivatives.MomentPoint)),
				LiftCoefficient: evidence.Pointer(PredictionLift)},
		}
		if q.quantity == evidence.RootBendingMoment {
			e.Scale = evidence.FullSize
			e.At.LoadFactor = evidence.Pointer(s.Program.FullSize.LimitLoadFactor)
		}
		sd, known := priorSD(errors, q.quantity, q.value)
		if q.quantity == evidence.NeutralPointPercent {
			sd, known = priorSD(errors, evidence.NeutralPoint, c.NeutralPoint)
			sd *= 100 / ref.MeanChord
		}
		out = append(out, withSD(e, sd, known))
	}
	return out
}

// withSD gives an estimate a normal interval, or says that nobody states its error.
func withSD(e evidence.Estimate, sd float64, known bool) evidence.Estimate {
	if !known {
		e.Warnings = append([]string{"no model error is stated for this quantity, so it has no interval"}, e.Warnings...)
		return e
	}
	e.SD, e.SDOwn = evidence.Pointer(sd), evidence.Pointer(sd)
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
