package estimate

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog/identify"
)

// Lent is a derivative that a sideslip borrows from another road.
type Lent struct {
	Quantity string // by its name in package identify
	Value    float64
	SD       float64            // of the random part
	Degrees  float64            // of freedom behind SD; 0 takes it as known
	Common   map[string]float64 // signed effect of one standard deviation of each shared source
}

// Loan is what a sideslip borrows: control powers, and damping derivatives where small rates are to be taken off. Covariance holds
// the random parts in the order of Derivatives; nil takes them as independent.
//
// MomentCG is the point that they refer to, full-size metres aft of datum, and Span the full-size span: with them the side force of each
// sideslip, which acts at the CG of its flight, is carried to that point. A span of 0 leaves that out.
type Loan struct {
	Derivatives []Lent
	Covariance  [][]float64
	MomentCG    float64
	Span        float64
}

// sideForceAt is the yawing moment about the moment point that balances in a sideslip: none about the CG of its flight, and about another
// point that of the side force, Cn_P = (x_P − x_CG)·CY/b.
func (l Loan) sideForceAt(s Slip) float64 {
	if !(l.Span > 0) {
		return 0
	}
	return (l.MomentCG - s.CG) / l.Span * s.SideForce
}

// LoanFrom lends pooled results whose random parts are independent; those without a number are passed over.
func LoanFrom(results ...Result) Loan {
	var out Loan
	for _, r := range results {
		if r.Value != nil && r.SDOwn != nil {
			out.Derivatives = append(out.Derivatives, Lent{Quantity: r.Quantity, Value: *r.Value, SD: *r.SDOwn, Degrees: r.Degrees, Common: r.Common})
		}
	}
	return out
}

func (l Loan) find(quantity string) (int, bool) {
	for i, d := range l.Derivatives {
		if d.Quantity == quantity && allFinite(d.Value, d.SD) {
			return i, true
		}
	}
	return 0, false
}

// SideslipRoad is a derivative by the road of steady sideslips. Its random part splits into that of the sideslips, SlopeSD, and that of
// what was borrowed: Σ Sensitivity_i·(error of derivative i), by the names in package identify. Two roads that borrow from one loan, or a
// road and the fit that lent to it, are so tied together.
type SideslipRoad struct {
	Result
	SlopeSD     float64
	Sensitivity map[string]float64
}

// term is one product of a moment balance: a borrowed derivative times what a slip holds.
type term struct {
	quantity string
	words    string
	of       func(Slip) float64
	sd       func(Slip) float64
	scale    string // the shared source that stretches what the slip holds; "" for none
	needed   bool   // without it there is no number
	control  bool   // without it the number is weak; a rate is small and may be left out
}

func slipTerms(byRudder, byAileron, byRoll, byYaw string, mainRudder bool) []term {
	none := func(Slip) float64 { return 0 }
	return []term{
		{byRudder, "the rudder's part", func(s Slip) float64 { return s.Rudder }, func(s Slip) float64 { return s.RudderSD }, SourceRudderScale, mainRudder, true},
		{byAileron, "the aileron's part", func(s Slip) float64 { return s.Aileron }, func(s Slip) float64 { return s.AileronSD }, SourceAileronScale, !mainRudder, true},
		{byRoll, "what was left of rolling", func(s Slip) float64 { return s.RollRate }, none, "", false, false},
		{byYaw, "what was left of turning", func(s Slip) float64 { return s.YawRate }, none, "", false, false},
	}
}

// StiffnessFromSideslip gives directional stiffness Cn_β and dihedral effect Cl_β [1/rad] from steady-heading sideslips, in which the
// moments of sideslip, controls and what is left of turning balance:
//
//	Cn_β = −d/dβ (Cn_δr·δr + Cn_δa·δa + Cn_p·p̂ + Cn_r·r̂),
//	Cl_β = −d/dβ (Cl_δr·δr + Cl_δa·δa + Cl_p·p̂ + Cl_r·r̂),
//
// p̂ and r̂ made dimensionless with b/2V. The derivatives on the right are borrowed and must refer to the same moment point. Rudder power is
// needed for the first, aileron power for the second; without the other control the result is weak; rates are
// taken off where their derivatives were lent. Each flight gives one slope of the whole right-hand side, so what rudder and aileron
// have in common is in its scatter. A gain of a surface's calibration enters the slope and, with the other sign, the borrowed power: it
// cancels where both came from the same servo.
//
// Source: B. Etkin, Dynamics of Flight, section on steady sideslips (from memory).
func StiffnessFromSideslip(slips []Slip, loan Loan, s Systematics, pooled *Scatter) (directional, dihedral SideslipRoad) {
	directional = sideslipRoad(identify.DirectionalStiff, slips, loan, s, pooled,
		slipTerms(identify.RudderPower, identify.YawByAileron, identify.YawDueToRoll, identify.YawDamping, true))
	dihedral = sideslipRoad(identify.DihedralEffect, slips, loan, s, pooled,
		slipTerms(identify.RollByRudder, identify.AileronPower, identify.RollDamping, identify.RollDueToYaw, false))
	return directional, dihedral
}

