package decide

import (
	"math"
	"sort"
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
