package estimate

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/source"
)

// marginName is the name under which the scatter of −Cm_α/CL_α is pooled.
const marginName = "neutral point from manoeuvres"

// MarginFromDerivatives is the neutral point of one configuration, full-size metres aft of datum, from the pitch stiffness and the lift
// curve slope of the same manoeuvres: a second road beside trim over CGs. There is one result a power state.
//
// Each flight gives
//
//	x_NP = x_M − c·Cm_α/CL_α
//
// about its moment point x_M, less what Cm_α̇ put in, with the variance that their covariance gives to first order; flights are pooled as in
// Derivatives, pooled may be nil. lengthRatio is model over full size, meanChord the full-size mean aerodynamic chord. Source "cg" is
// borrowed with the moment point: Cm_α was moved there from the CG of the day. StaticMargin turns the result into percent of the chord.
//
// Lift is in wind axes, so what drag and lift do with a CG above or below the moment point is left out: of the order of CD·z/c.
func MarginFromDerivatives(fits []identify.Fit, lengthRatio, meanChord float64, pooled *DerivativeScatter) []Result {
	var out []Result
	for _, s := range marginSets(fits, lengthRatio*meanChord) {
		r := s.result("m", lengthRatio, pooled.of(marginName))
		r.Quantity, r.CG, r.HasCG = "neutral_point", 0, false
		r.Method = fmt.Sprintf("−Cm_α/CL_α of manoeuvres (%s), mean of flights", s.method)
		if !(lengthRatio > 0 && meanChord > 0) || !allFinite(lengthRatio, meanChord) {
			r.Value = nil
			out = append(out, undetermined(r, fmt.Sprintf("a neutral point needs a positive length ratio and chord, not %v and %v m", lengthRatio, meanChord)))
			continue
		}
		out = append(out, scaled(r, s.moment/lengthRatio, meanChord))
	}
	return out
}

// scaled maps every number x of a result to offset + scale·x, scale being positive.
func scaled(r Result, offset, scale float64) Result {
	place := func(x float64) float64 { return offset + scale*x }
	width := func(x float64) float64 { return scale * x }
	r.Value, r.Low, r.High = mapped(r.Value, place), mapped(r.Low, place), mapped(r.High, place)
	r.SD, r.SDOwn = mapped(r.SD, width), mapped(r.SDOwn, width)
	common := map[string]float64{}
	for _, name := range sourceNames(r.Common) {
		common[name] = scale * r.Common[name]
	}
	r.Common = common
	return r
}

// marginSets are the ratios −Cm_α/CL_α of every longitudinal fit.
func marginSets(fits []identify.Fit, chord float64) []derivativeSet {
	var ratios []identify.Fit
	for _, f := range fits {
		if f.Axis == identify.Longitudinal {
			f.Derivatives = []identify.Derivative{marginOf(f, chord)}
			f.Correlations = nil
			ratios = append(ratios, f)
		}
	}
	return collect(ratios, nil)
}

// marginOf is −Cm_α/CL_α of one fit, first order in the errors. chord is the model's mean chord; 0 leaves the error of unsteady flow out.
func marginOf(f identify.Fit, chord float64) identify.Derivative {
	out := identify.Derivative{Quantity: marginName, Common: map[string]float64{}}
	i, j := derivativeIndex(f, identify.PitchStiffness), derivativeIndex(f, identify.LiftCurveSlope)
	if i < 0 || j < 0 {
		out.Why = "its fit holds no pitch stiffness and lift curve slope"
		return out
	}
	m, l := f.Derivatives[i], f.Derivatives[j]
	switch {
	case !m.Determined:
		out.Why = whyLeft(m)
		return out
	case !l.Determined:
		out.Why = whyLeft(l)
		return out
	case !(l.Value > 0) || l.SD > math.Sqrt(weakG)/2*l.Value:
		out.Why = "its lift curve slope is not known well enough to divide by"
		return out
	}
	perM, perL := -1/l.Value, m.Value/square(l.Value)
	out.Value = -m.Value / l.Value
	variance := square(perM*m.SD) + square(perL*l.SD)
	if i < len(f.Covariance) && j < len(f.Covariance[i]) {
		variance += 2 * perM * perL * f.Covariance[i][j]
	}
	out.SD = math.Sqrt(math.Max(0, variance))
	for _, name := range sourceNames(m.Common) {
		out.Common[name] += perM * m.Common[name]
	}
	for _, name := range sourceNames(l.Common) {
		out.Common[name] += perL * l.Common[name]
	}
	addTurning(&out, f, chord, perM, perL)
	out.Determined = true
	return out
}

// One standard deviation of Cm_α̇ over measured pitch damping, in which it is one part: a tenth or so for a tail far behind the wing less
// its own damping, of either sign for a foreplane ahead of it; and of what a propeller's force adds to it where it was measured, since
// its moment changes with speed too. Common practice, no source.
const (
	unsteadyShare  = 0.3
	propellerShare = 0.05
)

// addTurning takes out of a margin in chords what Cm_α̇ put in. In a manoeuvre α̇ follows lift, so that the pitch stiffness that shows is
// Cm_α − κ·CL_α·Cm_α̇ with κ = ρSc/(4m) = g·c/(2V²·CL): the neutral point of manoeuvres lies off by κ·Cm_α̇. Derived from α̇ = q − L/(mV).
// Where it was not measured, it stays in doubt.
func addTurning(out *identify.Derivative, f identify.Fit, chord, perM, perL float64) {
	i, t := derivativeIndex(f, identify.PitchDamping), derivativeIndex(f, identify.PitchByAlphaRate)
	if i < 0 || !(chord > 0 && f.Airspeed > 0 && f.LiftCoefficient > 0) {
		return
	}
	kappa := atmosphere.Gravity * chord / (2 * f.Airspeed * f.Airspeed * f.LiftCoefficient)
	damping := math.Abs(f.Derivatives[i].Value)
	if t < 0 || !f.Derivatives[t].Determined {
		out.Common[source.UnsteadyFlow] = kappa * unsteadyShare * damping
		return
	}
	rate := f.Derivatives[t]
	out.Value -= kappa * rate.Value
	variance := square(out.SD) + square(kappa*rate.SD)
	m, l := derivativeIndex(f, identify.PitchStiffness), derivativeIndex(f, identify.LiftCurveSlope)
	if t < len(f.Covariance) {
		variance -= 2 * kappa * (perM*f.Covariance[m][t] + perL*f.Covariance[l][t])
	}
	out.SD = math.Sqrt(math.Max(0, variance))
	for _, name := range sourceNames(rate.Common) {
		out.Common[name] -= kappa * rate.Common[name]
	}
	out.Common[source.UnsteadyFlow] = kappa * propellerShare * damping
}

func derivativeIndex(f identify.Fit, quantity string) int {
	for i, d := range f.Derivatives {
		if d.Quantity == quantity {
			return i
		}
	}
	return -1
}