func sideslipRoad(quantity string, slips []Slip, loan Loan, s Systematics, pooled *Scatter, terms []term) SideslipRoad {
	lent, missing, weak := lentTerms(terms, loan)
	response := balanceResponse(lent, loan)
	if quantity == identify.DirectionalStiff {
		response = response.plus(loan.sideForceAt)
	}
	data := prepareSlips(slips, response)
	out := SideslipRoad{Result: slipLabel(quantity, data, slips), Sensitivity: map[string]float64{}}
	out.Unit, out.Method = "1/rad", "steady-heading sideslips with borrowed control powers"
	if missing != "" {
		out.Result = undetermined(out.Result, missing)
		return out
	}
	l, used, words, err := slipLine(&out.Result, data, response, pooled)
	out.Warnings = append(out.Warnings, words...)
	if err != nil {
		out.Result = undetermined(out.Result, err.Error())
		return out
	}
	value, sd := l.at(l.centre)
	out.SlopeSD = sd
	common := s.withCG(map[string]float64{}, l.perCG(), 0)
	for _, t := range lent {
		i, _ := loan.find(t.quantity)
		slope := t.slope(slips, used)
		out.Sensitivity[t.quantity] = -slope
		for _, name := range sourceNames(loan.Derivatives[i].Common) {
			common[name] -= slope * loan.Derivatives[i].Common[name]
		}
		if t.scale != "" {
			common[t.scale] -= slope * loan.Derivatives[i].Value * s.scaleOf(t.scale)
		}
	}
	at := l.centre
	if loan.Span > 0 {
		at = loan.MomentCG
	}
	return out.finish(value, at, loan, common, weak)
}

// finish fills the number. Degrees of freedom are Satterthwaite's, of the sideslips and of each part that was borrowed.
func (r SideslipRoad) finish(value, cg float64, loan Loan, common map[string]float64, weak []string) SideslipRoad {
	parts := []variancePart{{square(r.SlopeSD), r.Degrees}}
	for _, d := range loan.Derivatives {
		degrees := math.Inf(1)
		if d.Degrees > 0 {
			degrees = d.Degrees
		}
		parts = append(parts, variancePart{square(r.Sensitivity[d.Quantity] * positive(d.SD)), degrees})
	}
	r.CG, r.HasCG = cg, true
	if r.Degrees = satterthwaite(parts); !allFinite(r.Degrees) {
		r.Degrees = manyDegrees // no scatter at all
	}
	r.Result = thin(fillStudent(r.Result, value, math.Sqrt(square(r.SlopeSD)+loan.variance(r.Sensitivity)), common))
	for _, w := range weak {
		r.Result = weaken(r.Result, w)
	}
	if r.High != nil && (*r.High-*r.Low)/2 > weakShare*math.Abs(value) {
		r.Result = weaken(r.Result, fmt.Sprintf("the 95 %% interval reaches %.0f %% to either side", 50*(*r.High-*r.Low)/math.Abs(value)))
	}
	return r
}

// lentTerms keeps the terms whose derivative was lent; words for those that were not.
func lentTerms(terms []term, loan Loan) (lent []term, missing string, weak []string) {
	for _, t := range terms {
		_, found := loan.find(t.quantity)
		name := strings.ReplaceAll(t.quantity, "_", " ")
		switch {
		case found:
			lent = append(lent, t)
		case t.needed:
			missing = fmt.Sprintf("steady sideslips tell a ratio only: %s must come from input manoeuvres of that control at the same speed; what is said of it tells what is wanting", name)
		case t.control:
			weak = append(weak, fmt.Sprintf("%s is left out: %s is not known", t.words, name))
		}
	}
	return lent, missing, weak
}

// balanceResponse is minus the moment of everything but sideslip.
func balanceResponse(terms []term, loan Loan) slipResponse {
	return slipResponse{"balance of moments", func(s Slip) (float64, float64) {
		value, variance := 0.0, 0.0
		for _, t := range terms {
			i, _ := loan.find(t.quantity)
			power := loan.Derivatives[i].Value
			value -= power * t.of(s)
			variance += square(power * positive(t.sd(s)))
		}
		return value, math.Sqrt(variance)
	}}
}

// plus adds an exact part to a response.
func (r slipResponse) plus(more func(Slip) float64) slipResponse {
	return slipResponse{r.name, func(s Slip) (float64, float64) {
		value, sd := r.of(s)
		return value + more(s), sd
	}}
}

// slope is the change of what a term holds with sideslip, flights weighed as for the balance of moments.
func (t term) slope(slips []Slip, used component) float64 {
	own := slipResponse{t.words, func(s Slip) (float64, float64) { return t.of(s), t.sd(s) }}
	l, err := fitInCG(numbers(prepareSlips(slips, own).lines, slopeTarget), used.variance)
	if err != nil {
		return 0
	}
	return l.coefficients[0]
}

// variance is that of the borrowed part.
func (l Loan) variance(sensitivity map[string]float64) float64 {
	sum := 0.0
	for i, a := range l.Derivatives {
		for j, b := range l.Derivatives {
			switch {
			case l.Covariance != nil:
				sum += sensitivity[a.Quantity] * sensitivity[b.Quantity] * l.Covariance[i][j]
			case i == j:
				sum += square(sensitivity[a.Quantity] * positive(a.SD))
			}
		}
	}
	return math.Max(0, sum)
}

// scaleOf is the standard deviation of the gain of a surface's calibration.
func (s Systematics) scaleOf(source string) float64 {
	if source == SourceRudderScale {
		return s.RudderScale
	}
	return s.AileronScale
}
