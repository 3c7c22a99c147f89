package study

import (
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// Between is one quantity over all configurations: what a choice cannot change is estimated once, what it changes level by level.
type Between struct {
	Quantity string
	Overview estimate.Overview
}

// leastChange is the share by which the lattice must move a quantity between two levels of a choice for that choice to count
// as one that can change it. Common practice, no source: a tenth of what flights can tell.
const leastChange = 0.005

// between sets the levels of every choice against each other, for what designers ask about.
func (s *Study) between() []Between {
	var out []Between
	if len(s.Program.Choices) == 0 || len(s.Fits) < 2 {
		return out
	}
	var asked []map[string]string
	for _, c := range s.Configurations {
		asked = append(asked, c.Levels)
	}
	for _, q := range comparedBetween(s.Fits) {
		var flown []estimate.Flown
		for _, f := range s.Fits {
			if r := q.of(f); r.Value != nil && r.State != estimate.NotDetermined {
				flown = append(flown, estimate.Flown{Levels: f.Levels, Result: r})
			}
		}
		if len(flown) >= 2 {
			out = append(out, Between{q.quantity, estimate.OverConfigurations(flown, s.changes(q.quantity), asked)})
		}
	}
	return out
}

// comparedQuantity is a quantity with where a fit holds it.
type comparedQuantity struct {
	quantity string
	of       func(Fit) estimate.Result
}

func comparedBetween(fits []Fit) []comparedQuantity {
	roads := func(quantity string) comparedQuantity {
		return comparedQuantity{quantity, func(f Fit) estimate.Result { return f.pooled(quantity) }}
	}
	manoeuvres := func(quantity string) comparedQuantity {
		return comparedQuantity{quantity, func(f Fit) estimate.Result { return resultOf(f.Manoeuvres, quantity) }}
	}
	return []comparedQuantity{
		{evidence.NeutralPoint, func(f Fit) estimate.Result { return f.NeutralPoint }},
		{evidence.LiftCurveSlope, func(f Fit) estimate.Result { return f.LiftSlope }},
		{"max_lift_coefficient", maxLiftAt(commonStation(fits))},
		{evidence.ZeroLiftDrag, func(f Fit) estimate.Result { return f.ZeroLiftDrag }},
		manoeuvres(identify.ElevatorPower), manoeuvres(identify.PitchDamping),
		roads(identify.DirectionalStiff), roads(identify.DihedralEffect), manoeuvres(identify.RudderPower), manoeuvres(identify.RollDamping), manoeuvres(identify.YawDamping),
		{estimate.DutchRollFrequency, func(f Fit) estimate.Result { return resultOf(f.Modes, estimate.DutchRollFrequency) }},
		{estimate.DutchRollDamping, func(f Fit) estimate.Result { return resultOf(f.Modes, estimate.DutchRollDamping) }},
	}
}

// commonStation is the CG at which most configurations have a greatest lift, the foremost of several.
func commonStation(fits []Fit) float64 {
	best, most := math.NaN(), 0
	for _, f := range fits {
		for _, r := range f.MaxLifts {
			n := 0
			for _, other := range fits {
				if maxLiftAt(r.CG)(other).Value != nil {
					n++
				}
			}
			if r.Value != nil && (n > most || n == most && r.CG < best) {
				best, most = r.CG, n
			}
		}
	}
	return best
}

// maxLiftAt finds the greatest lift of a fit at a CG, full-size m.
func maxLiftAt(cg float64) func(Fit) estimate.Result {
	return func(f Fit) estimate.Result {
		for _, r := range f.MaxLifts {
			if r.Value != nil && math.Abs(r.CG-cg) <= estimate.SameStation {
				return r
			}
		}
		return estimate.Result{Quantity: "max_lift_coefficient", State: estimate.NotDetermined}
	}
}

// resultOf is the result of a quantity that holds a number; the first of several.
func resultOf(results []estimate.Result, quantity string) estimate.Result {
	for _, r := range results {
		if r.Quantity == quantity && r.Value != nil {
			return r
		}
	}
	return estimate.Result{Quantity: quantity, State: estimate.NotDetermined}
}

// changes tells which choices can change a quantity: those whose levels the lattice moves apart. What the lattice does not predict counts as
// changed by every choice.
func (s *Study) changes(quantity string) map[string]bool {
	out := map[string]bool{}
	for _, choice := range s.Program.Choices {
		out[choice.Name] = false
		for _, a := range s.Configurations {
			for _, b := range s.Configurations {
				if !differOnlyIn(a.Levels, b.Levels, choice.Name) {
					continue
				}
				va, vb := a.Analysis.Value(quantity), b.Analysis.Value(quantity)
				scale := math.Abs(va)
				if quantity == evidence.NeutralPoint {
					scale = a.Airframe.Reference.MeanChord
				}
				if !(math.Abs(va-vb) <= leastChange*scale) { // what is not predicted is no number, and counts as changed
					out[choice.Name] = true
				}
			}
		}
	}
	return out
}

// differOnlyIn tells whether two configurations differ in one choice and nothing else.
func differOnlyIn(a, b map[string]string, choice string) bool {
	if a[choice] == b[choice] {
		return false
	}
	for name, level := range a {
		if name != choice && b[name] != level {
			return false
		}
	}
	return true
}
