package lattice

import "gonum.org/v1/gonum/spatial/r3"

// Outline is one panel of the right half for a drawing: inboard leading edge, outboard leading edge,
// outboard trailing edge, inboard trailing edge.
type Outline struct {
	Surface string
	Corners [4]r3.Vec // datum axes, m
}

// Outlines lists every panel of the right half, strip by strip from the leading edge.
func (s *Solution) Outlines() []Outline {
	edge := s.grid.chord.edge
	var out []Outline
	for i := range s.grid.strips {
		st := &s.grid.strips[i]
		for k := 0; k+1 < len(edge); k++ {
			out = append(out, Outline{
				Surface: s.airframe.Surfaces[st.surface].Name,
				Corners: [4]r3.Vec{
					aft(st.a, edge[k]*st.chordA), aft(st.b, edge[k]*st.chordB),
					aft(st.b, edge[k+1]*st.chordB), aft(st.a, edge[k+1]*st.chordA),
				},
			})
		}
	}
	return out
}
