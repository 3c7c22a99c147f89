package lattice

import (
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r3"
)

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
	states, pieces := len(s.circulation), len(s.pieces)
	strengths := make([][]float64, states) // 2 Γ times the number of copies, by state and piece
	for i := range strengths {
		strengths[i] = make([]float64, pieces)
		for e := range s.pieces {
			p := &s.pieces[e]
			strengths[i][e] = 2 * s.grid.strips[p.strip].copies * s.strength(p, i)
		}
	}
	raw := make(loadForm, states)
	forRows(states, func(j int) {
		raw[j] = make([]load, states)
		columns := s.leverage(j)
		for i := range states {
			dot := func(c int) float64 { return floats.Dot(strengths[i], columns[c]) }
			if s.controls.antisymmetric(i) == s.controls.antisymmetric(j) {
				raw[j][i] = load{r3.Vec{X: dot(0), Z: dot(2)}, r3.Vec{Y: dot(4)}}
			} else {
				raw[j][i] = load{r3.Vec{Y: dot(1)}, r3.Vec{X: dot(3), Z: dot(5)}}
			}
		}
	})
	form := make(loadForm, states)
	for i := range form {
		form[i] = make([]load, states)
		for j := range form[i] {
			form[i][j] = raw[i][j].plus(raw[j][i]).times(0.5)
		}
	}
	return form
}

// leverage is force and moment per unit strength of every piece in the velocity of a basis state: six lists over the pieces.
func (s *Solution) leverage(state int) (columns [6][]float64) {
	for c := range columns {
		columns[c] = make([]float64, len(s.pieces))
	}
	for e := range s.pieces {
		p := &s.pieces[e]
		force := r3.Cross(s.velocity.at(state, p.sample), p.along)
		moment := r3.Cross(p.at, force)
		for c, v := range [6]float64{force.X, force.Y, force.Z, moment.X, moment.Y, moment.Z} {
			columns[c][e] = v
		}
	}
	return columns
}

// strength is the circulation that a piece carries in basis state i, positive along the piece.
func (s *Solution) strength(p *element, i int) float64 {
	k := s.grid.strips[p.strip].first + p.row
	if p.bound {
		return s.circulation[i][k]
	}
	return p.sign * s.cumulated[i][k]
}
