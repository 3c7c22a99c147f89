package decide

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
)

// after is the problem once a candidate was done, in one outcome.
func (f *forecast) after(c Candidate, m int) (Problem, error) {
	p := f.problem
	p.TrimSlopes, p.Direct = slices.Clone(p.TrimSlopes), slices.Clone(p.Direct)
	noise := func(words ...string) float64 {
		return normals(f.problem.Seed, f.outcomes, append([]string{"outcome", c.Kind, c.Say}, words...)...)[m]
	}
	for i, s := range c.TrimSlopes {
		drawn, err := f.slopes(s, m, func(k int) float64 { return noise("slopes", fmt.Sprint(i), fmt.Sprint(k)) })
		if err != nil {
			return p, err
		}
		p.TrimSlopes = append(p.TrimSlopes, drawn)
	}
	for i, d := range c.Direct {
		at, err := f.belief.theory.space.locate(d.Levels)
		if err != nil {
			return p, err
		}
		q := f.belief.theory.quantity(d.Quantity)
		if q < 0 {
			continue
		}
		d.Value = f.truth[q][at][m] + d.SDOwn*noise("direct", fmt.Sprint(i))
		for _, source := range sortedKeys(d.Common) {
			d.Value += d.Common[source] * f.sharedError(source, m)
		}
		if sd := powerShare(d.Power) * f.belief.theory.powerSD(q, at); sd != 0 {
			d.Value += sd * f.sharedError("power effect on "+d.Quantity, m)
		}
		p.Direct = append(p.Direct, d)
	}
	f.onScales(c, m, noise, &p)
	f.proofLoaded(c, m, noise, &p)
	f.stepKnown(c, m, noise, &p)
	f.powerKnown(c, m, noise, &p)
	f.doubtLessened(c, m, noise, &p)
	f.calibrated(c, m, noise, &p)
	return p, nil
}

// slopes draws what trim flights would find.
func (f *forecast) slopes(s TrimSlopes, m int, noise func(k int) float64) (TrimSlopes, error) {
	t := f.belief.theory
	at, err := t.space.locate(s.Levels)
	if err != nil {
		return s, err
	}
	o := f.belief.observed
	if o.rate < 0 || o.neutral < 0 {
		return s, nil
	}
	rate, neutral := f.truth[o.rate][at][m], f.truth[o.neutral][at][m]
	s.Slope = make([]float64, len(s.CG))
	for i, cg := range s.CG {
		s.Slope[i] = rate*(cg-neutral) + math.Sqrt(s.Covariance[i][i])*noise(i)
		for _, source := range sortedKeys(s.Common) {
			s.Slope[i] += s.Common[source][i] * f.sharedError(source, m)
		}
	}
	return s, nil
}

// onScales puts the empty aircraft on scales: what was stated and what they read are pooled.
func (f *forecast) onScales(c Candidate, m int, noise func(...string) float64, p *Problem) {
	if c.Scales == nil {
		return
	}
	real := f.empties[m]
	pool := func(g Figure, truth, sd float64, name string) Figure {
		if !(g.SD > 0) {
			return g
		}
		read := truth + sd*noise("scales", name)
		share := g.SD * g.SD / (g.SD*g.SD + sd*sd)
		return Figure{Value: g.Value + share*(read-g.Value), SD: g.SD * math.Sqrt(1-share), Status: "weighed", Source: "forecast"}
	}
	p.Aircraft.EmptyMass = pool(p.Aircraft.EmptyMass, real.mass, c.Scales.Mass, "mass")
	p.Aircraft.EmptyX = pool(p.Aircraft.EmptyX, real.x, c.Scales.X, "x")
	p.Aircraft.EmptyZ = pool(p.Aircraft.EmptyZ, real.z, c.Scales.Z, "z")
	p.weights = nil // those of another aircraft
}

// proofLoaded loads built parts for proof.
func (f *forecast) proofLoaded(c Candidate, m int, noise func(...string) float64, p *Problem) {
	if len(c.Proof) == 0 {
		return
	}
	p.Built = slices.Clone(p.Built)
	for i, b := range p.Built {
		sd, ok := c.Proof[b.Part]
		if !ok || !(sd < b.SD) {
			continue
		}
		found := 1 + b.SD*shrunk(f.drawer.streams.normals("allowable", b.Part)[m], sd/b.SD, noise("proof", b.Part))
		allowable := slices.Clone(b.Allowable)
		for k := range allowable {
			allowable[k].Moment *= found
		}
		p.Built[i].Allowable, p.Built[i].SD = allowable, sd
	}
}

