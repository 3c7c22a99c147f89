package weighing

import (
	"errors"
	"fmt"
	"math"
)

// Solve works out what the readings of a session give, with the errors of all of them.
//
// Readings that are not there leave their results out and are named in Missing. It returns an error for a session that contradicts
// itself: a reading on a point that is not there, a swing without timings, a number that is not finite.
func Solve(s Session) (Result, error) {
	p, err := newPlan(s)
	if err != nil {
		return Result{}, err
	}
	for i, v := range p.values {
		if math.IsNaN(v+p.sds[i]) || math.IsInf(v+p.sds[i], 0) {
			return Result{}, fmt.Errorf("weighing: %s %s is not a finite number", p.sources[i].Kind, p.sources[i].Of)
		}
	}
	if s.Gravity.Value <= 0 {
		return Result{}, errors.New("weighing: gravity is not positive")
	}
	p.survey()
	p.weighAttitudes()
	p.weighSwings()
	p.surveySwings()
	r := p.results()
	p.disagreements()
	p.implausible(r)
	p.doubtTimings()
	r.Missing, r.Warnings = p.missing, p.warnings
	return r, nil
}

// everything is all results at the inputs u: the eight quantities, then each swing.
func (p *plan) everything(u []float64) []float64 {
	at := p.balance(u)
	swung := p.swung(u, at)
	m := p.combine(u, swung)
	return append([]float64{at.mass, at.x, at.y, at.z, m.ix, m.iy, m.iz, m.ixz}, swung...)
}

func (p *plan) swung(u []float64, at place) []float64 {
	out := make([]float64, len(p.swings))
	for k, s := range p.swings {
		out[k] = p.inertia(s, u, at)
	}
	return out
}

func (p *plan) results() Result {
	values, parts := p.everything(p.values), p.propagate(p.everything)
	var r Result
	names := quantities()
	for k, q := range names {
		if !math.IsNaN(values[k]) {
			r.Numbers = append(r.Numbers, p.number(q, values[k], parts[k]))
		}
	}
	at := p.balance(p.values)
	for k, s := range p.swings {
		if v := values[len(names)+k]; !math.IsNaN(v) {
			one := Swung{Name: s.Name, Number: p.number("", v, parts[len(names)+k]), Period: SmallSwing(p.values[s.period], p.values[s.amplitude])}
			if s.Rig == CompoundRig {
				one.Arm = s.arm(p.values, at)
			}
			r.Swings = append(r.Swings, one)
		}
	}
	return r
}

// weighAttitudes gives each attitude the weight of its own error, taken at the CG that equal weights give.
func (p *plan) weighAttitudes() {
	if !p.heights {
		return
	}
	at := p.balance(p.values)
	parts := p.propagate(func(u []float64) []float64 { return p.misses(u, at) })
	weights := weightsOf(parts)
	for k := range p.attitudes {
		p.attitudes[k].weight = weights[k]
	}
}

// misses is how far aft of the CG each attitude's vertical passes [m]; 0 for an attitude that gives none.
func (p *plan) misses(u []float64, at place) []float64 {
	out := make([]float64, len(p.attitudes))
	for k, a := range p.attitudes {
		if a.givesLine() {
			h, c, s := a.stands(u)
			out[k] = h - at.x*c - at.z*s
		}
	}
	return out
}

// weighSwings gives each swing the weight of its own error.
func (p *plan) weighSwings() {
	parts := p.propagate(func(u []float64) []float64 { return p.swung(u, p.balance(u)) })
	weights := weightsOf(parts)
	for k := range p.swings {
		p.swings[k].weight = weights[k]
	}
}

// weightsOf are one over the variances, scaled to the least of them; all 1 when some result carries no error.
func weightsOf(parts [][]float64) []float64 {
	out := make([]float64, len(parts))
	least := math.Inf(1)
	for k := range parts {
		if v := sumOfSquares(parts[k]); !math.IsNaN(v) {
			out[k] = v
			least = math.Min(least, v)
		}
	}
	for k, v := range out {
		if least == 0 || v == 0 || math.IsInf(least, 1) {
			out[k] = 1
			continue
		}
		out[k] = least / v
	}
	return out
}

// surveySwings finds what the swings can give, and says what is missing.
func (p *plan) surveySwings() {
	at := p.balance(p.values)
	swung := p.swung(p.values, at)
	var m [3][3]float64
	has := map[Axis]bool{}
	for k, s := range p.swings {
		if math.IsNaN(swung[k]) {
			p.missing = append(p.missing, fmt.Sprintf("what %s gives: %s", s.Name, s.lacks(at)))
			continue
		}
		has[s.Axis] = true
		if s.Axis == Pitch {
			continue
		}
		row := s.mix(p.values)
		for i := range 3 {
			for j := range 3 {
				m[i][j] += row[i] * row[j]
			}
		}
	}
	p.inclined = determinant(m) >= leastMixed
	for _, want := range []struct {
		axis Axis
		what string
	}{{Roll, "Ix: swing the model in roll"}, {Pitch, "Iy: swing the model in pitch"}, {Yaw, "Iz: swing the model in yaw"}} {
		if !has[want.axis] && (want.axis == Pitch || !p.inclined) {
			p.missing = append(p.missing, want.what)
		}
	}
	if !p.inclined {
		p.missing = append(p.missing, "Ixz: swing in roll, in yaw and about an axis inclined between them (axis = inclined, 30° to 60° best)")
	}
}

// lacks says what a swing waits for.
func (s swingPlan) lacks(at place) string {
	switch {
	case math.IsNaN(at.mass):
		return "the mass of the model"
	case s.pivot == none && s.pivotX == none && s.pivotZ == none:
		return "where its axis is: fill in pivot_mm, or x_mm and z_mm of the axis"
	case math.IsNaN(at.x):
		return "the CG, for the distance to the axis; or measure that distance (pivot_mm)"
	case math.IsNaN(at.z):
		return "the CG's height, for the distance to the axis; or measure that distance (pivot_mm)"
	}
	return "where its axis is: fill in both x_mm and z_mm of the axis, or pivot_mm"
}
