package lattice

import "gonum.org/v1/gonum/spatial/r3"

// load is force (m²) and moment about the origin (m³), both over ½ρV², in datum axes.
type load struct{ force, moment r3.Vec }

func (l load) plus(m load) load { return load{r3.Add(l.force, m.force), r3.Add(l.moment, m.moment)} }

func (l load) times(k float64) load { return load{r3.Scale(k, l.force), r3.Scale(k, l.moment)} }

// loadForm is the load of the whole aircraft as a symmetric quadratic form in the basis states.
type loadForm [][]load

// at returns Σ s_i t_j form_ij; with s = t that is the load in state s.
func (f loadForm) at(s, t []float64) load {
	var sum load
	for i := range f {
		for j := range f[i] {
			if k := s[i] * t[j]; k != 0 {
				sum = sum.plus(f[i][j].times(k))
			}
		}
	}
	return sum
}

// newLoadForm sums circulation × velocity over all pieces of both halves.
//
// Two basis states of one symmetry give a symmetric load (forces along x and z, pitching moment), two
// of unlike symmetry the others; the rest cancels between the halves.
func (s *Solution) newLoadForm() loadForm {
	n := len(s.circulation)
	raw := make(loadForm, n)
	for i := range raw {
		raw[i] = make([]load, n)
	}
	for e := range s.pieces {
		p := &s.pieces[e]
		copies := s.grid.strips[p.strip].copies
		for i := range n {
			gamma := s.strength(p, i)
			if gamma == 0 {
				continue
			}
			for j, v := range s.velocity[p.sample] {
				force := r3.Scale(2*copies*gamma, r3.Cross(v, p.along))
				raw[i][j] = raw[i][j].plus(load{force, r3.Cross(p.at, force)})
			}
		}
	}
	form := make(loadForm, n)
	for i := range form {
		form[i] = make([]load, n)
		for j := range form[i] {
			both := raw[i][j].plus(raw[j][i]).times(0.5)
			form[i][j] = both.only(s.controls.antisymmetric(i) == s.controls.antisymmetric(j))
		}
	}
	return form
}

// only keeps the symmetric or the antisymmetric components of a load.
func (l load) only(symmetric bool) load {
	if symmetric {
		return load{r3.Vec{X: l.force.X, Z: l.force.Z}, r3.Vec{Y: l.moment.Y}}
	}
	return load{r3.Vec{Y: l.force.Y}, r3.Vec{X: l.moment.X, Z: l.moment.Z}}
}

// strength is the circulation that a piece carries in basis state i, positive along the piece.
func (s *Solution) strength(p *element, i int) float64 {
	k := s.grid.strips[p.strip].first + p.row
	if p.bound {
		return s.circulation[i][k]
	}
	return p.sign * s.cumulated[i][k]
}
