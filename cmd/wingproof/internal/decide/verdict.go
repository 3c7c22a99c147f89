package decide

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// Judge answers for every configuration, level, choice and part.
//
// Each combination of levels needs one prediction. A quantity is believed when every prediction has it and
// an error is stated for it; evidence on other quantities is left aside and named in the alarms. A limit
// on a quantity that is not believed, evidence on a neutral point as such, contradictory correlations,
// unknown names and undefined numbers are errors that say where and what would be right.
//
// Probabilities come from Draws joint draws, 20,000 when zero. The same problem gives the same verdict to
// the last bit, in whatever order predictions, evidence, limits and parts are listed; rows of the board and
// configurations keep the order of their lists.
func Judge(p Problem) (Verdict, error) {
	a, err := NewJudging(p).Assess()
	if err != nil {
		return Verdict{}, err
	}
	return a.Verdict(p)
}

// assessed is a problem with its beliefs and every limit judged: all that does not depend on what people decided.
type assessed struct {
	problem   Problem
	believed  *believed
	judgement *judgement
}

// assess anchors and judges.
func assess(p Problem) (*assessed, error) {
	d, err := believe(p)
	if err != nil {
		return nil, err
	}
	j, err := judge(p, d.belief, d.requirements)
	if err != nil {
		return nil, err
	}
	return &assessed{p, d, j}, nil
}

// outcome is where everything stands under a record of decisions.
func (a *assessed) outcome(decisions []Decision) *outcome {
	p, d := a.problem, a.believed
	p.Decisions = decisions
	space := d.belief.theory.space
	o := weigh(p, space, readRecord(space, decisions), d.belief, a.judgement)
	o.agreement, o.odd = d.agreement, d.odd
	return o
}

// standings is as much of a verdict as a forecast looks at: choices, levels, limits, and of each row of the board its part, whether it is
// frozen, and what stands on paper alone.
func (a *assessed) standings(decisions []Decision) (Verdict, error) {
	o := a.outcome(decisions)
	v := Verdict{Choices: o.choices, Levels: o.levels, Configurations: o.configurationVerdicts()}
	for _, part := range o.problem.Parts {
		d, err := o.demandsOf(part)
		if err != nil {
			return v, fmt.Errorf("part %q: %w", part.Name, err)
		}
		f := o.find(part, d)
		row := Row{Part: part.Name, Side: part.Side}
		row.Status, row.OnPaper = f.status()
		v.Board = append(v.Board, row)
	}
	return v, nil
}

// verdict is what follows under a record of decisions.
func (a *assessed) verdict(decisions []Decision) (Verdict, error) {
	o := a.outcome(decisions)
	board, err := o.board()
	if err != nil {
		return Verdict{}, err
	}
	p := o.problem
	return Verdict{
		Date: p.Date, Choices: o.choices, Levels: o.levels, Configurations: o.configurationVerdicts(),
		Agreement: o.agreementInFull(), Anchored: o.estimates(), Board: board, Alarms: o.alarms(), LeftOut: append([]LeftOut{}, p.LeftOut...), NotJudged: notJudged(),
	}, nil
}

// configurationVerdicts are all combinations in their order.
func (o *outcome) configurationVerdicts() []ConfigurationVerdict {
	verdicts := make([]ConfigurationVerdict, len(o.space.configs))
	for c, config := range o.space.configs {
		limits := slices.Clone(o.judgement.verdicts[c])
		for r := range limits {
			limits[r].FlightsNeed = o.needsFlights(r)
		}
		verdicts[c] = ConfigurationVerdict{
			Configuration: config.name, Levels: config.levels, State: o.state[c], Live: o.live[c],
			AllHold: o.judgement.all[c], Limits: limits, Flights: o.allFlights(c),
		}
		if low, high, ok := o.trimRange(c); ok {
			verdicts[c].FlyBetween = &[2]float64{low, high}
		}
		if q := o.belief.theory.quantity(evidence.NeutralPoint); q >= 0 && o.problem.Aircraft.MeanChord > 0 {
			verdicts[c].AftLimit = evidence.Pointer(o.aftLimit(q, c))
		}
	}
	return verdicts
}

// allFlights lists every flight of a configuration that taught something.
func (o *outcome) allFlights(c int) []string {
	flights := []string{}
	for q := range o.belief.theory.quantities {
		flights = append(flights, o.belief.observed.flights(q, c)...)
	}
	slices.Sort(flights)
	return slices.Compact(flights)
}

// estimates are the anchored beliefs of every configuration at both scales.
func (o *outcome) estimates() []evidence.Estimate {
	all := []evidence.Estimate{}
	for c := range o.space.configs {
		for q := range o.belief.theory.quantities {
			all = append(all, o.anchored(q, c)...)
		}
	}
	return all
}

// alarms are what nobody may overlook.
func (o *outcome) alarms() []string {
	alarms := []string{}
	if o.liveCount() == 0 {
		alarms = append(alarms, Contradiction+": "+o.contradiction())
	}
	for _, choice := range o.space.choices {
		row, settled := o.standing.settled[choice.Name]
		if settled && o.verdictOn(choice.Name, row.Level).State == Out {
			alarms = append(alarms, fmt.Sprintf("%s is settled at %s (%s), but %s", choice.Name, row.Level, cite(row), o.againstEvidence(choice.Name)))
		}
	}
	if o.agreement.Inflation > 1 {
		alarms = append(alarms, o.agreement.Text)
	}
	for _, part := range o.unstated() {
		alarms = append(alarms, fmt.Sprintf("nobody has stated what the %s %s carries, so no size is judged against it: "+
			"add [built.%s] with its bending_allowable to program.toml", stageWord(part.Stage), part.Name, strings.ReplaceAll(plainName(part.Name), " ", "_")))
	}
	if len(o.judgement.requirements) == 0 {
		alarms = append(alarms, "no limit is stated, so nothing is judged")
	}
	alarms = append(alarms, o.standing.oddities...)
	return append(alarms, o.belief.observed.unused...)
}

// notJudged is the fixed block that ends board and report.
func notJudged() []string {
	return []string{
		"flutter",
		"aeroelastic twist",
		"deep stall and spin",
		"contaminated surfaces in flight",
		"systems",
	}
}
