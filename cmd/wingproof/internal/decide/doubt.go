package decide

import (
	"fmt"
	"math"
	"sort"

	"wingproof/cmd/wingproof/internal/evidence"
)

// Sources of doubt about a requirement, by what would lessen them.
const (
	doubtModel     = "model"     // flights of the model
	doubtStep      = "full size" // section data, power and shape at full size
	doubtWeight    = "weight"    // scales under the full-size aircraft
	doubtAllowable = "allowable" // a proof load
)

// doubt is a share of the variance of a judged quantity.
type doubt struct {
	group, name string
	variance    float64
}

// doubts splits the variance of a requirement in one configuration by source, to first order about the
// stated values, greatest group first.
func (o *outcome) doubts(r, c int) []doubt {
	requirement := o.judgement.requirements[r]
	var all []doubt
	if name := requirement.belief(); name != "" {
		all = o.beliefDoubts(requirement, o.belief.theory.quantity(name), c)
	}
	if k := requirement.kind(); k == restsOnWeight || k == restsOnBoth {
		all = append(all, o.weightDoubts(requirement, c)...)
	}
	if requirement.built != nil {
		sd := requirement.ratio[c] * requirement.built.SD
		all = append(all, doubt{doubtAllowable, requirement.built.Part, sd * sd})
	}
	total := map[string]float64{}
	for _, d := range all {
		total[d.group] += d.variance
	}
	sort.SliceStable(all, func(i, j int) bool {
		if a, b := total[all[i].group], total[all[j].group]; a != b {
			return a > b
		}
		return all[i].variance > all[j].variance
	})
	return all
}

// beliefDoubts are those of model and full-size step, in the unit of the requirement.
func (o *outcome) beliefDoubts(requirement requirement, q, c int) []doubt {
	scale := 1.0
	switch requirement.kind() {
	case restsOnBoth:
		scale = 100 / o.problem.Aircraft.MeanChord
	case restsOnBending:
		if mean := math.Abs(o.belief.theory.mean[q][c]); mean > 0 {
			scale = requirement.ratio[c] / mean
		}
	}
	sd := scale * o.belief.sd(q, c)
	all := []doubt{{doubtModel, o.belief.theory.quantities[q], sd * sd}}
	names, sds := o.belief.theory.fullSizeSD(q, c)
	for s, name := range names {
		all = append(all, doubt{doubtStep, name, scale * sds[s] * scale * sds[s]})
	}
	return all
}

// weightDoubts come from central differences of one standard deviation to either side.
func (o *outcome) weightDoubts(requirement requirement, c int) []doubt {
	a := o.problem.Aircraft
	e := a.nominal()
	effect := func(low, high empty) float64 {
		half := (o.nominal(requirement, c, high) - o.nominal(requirement, c, low)) / 2
		return half * half
	}
	dm, dx, dz := math.Min(a.EmptyMass.SD, 0.5*e.mass), a.EmptyX.SD, a.EmptyZ.SD
	return []doubt{
		{doubtWeight, "empty mass", effect(empty{e.mass - dm, e.x, e.z}, empty{e.mass + dm, e.x, e.z})},
		{doubtWeight, "empty centre of gravity", effect(empty{e.mass, e.x - dx, e.z}, empty{e.mass, e.x + dx, e.z})},
		{doubtWeight, "height of the empty centre of gravity", effect(empty{e.mass, e.x, e.z - dz}, empty{e.mass, e.x, e.z + dz})},
	}
}

// nominal evaluates a requirement on weight without any draw, at the side that it binds.
func (o *outcome) nominal(requirement requirement, c int, e empty) float64 {
	a := o.problem.Aircraft
	s := overLoadings([]empty{e}, requirement.loadings, weightValue(requirement.Quantity, a.Gear))
	neutral := []float64{0}
	if q := o.belief.theory.quantity(requirement.belief()); q >= 0 {
		neutral[0] = o.belief.fullMean(q, c)
	}
	s = s.finish(requirement.Quantity, a.MeanChord, neutral)
	if requirement.AtLeast != nil {
		return s.least[0]
	}
	return s.most[0]
}

// clearRequirement names the flight or the measurement that would lessen the greatest doubt about a
// requirement in one configuration.
func (o *outcome) clearRequirement(r, c int) string {
	requirement := o.judgement.requirements[r]
	for _, d := range o.doubts(r, c) {
		if d.variance <= 0 {
			break
		}
		switch d.group {
		case doubtWeight:
			return o.clearWeight(d.name)
		case doubtAllowable:
			return "load the " + plainName(requirement.built.Part) + " for proof: most of the doubt is what it can carry"
		case doubtStep:
			return clearStep(d.name)
		default:
			return o.clearFlight(requirement, c)
		}
	}
	return "nothing measured would help, the figures are not in doubt: change the shape, the loading or the limit"
}

