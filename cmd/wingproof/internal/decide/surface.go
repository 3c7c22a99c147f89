package decide

import (
	"fmt"
	"math"
	"slices"

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
	Centre []float64
	Modes  map[string]response
}

// response is how one mode follows the variables.
type response struct {
	Value       float64
	Slope, Bend []float64
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

// surfacesOf are the responses of the motions at the loadings of a requirement; nil for what is no motion.
func (r requirement) surfacesOf(byLoading map[string]*surface) []*surface {
	if r.kind() != restsOnMotion {
		return nil
	}
	list := make([]*surface, len(r.loadings))
	for l, loading := range r.loadings {
		list[l] = byLoading[loading.Name]
	}
	return list
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
	s := &surface{Centre: centre, Modes: map[string]response{}}
	for quantity, value := range middle {
		s.Modes[quantity] = response{Value: value, Slope: make([]float64, len(centre)), Bend: make([]float64, len(centre))}
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
		for quantity, r := range s.Modes {
			r.Slope[k] = (up[quantity] - down[quantity]) / (2 * h)
			r.Bend[k] = (up[quantity] - 2*r.Value + down[quantity]) / (h * h)
		}
	}
	return s, s.check()
}

// check refuses modes that are no numbers.
func (s *surface) check() error {
	for _, quantity := range sortedKeys(s.Modes) {
		r := s.Modes[quantity]
		sum := r.Value
		for k := range r.Slope {
			sum += r.Slope[k] + r.Bend[k]
		}
		if math.IsNaN(sum) || math.IsInf(sum, 0) {
			return fmt.Errorf("%s cannot be computed near what is believed", quantity)
		}
	}
	return nil
}

// write writes a mode of motion in every draw of a sample. The time in which a spiral doubles follows from its rate; what does not
// diverge within endless counts as endless.
func (s *surface) write(quantity string, x *sample, out []float64) {
	if quantity != evidence.SpiralTimeToDouble {
		s.respond(s.Modes[quantity], x, out)
		return
	}
	s.respond(s.Modes[evidence.SpiralRate], x, out)
	for i, rate := range out {
		if rate*endless <= math.Ln2 {
			out[i] = endless
		} else {
			out[i] = math.Ln2 / rate
		}
	}
}

// respond adds up the response, variable by variable. Those that do not move the mode, such as the beliefs on pitch in a Dutch roll, are left
// out: they would add zeros.
func (s *surface) respond(r response, x *sample, out []float64) {
	for i := range out {
		out[i] = r.Value
	}
	variables := slices.Concat(x.beliefs, [][]float64{x.loaded.mass, x.loaded.x}, x.inertia[:])
	for k, draws := range variables {
		centre, slope, bend := s.Centre[k], r.Slope[k], r.Bend[k]
		if slope == 0 && bend == 0 {
			continue
		}
		for i, value := range draws[:len(out)] {
			d := value - centre
			out[i] += d * (slope + d*bend/2)
		}
	}
}
