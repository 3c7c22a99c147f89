package decide

import (
	"fmt"

	"wingproof/cmd/wingproof/internal/evidence"
)

const normal95 = 1.959963984540054 // two-sided 95 % quantile of the normal distribution

// anchored writes one belief as estimates: at model scale and at full size, and a neutral point in percent
// of the mean aerodynamic chord beside its station. Bending is a full-size quantity, and is left out where
// no root moment was predicted.
//
// Common holds the full-size errors, which all configurations share; what configurations share at model
// scale is not of product form and stays in SDOwn.
func (o *outcome) anchored(q, c int) []evidence.Estimate {
	b, t := o.belief, o.belief.theory
	quantity := t.quantities[q]
	names, sds := t.fullSizeSD(q, c)
	common := map[string]float64{}
	for s, name := range names {
		if sds[s] > 0 {
			common["full size "+name+" of "+quantity] = sds[s]
		}
	}
	full := o.estimate(q, c, evidence.FullSize, b.fullMean(q, c), b.sd(q, c), common)
	if quantity == evidence.RootBendingMoment {
		if _, predicted := o.space.configs[c].values[quantity]; !predicted {
			return nil
		}
		return []evidence.Estimate{full}
	}
	model := o.estimate(q, c, evidence.ModelScale, b.mean[q][c], b.sd(q, c), map[string]float64{})
	all := []evidence.Estimate{model, full}
	if quantity == evidence.NeutralPoint && o.problem.Aircraft.MeanChord > 0 {
		all = append(all, o.inPercent(model), o.inPercent(full))
	}
	return all
}

// estimate fills the record.
func (o *outcome) estimate(q, c int, scale string, value, own float64, common map[string]float64) evidence.Estimate {
	config := o.space.configs[c]
	total := evidence.Total(own, common)
	flights := o.belief.observed.flights(q, c)
	method := "lattice with stated errors, updated by the flights of every configuration"
	if len(o.belief.observed.rows) == 0 {
		method = "lattice with stated errors; no flights yet"
	}
	if scale == evidence.FullSize {
		method += "; carried to full size with errors that model flights do not shrink"
	}
	return evidence.Estimate{
		Configuration: config.name, Levels: config.levels, Quantity: o.belief.theory.quantities[q],
		Unit: unitOf(o.belief.theory.quantities[q]), Scale: scale, Origin: evidence.Anchored, State: evidence.Determined,
		Value: evidence.Pointer(value), SD: evidence.Pointer(total), SDOwn: evidence.Pointer(own), Common: common,
		Low: evidence.Pointer(value - normal95*total), High: evidence.Pointer(value + normal95*total),
		Set: evidence.Pointer(evidence.Interval), Method: evidence.Pointer(method),
		Flights: flights, Warnings: o.warnings(q, c, len(flights)),
	}
}

// warnings tells a reader what the number does not rest on.
func (o *outcome) warnings(q, c, flights int) []string {
	warnings := []string{}
	if flights == 0 {
		if others := o.belief.observed.configurations(q); len(others) > 0 {
			warnings = append(warnings, fmt.Sprintf("not flown in this configuration; informed by %d other", len(others)))
		} else {
			warnings = append(warnings, "no flight stands behind this number")
		}
	}
	if k := o.belief.theory.inflation; k > 1 {
		warnings = append(warnings, fmt.Sprintf("flights disagree with theory: model errors taken %.2f times as large", k))
	}
	return warnings
}

// inPercent turns a neutral point [m] into percent of the mean aerodynamic chord.
func (o *outcome) inPercent(e evidence.Estimate) evidence.Estimate {
	a := o.problem.Aircraft
	scale := 100 / a.MeanChord
	e.Quantity, e.Unit = evidence.NeutralPointPercent, unitOf(evidence.NeutralPointPercent)
	e.Value = evidence.Pointer(a.chordPercent(*e.Value))
	e.Low, e.High = evidence.Pointer(a.chordPercent(*e.Low)), evidence.Pointer(a.chordPercent(*e.High))
	e.SD, e.SDOwn = evidence.Pointer(scale**e.SD), evidence.Pointer(scale**e.SDOwn)
	common := make(map[string]float64, len(e.Common))
	for name, effect := range e.Common {
		common[name] = scale * effect
	}
	e.Common = common
	return e
}