// clearWeight asks for scales.
func (o *outcome) clearWeight(name string) string {
	a := o.problem.Aircraft
	if a.EmptyMass.Status == "weighed" && a.EmptyX.Status == "weighed" {
		return "weigh the empty aircraft again, more closely: most of the doubt is its " + name + ", and no flight of the model lessens that"
	}
	return "weigh the empty aircraft: most of the doubt is its " + name + ", which is only estimated, and no flight of the model lessens that"
}

// clearStep asks for what the model cannot show.
func clearStep(name string) string {
	what := map[string]string{
		"reynolds": "get section data at full-size speed",
		"power":    "measure the propeller's pull on trim, idle against full power",
		"shape":    "measure the full-size parts against the drawing",
	}[name]
	if what == "" {
		what = "get a full-size measurement of " + plainName(name)
	}
	return what + ": most of the doubt is the step from model to full size, which no flight of the model lessens"
}

// clearFlight names the configuration and what to fly.
func (o *outcome) clearFlight(requirement requirement, c int) string {
	name := o.space.configs[c].name
	text := "fly " + name + " " + o.card(requirement, c)
	if requirement.built != nil {
		text = "check the bending of " + name + " by a second road (strain gauges on the model, or another computation): most of the doubt is the load that theory gives"
	}
	for _, left := range o.problem.LeftOut {
		if evidence.Name(left.Levels) == name {
			text += fmt.Sprintf("; flight %s was left out: %s", left.Flight, left.Why)
		}
	}
	return text
}

// card is the manoeuvre that informs a quantity.
func (o *outcome) card(requirement requirement, c int) string {
	switch requirement.Quantity {
	case evidence.StaticMargin:
		return o.trimCard(c)
	case evidence.DirectionalStiffness:
		return "with steady sideslips and rudder steps"
	case evidence.ZeroLiftDrag:
		return "in power-off glides over the speed range"
	default:
		return "in steady runs over the speed range"
	}
}

// trimCard names the centre of gravity that a trim flight lacks most: two when none was flown, else the
// end of the loadings' range that lies farther from those flown.
func (o *outcome) trimCard(c int) string {
	low, high, ok := o.trimRange(c)
	if !ok {
		return "over the speed range at two centres of gravity"
	}
	at := func(x float64) string {
		text := station(x, o.problem.LengthRatio)
		if o.problem.Aircraft.MeanChord > 0 {
			text += fmt.Sprintf(", %.0f %% of the chord", o.problem.Aircraft.chordPercent(x))
		}
		return text
	}
	caution := "; start forward and move aft in small steps"
	flown := o.flownCG(c)
	if len(flown) == 0 {
		return "over the speed range with the centre of gravity at " + at(low) + " and at " + at(high) + caution
	}
	distance := func(x float64) float64 {
		nearest := math.Inf(1)
		for _, cg := range flown {
			nearest = math.Min(nearest, math.Abs(x-cg))
		}
		return nearest
	}
	if distance(low) >= distance(high) {
		return "over the speed range with the centre of gravity at " + at(low)
	}
	return "over the speed range with the centre of gravity at " + at(high) + caution
}

// trimRange is the range of CGs to fly a configuration at: that of the loadings that fly, but no farther
// aft than three percent of the chord ahead of the neutral point's lower two-sigma bound, and then at
// least ten percent long, forward.
func (o *outcome) trimRange(c int) (low, high float64, ok bool) {
	low, high, ok = o.flyingRange()
	q, chord := o.belief.theory.quantity(evidence.NeutralPoint), o.problem.Aircraft.MeanChord
	if !ok || q < 0 || !(chord > 0) {
		return low, high, ok
	}
	high = math.Min(high, o.belief.mean[q][c]-2*o.belief.sd(q, c)-0.03*chord)
	return math.Min(low, high-0.1*chord), high, true
}

// flyingRange is the nominal range of CG stations over the loadings that fly.
func (o *outcome) flyingRange() (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, l := range o.problem.Aircraft.Loadings {
		if l.Flies && o.problem.Aircraft.EmptyMass.Value > 0 {
			x := loaded(o.problem.Aircraft.nominal(), l).x
			low, high, ok = math.Min(low, x), math.Max(high, x), true
		}
	}
	return low, high, ok
}

// flownCG lists the CGs at which a configuration has trim slopes.
func (o *outcome) flownCG(c int) []float64 {
	var flown []float64
	for _, row := range o.belief.observed.rows {
		if row.trim && row.config == c {
			flown = append(flown, row.cg)
		}
	}
	return flown
}
