package lattice

import "gonum.org/v1/gonum/spatial/r3"

// Flow is the velocity over the airspeed at points off the surfaces (datum axes, m), stream and rotation included, rotation
// about momentPoint.
//
// In a wake, legs have the cores that surfaces of other groups see; closer to a leg than a panel width the answer is that of the
// panelling rather than of the flow.
func (s *Solution) Flow(state State, momentPoint r3.Vec, points []r3.Vec) []r3.Vec {
	w := s.weights(state, momentPoint)
	out := make([]r3.Vec, len(points))
	forEach(len(points), s.grid.newSight, func(see *sight, k int) {
		p := points[k]
		at := receiver{at: p, low: p, high: p, group: -1}
		for i, wi := range w {
			out[k] = r3.Add(out[k], r3.Scale(wi, outer(i, p)))
		}
		for _, part := range s.grid.parts {
			s.grid.inflow(see, part, &at, false)
			first := s.grid.firstPanel(part)
			for column := range see.own.x {
				own, image := see.own.at(column), see.image.at(column)
				even, odd := r3.Add(own, image), r3.Sub(own, image)
				for i, wi := range w {
					u := even
					if s.controls.antisymmetric(i) {
						u = odd
					}
					out[k] = r3.Add(out[k], r3.Scale(wi*s.circulation[i][first+column], u))
				}
			}
		}
	})
	return out
}
