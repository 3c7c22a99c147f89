package weighing

import (
	"fmt"
	"math"
	"sort"
	"strings"
)

// doubtful is how many standard deviations two readings of one thing may lie apart before it is said.
const doubtful = 3

// largeSwing is the amplitude [rad] beyond which a swing is called large: its correction is 0.9 % of inertia and its own error counts.
const largeSwing = 15 * math.Pi / 180

// roundOff is what counts as no error beside a length in m or an inertia in kg·m².
const roundOff = 1e-9

// disagreements says which readings contradict the others by more than their errors allow.
func (p *plan) disagreements() {
	p.contradicts(p.misses, func(k int) string { return p.attitudes[k].name }, 1000, "mm", "passes %.1f %s from where the other attitudes put the CG, more than the errors allow; look at its angle, its points and whether something rubs", p.heights)
	p.contradicts(p.leftOver, func(k int) string { return p.swings[k].Name }, 1, "kg·m²", "gives %.3g %s beside the other swings, more than the errors allow; look at its lengths and timings", true)
	p.contradicts(p.massesApart, func(k int) string { return p.attitudes[k].name }, 1000, "g", "shows %.0f %s in all beside the level runs, more than the errors allow; something rubs, hangs on a cable, or a tare is wrong", true)
}

func (p *plan) contradicts(off func(u []float64, at place) []float64, name func(k int) string, factor float64, unit, words string, on bool) {
	if !on {
		return
	}
	values := off(p.values, p.balance(p.values))
	parts := p.propagate(func(u []float64) []float64 { return off(u, p.balance(u)) })
	for k, v := range values {
		if sd := math.Sqrt(sumOfSquares(parts[k])); sd > roundOff && math.Abs(v) > doubtful*sd {
			p.warnings = append(p.warnings, name(k)+" "+fmt.Sprintf(words, factor*v, unit))
		}
	}
}

// leftOver is each swing's inertia less what all swings together make of it.
func (p *plan) leftOver(u []float64, at place) []float64 {
	swung := p.swung(u, at)
	m := p.combine(u, swung)
	out := make([]float64, len(swung))
	for k, s := range p.swings {
		row := s.mix(u)
		whole := row[0]*m.ix + row[1]*m.iz + row[2]*m.ixz
		switch {
		case s.Axis == Pitch:
			whole = m.iy
		case !p.inclined && s.Axis == Roll:
			whole = m.ix
		case !p.inclined && s.Axis == Yaw:
			whole = m.iz
		}
		if v := swung[k] - whole; !math.IsNaN(v) {
			out[k] = v
		}
	}
	return out
}

// massesApart is what each tilted attitude on scales shows less the mass; 0 where there is nothing to compare.
func (p *plan) massesApart(u []float64, at place) []float64 {
	out := make([]float64, len(p.attitudes))
	for k, a := range p.attitudes {
		if a.hung || math.IsNaN(at.mass) {
			continue
		}
		total, _ := a.load(u)
		out[k] = total - at.mass
	}
	return out
}

// implausible says when no solid body can have such inertias.
func (p *plan) implausible(r Result) {
	for _, n := range r.Numbers {
		if (n.Quantity == Ix || n.Quantity == Iy || n.Quantity == Iz) && n.Value <= 0 {
			p.warnings = append(p.warnings, fmt.Sprintf("%s comes out at %.3g kg·m², which no body has; look at the distances and the timings of its swings", n.Quantity.symbol(), n.Value))
		}
	}
	ix, one := r.Number(Ix)
	iy, two := r.Number(Iy)
	iz, three := r.Number(Iz)
	if !one || !two || !three {
		return
	}
	for _, c := range [][3]Number{{ix, iy, iz}, {iy, iz, ix}, {iz, ix, iy}} {
		a, b, most := c[0], c[1], c[2]
		variance := a.SD*a.SD + b.SD*b.SD + most.SD*most.SD + 2*Covariance(a, b) - 2*Covariance(a, most) - 2*Covariance(b, most)
		if short := a.Value + b.Value - most.Value; short < 0 && -short > doubtful*math.Sqrt(math.Max(0, variance)) {
			p.warnings = append(p.warnings, fmt.Sprintf("%s is larger than %s and %s together, which no body has; one of the swings is wrong", most.Quantity.symbol(), a.Quantity.symbol(), b.Quantity.symbol()))
		}
	}
}

// symbol writes ix as Ix.
func (q Quantity) symbol() string { return strings.ToUpper(string(q[:1])) + string(q[1:]) }

// doubtTimings finds timings in which a swing was counted too much or too little, and swings that are large.
func (p *plan) doubtTimings() {
	for _, s := range p.swings {
		if s.Amplitude.Value > largeSwing {
			p.warnings = append(p.warnings, fmt.Sprintf("%s swings by %.0f° to a side; keep it below 10°", s.Name, s.Amplitude.Value*180/math.Pi))
		}
		p.doubtCount(s.Name, s.Timings)
		if s.Hanger != nil {
			p.doubtCount("the hanger of "+s.Name, s.Hanger.Timings)
		}
	}
}

func (p *plan) doubtCount(name string, timings []Timing) {
	periods := make([]float64, len(timings))
	for i, t := range timings {
		periods[i] = t.Seconds / t.Periods
	}
	sort.Float64s(periods)
	middle := periods[(len(periods)-1)/2]
	for _, t := range timings {
		extra := t.Seconds/middle - t.Periods
		if whole := math.Round(extra); whole != 0 && math.Abs(extra-whole) < 0.25 {
			p.warnings = append(p.warnings, fmt.Sprintf("%s: %.4g s are about %.0f periods by its other timings, not %.0f; was one counted wrong?", name, t.Seconds, t.Periods+whole, t.Periods))
		}
	}
}
