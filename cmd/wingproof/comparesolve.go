package main

import (
	"maps"
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// compareLevels solves the levels of a choice.
func compareLevels(st *study.Study, c condition, choice program.Choice) (*comparison, error) {
	r := &comparison{study: st, condition: c, choice: choice, others: settledLevels(st)}
	if err := r.solveLevels(); err != nil {
		return nil, err
	}
	var err error
	r.contrasts, err = st.Contrasts(choice.Name, r.others)
	return r, err
}

// solveLevels solves the levels of a choice by the lattice, with the other choices at their levels, and takes what they differ by.
func (r *comparison) solveLevels() error {
	p, choice := r.study.Program, r.choice
	var subjects []subject
	for _, level := range baselineFirst(choice) {
		levels := maps.Clone(r.others)
		levels[choice.Name] = level
		one, err := subjectOf(p, levels, nil)
		if err != nil {
			return err
		}
		subjects = append(subjects, one)
	}
	r.others = maps.Clone(r.others) // the caller's may be what a result is kept by
	delete(r.others, choice.Name)
	all, err := r.condition.solve(p, subjects)
	if err != nil {
		return err
	}
	for i := range all {
		l := comparedLevel{level: all[i].levels[choice.Name], solved: all[i], numbers: r.condition.numbers(p, &all[i])}
		if i > 0 {
			if l.differences, err = r.difference(p, &all[i], &all[0]); err != nil {
				return named(err, subjects[i:i+1])
			}
		}
		r.levels = append(r.levels, l)
	}
	r.net, r.missing = r.drags()
	return nil
}

// difference takes every number of a level less that of the baseline.
func (r *comparison) difference(p *program.Program, s, base *solved) ([]levelDifference, error) {
	c := r.condition
	list, err := c.setup.Differences(&s.Analysis, &base.Analysis)
	if err != nil {
		return nil, err
	}
	bending := levelDifference{math.NaN(), math.NaN(), math.NaN(), math.NaN()}
	if !math.IsNaN(s.bending.Value) && !math.IsNaN(base.bending.Value) {
		root, err := s.Against(&base.Analysis, c.bendingOf(p, &s.Analysis))
		if err != nil {
			return nil, err
		}
		bending.value, bending.grid = s.bending.Value-base.bending.Value, root[0].Error // each with its own body
	}
	own, bases := c.numbers(p, s), c.numbers(p, base)
	byName := map[string]prediction.Number{}
	for _, n := range list {
		byName[n.Quantity] = clean(n)
	}
	out := make([]levelDifference, len(own))
	for i, n := range own {
		d := levelDifference{n.Value - bases[i].Value, byName[n.Quantity].Grid, math.NaN(), math.NaN()}
		if n.Quantity == evidence.RootBendingMoment {
			d = bending
		}
		ref := s.airframe.Reference
		t, stated := theoryOf(p, ref, s.levels, n.Quantity, n.Value)
		if b, ok := theoryOf(p, ref, base.levels, n.Quantity, bases[i].Value); ok && stated && !math.IsNaN(d.value) {
			d.low, d.high = t.difference(d.value, b)
		}
		out[i] = d
	}
	return out, nil
}
