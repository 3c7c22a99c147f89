package demo

import (
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// roads are the numbers that several roads lead to: each road, and what they say together.
func (b *beside) roads() {
	for _, a := range b.fit.Agreements {
		quantity := a.Pooled.Quantity
		for _, r := range a.Roads {
			road, _, _ := strings.Cut(r.Method, ":")
			b.add(quantity+" by "+road, r, b.truthOfRoad(quantity, road, r))
		}
		pooled := a.Pooled
		b.add(quantity+" pooled", pooled, b.truthOfRoad(quantity, "", pooled))
		if len(a.Roads) > 1 && a.Freedom > 0 { // how often roads are said to disagree: a number whose truth is 1
			one, disagree := 1.0, "agree"
			if !a.Agree {
				disagree = "disagree"
			}
			b.rows = append(b.rows, rowOf(b.fit.Configuration, quantity+" roads "+disagree, estimate.Result{State: estimate.NotDetermined, Value: &a.ChiSquare}, one))
		}
	}
}

// truthOfRoad is the truth of a quantity about the station at which the predictions state it.
func (b *beside) truthOfRoad(quantity, road string, r estimate.Result) float64 {
	c := b.study.Configurations[0]
	height := c.Derivatives.MomentZ
	all := b.derivatives(b.study.ReferenceCG, c.StiffnessCG, height, b.density)
	switch quantity {
	case evidence.NeutralPoint:
		return b.keep(b.neutralPoint())
	case identify.ElevatorPower:
		if r.HasCG && r.CG != b.study.ReferenceCG { // by trims alone, not carried from the neutral point
			return b.about(b.keep(b.neutralPoint())).ByControl["elevator"].Pitch
		}
		if road == "trims over CGs" {
			return b.about(r.CG).ByControl["elevator"].Pitch
		}
	case identify.LiftCurveSlope:
		return b.aircraft.Derivatives.ByAlpha.Lift
	}
	return all[quantity]
}

// manoeuvres are the derivatives by input manoeuvres that no other road leads to.
func (b *beside) manoeuvres() {
	c := b.study.Configurations[0]
	all := b.derivatives(b.study.ReferenceCG, c.StiffnessCG, c.Derivatives.MomentZ, b.density)
	for _, r := range b.fit.Manoeuvres {
		if slices.ContainsFunc(b.fit.Agreements, func(a estimate.Agreement) bool { return a.Pooled.Quantity == r.Quantity }) {
			continue
		}
		b.add(r.Quantity+" by manoeuvres", r, all[r.Quantity])
	}
}

// modesBeside are the natural motions in the condition in which the study states them, without the errors of scales and airspeed.
func (b *beside) modesBeside() {
	for _, r := range b.fit.Modes {
		axis := identify.Lateral
		if strings.HasPrefix(r.Quantity, "short_period") || strings.HasPrefix(r.Quantity, "phugoid") {
			axis = identify.Longitudinal
		}
		if r.Quantity == estimate.SpiralTimeToDouble {
			continue // infinite in the middle of what is usual: its root is counted
		}
		b.add(r.Quantity, r, b.truthOfMode(axis, r))
	}
}

// truthOfMode is that in the mean condition of all inputs of an axis and state of power.
func (b *beside) truthOfMode(axis identify.Axis, r estimate.Result) float64 {
	var cg, speed, density, n float64
	for _, f := range b.flights() {
		for _, s := range f.Reduction.Segments {
			if (s.Control == flightlog.Elevator) == (axis == identify.Longitudinal) && s.Power == r.Power {
				cg, speed, density, n = cg+s.CGX, speed+mean(s.Airspeed), density+s.Density, n+1
			}
		}
	}
	if n == 0 {
		return math.NaN()
	}
	m, err := b.modes(cg/n/b.aircraft.LengthRatio-b.cgOffset, speed/n/(1+b.left), density/n)
	if err != nil {
		return b.keep(0, err)
	}
	truth := map[string]float64{}
	if m.ShortPeriod != nil {
		truth[estimate.ShortPeriodFrequency], truth[estimate.ShortPeriodDamping] = m.ShortPeriod.Frequency, m.ShortPeriod.Damping
	}
	if m.Phugoid != nil {
		truth[estimate.PhugoidFrequency], truth[estimate.PhugoidDamping] = m.Phugoid.Frequency, m.Phugoid.Damping
	}
	if m.DutchRoll != nil {
		truth[estimate.DutchRollFrequency], truth[estimate.DutchRollDamping] = m.DutchRoll.Frequency, m.DutchRoll.Damping
	}
	if m.Roll != nil && m.Spiral != nil {
		truth[estimate.RollTimeConstant], truth[estimate.SpiralRoot] = m.Roll.TimeConstant(), m.Spiral.Root
	}
	if v, ok := truth[r.Quantity]; ok {
		return v
	}
	return math.NaN()
}
