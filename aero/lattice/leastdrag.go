package lattice

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// BestSpanEfficiency is the highest e in CDi = CL²/(π A e) that any distribution of circulation over the
// trace of the named surfaces can reach, with the aspect ratio of the reference quantities: what
// SpanEfficiency leaves on the table. Without names all surfaces count.
//
// At the optimum the normal velocity far behind is proportional to the cosine of the local
// dihedral (M. M. Munk, The Minimum Induced Drag of Aerofoils, NACA Report 121, 1923).
func (s *Solution) BestSpanEfficiency(surfaces ...string) (float64, error) {
	g := s.grid
	var strips []int
	for k := range g.strips {
		name := s.airframe.Surfaces[g.strips[k].surface].Name
		if g.strips[k].copies == 2 && (len(surfaces) == 0 || slices.Contains(surfaces, name)) {
			strips = append(strips, k)
		}
	}
	n := len(strips)
	if n == 0 {
		return 0, fmt.Errorf("least induced drag: no mirrored surface among %q", surfaces)
	}
	drag := mat.NewDense(n, n, nil) // over ½ρV², symmetric part
	lift := mat.NewVecDense(n, nil) // over ½ρV
	for i, k := range strips {
		at := &g.strips[k]
		lift.SetVec(i, 4*at.traceSide.Z*at.traceWidth())
		for j, m := range strips {
			own, image := s.traceWash(k, m)
			d := -at.traceWidth() * (own + image)
			drag.Set(i, j, drag.At(i, j)+d)
			drag.Set(j, i, drag.At(j, i)+d)
		}
	}
	var best mat.VecDense
	if err := best.SolveVec(drag, lift); err != nil {
		return 0, fmt.Errorf("least induced drag: the trace is degenerate: %w", err)
	}
	// D = Γᵀ(drag)Γ and L = liftᵀΓ: least D/L² is 1/(liftᵀ drag⁻¹ lift).
	r := s.airframe.Reference
	return mat.Dot(lift, &best) / (math.Pi * r.Span * r.Span), nil
}
