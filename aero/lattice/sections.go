package lattice

import (
	"fmt"

	"gonum.org/v1/gonum/mat"
)

// sectionResponse solves a unit turn of the normals of every strip by itself in a unit stream along x, both halves alike.
func (m *model) sectionResponse() (*mat.Dense, error) {
	n, strips := len(m.grid.chord.vortex), len(m.grid.strips)
	gamma, err := m.solveSide(0, strips, func(column, panel int) float64 {
		if m.grid.panels[panel].strip == column {
			return 1
		}
		return 0
	})
	if err != nil {
		return nil, err
	}
	out := mat.NewDense(strips, strips, nil)
	for column, g := range gamma {
		for i := range m.grid.strips {
			s := &m.grid.strips[i]
			sum := 0.0
			for _, v := range g[s.first : s.first+n] {
				sum += v
			}
			out.Set(i, column, 2*sum/s.chord)
		}
	}
	return out, nil
}

// SectionResponse is the change of the section lift coefficient of each strip (row) per radian of nose-up turn of each strip
// (column) by itself, small angles, symmetric flight: what a section that has let go takes from its neighbours.
// Strips stand as in Strips. It is an error when Options.Sections did not ask for it.
func (s *Solution) SectionResponse() (*mat.Dense, error) {
	if s.response == nil {
		return nil, fmt.Errorf("section response: it was not asked for (Options.Sections)")
	}
	return mat.DenseCopyOf(s.response), nil
}
