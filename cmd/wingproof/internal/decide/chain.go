package decide

import (
	"fmt"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// chain is the numbers that lead to a part's row: choices and levels, then each limit in every
// configuration still possible (or in all, when none is), then what stands behind them.
func (o *outcome) chain(d demands) []string {
	lines := []string{}
	for _, choice := range d.shapedBy {
		v := o.choiceState(choice)
		lines = append(lines, fmt.Sprintf("%s: %s; %s", choice, v.State, v.Why))
		for _, level := range o.levels {
			if level.Choice == choice {
				lines = append(lines, fmt.Sprintf("%s=%s is %s: %s", choice, level.Level, level.State, level.Why))
			}
		}
	}
	configs := o.liveConfigs()
	if len(configs) == 0 {
		for c, candidate := range o.candidate {
			if candidate {
				configs = append(configs, c)
			}
		}
	}
	for _, r := range d.limits {
		for i, c := range configs {
			if i == 0 || o.judgement.requirements[r].kind() != restsOnWeight {
				lines = append(lines, o.limitLine(r, c))
			}
		}
		lines = append(lines, o.sourceLines(r)...)
	}
	for _, c := range configs {
		if len(d.limits) > 1 && !o.onWeightAlone(d.limits) {
			lines = append(lines, fmt.Sprintf("together with %s: %s sure", o.space.configs[c].name, percent(o.judgement.together(c, d.limits, false))))
		}
	}
	if len(d.limits) > 0 {
		lines = append(lines, o.evidenceLines()...)
	}
	return lines
}

// limitLine is one limit in one configuration: probability, median, 95 % range, bound, where.
func (o *outcome) limitLine(r, c int) string {
	requirement, v := o.judgement.requirements[r], o.judgement.verdicts[c][r]
	name := o.space.configs[c].name
	if requirement.kind() == restsOnWeight {
		name = "whatever the sizes"
	}
	text := fmt.Sprintf("%s, %s: %s sure; median %s, 95 %% range %s to %s, asked %s", requirement.Name, name,
		percent(v.Probability), inUnit(v.Median, v.Unit, v.Quantity), inUnit(v.Low, v.Unit, v.Quantity), inUnit(v.High, v.Unit, v.Quantity), requirement.bounds())
	if v.Where != "" {
		text += "; worst: " + v.Where
	}
	if v.Quantity == evidence.StaticMargin {
		text += o.marginStations(c, v.Where)
	}
	flights := o.flightsBehind(requirement, c)
	if len(flights) > 0 {
		text += "; flights " + strings.Join(flights, ", ")
	}
	return text
}

// marginStations are neutral point and CG behind a static margin, at both sizes.
func (o *outcome) marginStations(c int, loading string) string {
	q := o.belief.theory.quantity(evidence.NeutralPoint)
	ratio := o.problem.LengthRatio
	text := fmt.Sprintf("; neutral point %s at full size, spread %.3f m", station(o.belief.fullMean(q, c), ratio), o.belief.fullSD(q, c))
	for _, l := range o.problem.Aircraft.Loadings {
		if l.Name == loading {
			text += ", centre of gravity " + station(loaded(o.problem.Aircraft.nominal(), l).x, ratio)
		}
	}
	return text
}

// sourceLines say where a limit comes from and whether flights stand behind it.
func (o *outcome) sourceLines(r int) []string {
	requirement := o.judgement.requirements[r]
	var lines []string
	if requirement.Source != "" {
		lines = append(lines, requirement.Name+": source "+requirement.Source)
	}
	if o.needsFlights(r) {
		lines = append(lines, requirement.Name+": asks for flight evidence, but fewer than two flights of any combination still possible stand behind it; theory with its stated errors carries it")
		if !readFromFlights(requirement.belief()) {
			lines = append(lines, fmt.Sprintf("%s: the program reads no %s from logs, so no flight changes that yet", requirement.Name, plainName(requirement.belief())))
		}
	}
	for _, q := range requirement.beliefs {
		quantity := o.belief.theory.quantities[q]
		lines = append(lines, fmt.Sprintf("%s: error of theory on %s from %s", requirement.Name, plainName(quantity), o.belief.theory.errors[q].Source))
	}
	return lines
}

// evidenceLines say how flights and theory agree, what was left out, and what could not be used.
func (o *outcome) evidenceLines() []string {
	lines := append([]string{o.agreementInFull().Text}, o.belief.observed.unused...)
	for _, left := range o.problem.LeftOut {
		lines = append(lines, fmt.Sprintf("flight %s (%s) is left out: %s", left.Flight, evidence.Name(left.Levels), left.Why))
	}
	return lines
}

// onWeightAlone tells whether no configuration makes a difference to any of the requirements.
func (o *outcome) onWeightAlone(requirements []int) bool {
	for _, r := range requirements {
		if o.judgement.requirements[r].kind() != restsOnWeight {
			return false
		}
	}
	return true
}
