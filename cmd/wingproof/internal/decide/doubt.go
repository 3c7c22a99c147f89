package decide

import (
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

// doubt is a share of the variance of a judged quantity. Quantity is the belief that it comes in through, where it does.
type doubt struct {
	group, name string
	quantity    string
	variance    float64
}

// doubts splits the variance of a requirement in one configuration by source, to first order about the
// stated values, greatest group first.
func (o *outcome) doubts(r, c int) []doubt {
	requirement := o.judgement.requirements[r]
	all := o.beliefDoubts(requirement, c)
	if requirement.weighs() {
		all = append(all, o.weightDoubts(requirement, c)...)
	}
	if requirement.built != nil {
		sd := requirement.ratio[c] * requirement.built.SD
		all = append(all, doubt{group: doubtAllowable, name: requirement.built.Part, variance: sd * sd})
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

// beliefDoubts are those of model and full-size step, in the unit of the requirement: each belief is moved by one standard
// deviation to either side of what is believed.
func (o *outcome) beliefDoubts(requirement requirement, c int) []doubt {
	var all []doubt
	for k, q := range requirement.beliefs {
		quantity := o.belief.theory.quantities[q]
		effect := func(sd float64) float64 {
			up, down := o.stated(requirement, c), o.stated(requirement, c)
			up.beliefs[k], down.beliefs[k] = up.beliefs[k]+sd, down.beliefs[k]-sd
			return halfSquared(o.nominal(requirement, c, down), o.nominal(requirement, c, up))
		}
		all = append(all, doubt{doubtModel, quantity, quantity, effect(o.belief.sd(q, c))})
		names, sds := o.belief.theory.fullSizeSD(q, c)
		for s, name := range names {
			all = append(all, doubt{doubtStep, name, quantity, effect(sds[s])})
		}
	}
	return all
}

// weightDoubts come from central differences of one standard deviation to either side.
func (o *outcome) weightDoubts(requirement requirement, c int) []doubt {
	a := o.problem.Aircraft
	moves := []struct {
		name string
		by   func(x *nominalState, sign float64)
	}{
		{"empty mass", func(x *nominalState, sign float64) { x.empty.mass += sign * math.Min(a.EmptyMass.SD, 0.5*x.empty.mass) }},
		{"empty centre of gravity", func(x *nominalState, sign float64) { x.empty.x += sign * a.EmptyX.SD }},
		{"height of the empty centre of gravity", func(x *nominalState, sign float64) { x.empty.z += sign * a.EmptyZ.SD }},
		{"inertia in roll", func(x *nominalState, sign float64) { x.inertia[0] += sign * a.Ix.SD }},
		{"inertia in pitch", func(x *nominalState, sign float64) { x.inertia[1] += sign * a.Iy.SD }},
		{"inertia in yaw", func(x *nominalState, sign float64) { x.inertia[2] += sign * a.Iz.SD }},
	}
	var all []doubt
	for _, move := range moves {
		up, down := o.stated(requirement, c), o.stated(requirement, c)
		move.by(&up, 1)
		move.by(&down, -1)
		all = append(all, doubt{group: doubtWeight, name: move.name, variance: halfSquared(o.nominal(requirement, c, down), o.nominal(requirement, c, up))})
	}
	return all
}

// halfSquared is the variance that one standard deviation to either side stands for.
func halfSquared(low, high float64) float64 { return (high - low) / 2 * (high - low) / 2 }

// nominalState is all that a requirement rests on, without any draw.
type nominalState struct {
	beliefs []float64
	empty   empty
	inertia [3]float64
}

// stated is what is believed and what is written.
func (o *outcome) stated(requirement requirement, c int) nominalState {
	a := o.problem.Aircraft
	x := nominalState{empty: a.nominal(), inertia: [3]float64{a.Ix.Value, a.Iy.Value, a.Iz.Value}}
	for _, q := range requirement.beliefs {
		x.beliefs = append(x.beliefs, o.belief.fullMean(q, c))
	}
	return x
}

// sample is the state at a loading as a sample of one.
func (x nominalState) sample(l Loading) *sample {
	cg := loaded(x.empty, l)
	one := &sample{loaded: loadedDraws{[]float64{cg.mass}, []float64{cg.x}, []float64{cg.z}}}
	for _, belief := range x.beliefs {
		one.beliefs = append(one.beliefs, []float64{belief})
	}
	for k, inertia := range x.inertia {
		one.inertia[k] = []float64{inertia}
	}
	return one
}

// nominal evaluates a requirement at a state, at the side that it binds.
func (o *outcome) nominal(requirement requirement, c int, x nominalState) float64 {
	if requirement.built != nil {
		if mean := o.belief.theory.mean[requirement.beliefs[0]][c]; mean != 0 {
			return requirement.ratio[c] * math.Abs(x.beliefs[0]/mean)
		}
		return requirement.ratio[c]
	}
	if !requirement.weighs() {
		return x.beliefs[0]
	}
	value := requirement.evaluator(o.problem.Aircraft, o.space.configs[c].stop, requirement.surfacesOf(o.judgement.surfaces[c]))
	least, most := math.Inf(1), math.Inf(-1)
	v := make([]float64, 1)
	for l, loading := range requirement.loadings {
		value(l, x.sample(loading), v)
		least, most = math.Min(least, v[0]), math.Max(most, v[0])
	}
	switch {
	case requirement.Quantity == evidence.FuelTravel:
		return 100 * (most - least) / o.problem.Aircraft.MeanChord
	case requirement.AtLeast != nil:
		return least
	default:
		return most
	}
}
