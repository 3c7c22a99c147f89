package decide

import (
	"fmt"
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
)

// surface is how the modes of motion of one configuration at one loading follow what is believed: a second-order
// response about the beliefs, one variable at a time,
//
//	y = y0 + Σ slope·(x − centre) + ½·Σ bend·(x − centre)²
//
// through y at the centre and one standard deviation to either side. Eigenvalues for every one of 20,000 draws would cost
// seconds; what the surface leaves out, the interplay of two variables, is held against full computation in a test.
//
// The variables are the requirement's beliefs, then mass, CG and the three inertias. Inertias are those stated, whatever the loading.
type surface struct {
	centre []float64
	modes  map[string]response
}

type response struct {
	value       float64
	slope, bend []float64
}

// newSurfaces are the responses of one configuration at every loading that some limit on a motion asks about.
func newSurfaces(p Problem, b *belief, requirements []requirement, c int) (map[string]*surface, error) {
	all := map[string]*surface{}
	for _, r := range requirements {
		if r.kind() != restsOnMotion {
			continue
		}
		for _, l := range r.loadings {
			if all[l.Name] != nil {
				continue
			}
			s, err := surfaceAbout(p, b, r, c, l)
			if err != nil {
				return nil, fmt.Errorf("motions of %s with %s: %w", b.theory.space.configs[c].name, l.Name, err)
			}
			all[l.Name] = s
		}
	}
	return all, nil
}

// surfaceAbout is the response about what is believed at full size and the stated weights.
func surfaceAbout(p Problem, b *belief, r requirement, c int, l Loading) (*surface, error) {
	var names []string
	var centre, step []float64
	for _, q := range r.beliefs {
		names = append(names, b.theory.quantities[q])
		centre, step = append(centre, b.fullMean(q, c)), append(step, b.fullSD(q, c))
	}
	a := p.Aircraft
	at := loaded(a.nominal(), l)
	share := a.EmptyMass.Value / at.mass
	cg := math.Hypot(share*a.EmptyX.SD, (a.EmptyX.Value-at.x)/at.mass*a.EmptyMass.SD)
	centre = append(centre, at.mass, at.x, a.Ix.Value, a.Iy.Value, a.Iz.Value)
	step = append(step, a.EmptyMass.SD, cg, a.Ix.SD, a.Iy.SD, a.Iz.SD)
	return newSurface(p.Motions, b.theory.space.configs[c].levels, names, centre, step)
}

// newSurface asks for the motions around a centre. Steps are one standard deviation each; a variable without error is not moved.
func newSurface(motions Motions, levels map[string]string, names []string, centre, step []float64) (*surface, error) {
	ask := func(moved int, by float64) (map[string]float64, error) {
		x := append([]float64(nil), centre...)
		if moved >= 0 {
			x[moved] += by
		}
		beliefs := make(map[string]float64, len(names))
		for k, name := range names {
			beliefs[name] = x[k]
		}
		w := x[len(names):]
		return motions(levels, beliefs, Flown{Mass: w[0], CG: w[1], Ix: w[2], Iy: w[3], Iz: w[4]})
	}
	middle, err := ask(-1, 0)
	if err != nil {
		return nil, err
	}
	s := &surface{centre: centre, modes: map[string]response{}}
	for quantity, value := range middle {
		s.modes[quantity] = response{value: value, slope: make([]float64, len(centre)), bend: make([]float64, len(centre))}
	}
	for k, h := range step {
		if !(h > 0) {
			continue
		}
		up, err := ask(k, h)
		if err != nil {
			return nil, err
		}
		down, err := ask(k, -h)
		if err != nil {
			return nil, err
		}
		for quantity, r := range s.modes {
			r.slope[k] = (up[quantity] - down[quantity]) / (2 * h)
			r.bend[k] = (up[quantity] - 2*r.value + down[quantity]) / (h * h)
		}
	}
	return s, s.check()
}

// check refuses modes that are no numbers.
func (s *surface) check() error {
	for _, quantity := range sortedKeys(s.modes) {
		r := s.modes[quantity]
		sum := r.value
		for k := range r.slope {
			sum += r.slope[k] + r.bend[k]
		}
		if math.IsNaN(sum) || math.IsInf(sum, 0) {
			return fmt.Errorf("%s cannot be computed near what is believed", quantity)
		}
	}
	return nil
}

// at is a mode of motion in one draw. The time in which a spiral doubles follows from its rate; what does not diverge
// within endless counts as endless.
func (s *surface) at(quantity string, x *state) float64 {
	if quantity != evidence.SpiralTimeToDouble {
		return s.of(quantity, x)
	}
	rate := s.of(evidence.SpiralRate, x)
	if rate*endless <= math.Ln2 {
		return endless
	}
	return math.Ln2 / rate
}

func (s *surface) of(quantity string, x *state) float64 {
	r := s.modes[quantity]
	y, n := r.value, len(x.beliefs)
	add := func(k int, value float64) {
		d := value - s.centre[k]
		y += d * (r.slope[k] + d*r.bend[k]/2)
	}
	for k, value := range x.beliefs {
		add(k, value)
	}
	add(n, x.cg.mass)
	add(n+1, x.cg.x)
	for k, value := range x.inertia {
		add(n+2+k, value)
	}
	return y
}