// stepKnown lessens errors of the step from model to full size: what is found of them becomes part of the step.
func (f *forecast) stepKnown(c Candidate, m int, noise func(...string) float64, p *Problem) {
	if len(c.Step) == 0 {
		return
	}
	t := f.belief.theory
	p.Errors, p.Predictions = slices.Clone(p.Errors), slices.Clone(p.Predictions)
	found := map[string]float64{} // by quantity, in units of its size
	for i, e := range p.Errors {
		full := map[string]float64{}
		for _, name := range sortedKeys(e.FullSize) {
			full[name] = e.FullSize[name]
			if left, ok := c.Step[name]; ok && c.lessens(e.Quantity) {
				full[name] *= left
				found[e.Quantity] += e.FullSize[name] * shrunk(f.drawer.streams.normals("full size", name, e.Quantity)[m], left, noise("step", name, e.Quantity))
			}
		}
		p.Errors[i].FullSize = full
	}
	for i, prediction := range p.Predictions {
		at, err := t.space.locate(prediction.Levels)
		if err != nil {
			continue
		}
		step := map[string]float64{}
		for _, quantity := range sortedKeys(prediction.Step) {
			step[quantity] = prediction.Step[quantity]
		}
		for _, quantity := range sortedKeys(found) {
			if q := t.quantity(quantity); q >= 0 {
				step[quantity] += found[quantity] * t.size[q][at]
			}
		}
		p.Predictions[i].Step = step
	}
}

// doubtLessened lessens the doubt of the computation itself: what is found of it becomes part of the prediction.
func (f *forecast) doubtLessened(c Candidate, m int, noise func(...string) float64, p *Problem) {
	if c.Doubts == 0 {
		return
	}
	p.Predictions = slices.Clone(p.Predictions)
	for i, prediction := range p.Predictions {
		values, doubts := maps.Clone(prediction.Values), maps.Clone(prediction.Doubt)
		for _, quantity := range sortedKeys(prediction.Doubt) {
			if c.lessens(quantity) {
				values[quantity] += prediction.Doubt[quantity] * shrunk(f.doubtOf(quantity, m), c.Doubts, noise("doubt", quantity))
				doubts[quantity] *= c.Doubts
			}
		}
		step, full := maps.Clone(prediction.Step), maps.Clone(prediction.FullDoubt)
		for _, quantity := range sortedKeys(prediction.FullDoubt) {
			if !c.lessens(quantity) {
				continue
			}
			if step == nil {
				step = map[string]float64{}
			}
			z := f.drawer.streams.normals("full size", stepDoubt, quantity)[m]
			step[quantity] += prediction.FullDoubt[quantity] * shrunk(z, c.Doubts, noise("full doubt", quantity))
			full[quantity] *= c.Doubts
		}
		p.Predictions[i].Values, p.Predictions[i].Doubt, p.Predictions[i].Step, p.Predictions[i].FullDoubt = values, doubts, step, full
	}
}

// lessens tells whether a candidate is about a quantity.
func (c Candidate) lessens(quantity string) bool {
	return len(c.Of) == 0 || slices.Contains(c.Of, quantity)
}

// powerKnown takes off the flights under power what is found of the propeller's effect on them, since the errors that are left of it shrink with
// those of the step to full power.
func (f *forecast) powerKnown(c Candidate, m int, noise func(...string) float64, p *Problem) {
	left, ok := c.Step["power"]
	if !ok {
		return
	}
	t, o := f.belief.theory, f.belief.observed
	found := func(quantity string) float64 {
		if !c.lessens(quantity) {
			return 0
		}
		source := "power effect on " + quantity
		return shrunk(f.sharedError(source, m), left, noise("calibrated", source))
	}
	for i, s := range p.TrimSlopes {
		at, err := t.space.locate(s.Levels)
		if share := powerShare(s.Power); share > 0 && err == nil && o.rate >= 0 && o.neutral >= 0 {
			slope := slices.Clone(s.Slope)
			for k := range slope {
				slope[k] -= share * (-t.mean[o.rate][at]*t.powerSD(o.neutral, at)*found(evidence.NeutralPoint) +
					(s.CG[k]-t.mean[o.neutral][at])*t.powerSD(o.rate, at)*found(evidence.ElevatorTrimRate))
			}
			p.TrimSlopes[i].Slope = slope
		}
	}
	for i, d := range p.Direct {
		at, err := t.space.locate(d.Levels)
		if q := t.quantity(d.Quantity); q >= 0 && err == nil {
			p.Direct[i].Value -= powerShare(d.Power) * t.powerSD(q, at) * found(d.Quantity)
		}
	}
}

// calibrated lessens errors that the flights share: what is found of them is taken off every number that they moved.
func (f *forecast) calibrated(c Candidate, m int, noise func(...string) float64, p *Problem) {
	if len(c.Calibrated) == 0 {
		return
	}
	known := func(source string) (left, found float64, ok bool) {
		if left, ok = c.Calibrated[source]; ok {
			found = shrunk(f.sharedError(source, m), left, noise("calibrated", source))
		}
		return left, found, ok
	}
	for i, s := range p.TrimSlopes {
		common, slope := map[string][]float64{}, slices.Clone(s.Slope)
		for _, source := range sortedKeys(s.Common) {
			effect := slices.Clone(s.Common[source])
			if left, found, ok := known(source); ok {
				for k := range effect {
					slope[k] -= effect[k] * found
					effect[k] *= left
				}
			}
			common[source] = effect
		}
		p.TrimSlopes[i].Common, p.TrimSlopes[i].Slope = common, slope
	}
	for i, d := range p.Direct {
		common := map[string]float64{}
		for _, source := range sortedKeys(d.Common) {
			common[source] = d.Common[source]
			if left, found, ok := known(source); ok {
				p.Direct[i].Value -= common[source] * found
				common[source] *= left
			}
		}
		p.Direct[i].Common = common
	}
}
