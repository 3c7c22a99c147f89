package study

import (
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// measuredOf lists all that the flights of one configuration say: trim and lift, drag, stall, sideslips, derivatives, modes. Where
// several roads lead to one number, what they say together comes first.
func (s *Study) measuredOf(f Fit) []evidence.Estimate {
	var out []evidence.Estimate
	add := func(results ...estimate.Result) {
		for _, r := range results {
			out = append(out, s.measured(f, f.resting(r)))
		}
	}
	add(roadsTo(f, evidence.NeutralPoint)...)
	add(f.TrimmedLiftSlope, f.ZeroLiftAlpha)
	add(roadsTo(f, evidence.LiftCurveSlope)...)
	add(f.ZeroLiftDrag, f.DragDueToLift, f.SpanEfficiency)
	for i := range f.MaxLifts {
		lift := f.MaxLifts[i]
		_, says, _ := s.towardsForemost(f, lift)
		lift.Warnings = append(slices.Clone(lift.Warnings), says...)
		add(lift, f.StallAlphas[i])
	}
	add(estimate.ElevatorPerLift(f.TrimSlopes)...)
	add(f.ManoeuvrePoint)
	add(f.ElevatorPerG...)
	add(roadsTo(f, identify.ElevatorPower)...)
	add(f.Sideslip.Rudder, f.Sideslip.Aileron, f.Sideslip.SideForce, f.Sideslip.Bank)
	add(roadsTo(f, identify.DirectionalStiff)...)
	add(roadsTo(f, identify.DihedralEffect)...)
	for _, r := range f.Manoeuvres {
		if !slices.Contains(severalRoads(), r.Quantity) {
			add(r)
		}
	}
	add(f.Modes...)
	for _, r := range f.FullSizeModes {
		e := s.measured(f, f.resting(r))
		e.Scale = evidence.FullSize
		out = append(out, e)
	}
	return out
}

// resting calls a number from input manoeuvres weak where a stabiliser worked against the inputs: what the model did by itself and what the
// stabiliser did cannot be told apart.
func (f Fit) resting(r estimate.Result) estimate.Result {
	if !fromInputs(r) || r.State == estimate.NotDetermined || len(f.Stabilised) == 0 {
		return r
	}
	r.State = estimate.Weak
	r.Warnings = append(slices.Clone(r.Warnings), f.Stabilised...)
	return r
}

// fromInputs tells whether a number rests on input manoeuvres: all derivatives and modes do, but those that steady flight gives.
func fromInputs(r estimate.Result) bool {
	switch r.Quantity {
	case evidence.NeutralPoint, evidence.LiftCurveSlope, identify.ElevatorPower:
		return !strings.HasPrefix(r.Method, trimRoad)
	}
	return slices.Contains(quantitiesOf(identify.Longitudinal), r.Quantity) || slices.Contains(quantitiesOf(identify.Lateral), r.Quantity) ||
		slices.Contains(modesOf(identify.Longitudinal), r.Quantity) || slices.Contains(modesOf(identify.Lateral), r.Quantity)
}

// severalRoads are the quantities that more than one road leads to.
func severalRoads() []string {
	return []string{evidence.NeutralPoint, evidence.LiftCurveSlope, identify.ElevatorPower, identify.DirectionalStiff, identify.DihedralEffect}
}

// roadsTo lists what the roads to a quantity say together, where they could be pooled, and then each road.
func roadsTo(f Fit, quantity string) []estimate.Result {
	for _, a := range f.Agreements {
		if a.Pooled.Quantity != quantity {
			continue
		}
		known := slices.DeleteFunc(slices.Clone(a.Roads), func(r estimate.Result) bool { return r.Value == nil || r.SDOwn == nil })
		switch {
		case len(known) == 0:
			return []estimate.Result{a.Pooled}
		case len(known) == 1 || a.Pooled.Value == nil:
			return known
		}
		return append([]estimate.Result{a.Pooled}, known...)
	}
	return nil
}

// ofOneRudder halves what is measured with both rudders moving alike: rudder power is stated for one of them.
func ofOneRudder(r estimate.Result) estimate.Result {
	switch r.Quantity {
	case identify.RudderPower, identify.SideForceByRudder, identify.RollByRudder:
	default:
		return r
	}
	half := func(p *float64) *float64 {
		if p == nil {
			return nil
		}
		return evidence.Pointer(*p / 2)
	}
	r.Value, r.SD, r.SDOwn, r.Low, r.High = half(r.Value), half(r.SD), half(r.SDOwn), half(r.Low), half(r.High)
	r.Common = times(r.Common, 0.5)
	return r
}
