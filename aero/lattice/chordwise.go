package lattice

import "math"

// chordLattice holds the chordwise places of n panels as fractions of the chord.
type chordLattice struct {
	vortex  []float64 // bound vortices
	control []float64 // control points
	edge    []float64 // n+1 panel edges, for drawing
}

// newChordLattice places vortices at the middles and control points at the ends of n equal steps of θ.
//
// Source: C. E. Lan, Journal of Aircraft 11 (1974), p. 518.
func newChordLattice(n int) chordLattice {
	l := chordLattice{make([]float64, n), make([]float64, n), make([]float64, n+1)}
	step := math.Pi / float64(n)
	for i := range n {
		l.vortex[i] = (1 - math.Cos((float64(i)+0.5)*step)) / 2
		l.control[i] = (1 - math.Cos(float64(i+1)*step)) / 2
		l.edge[i+1] = l.control[i]
	}
	return l
}

// hingeTurns returns the fraction of a flap's deflection by which the normal turns at each of n
// control points, for a hinge at the chord fraction given: 1 aft of it, 0 ahead, and on the two control
// points beside it the fractions that give the lift and the quarter-chord moment of thin-aerofoil theory.
//
// The lattice integrates a turn a(θ) by the trapezoid rule with weights (1 − cos θ) for lift and
// (cos θ − cos 2θ) for moment, so both are linear in the two fractions.
func hingeTurns(n int, hinge float64) []float64 {
	turns := make([]float64, n)
	step := math.Pi / float64(n)
	atHinge := math.Acos(1 - 2*hinge)
	aft := int(math.Floor(atHinge/step)) + 1 // first control point aft of the hinge, counted from 1
	if hinge <= 0 {
		aft = 1
	}
	aft = min(aft, n)
	weight := func(i int) (lift, moment float64) {
		theta, w := float64(i)*step, step
		if i == n {
			w = step / 2
		}
		return w * (1 - math.Cos(theta)), w * (math.Cos(theta) - math.Cos(2*theta))
	}
	lift := math.Pi - atHinge + math.Sin(atHinge)
	moment := -math.Sin(atHinge) + math.Sin(2*atHinge)/2
	for i := aft + 1; i <= n; i++ {
		turns[i-1] = 1
		l, m := weight(i)
		lift, moment = lift-l, moment-m
	}
	l1, m1 := weight(aft)
	if aft == 1 {
		turns[0] = lift / l1
		return turns
	}
	l0, m0 := weight(aft - 1)
	det := l0*m1 - l1*m0
	turns[aft-2] = (lift*m1 - l1*moment) / det
	turns[aft-1] = (l0*moment - lift*m0) / det
	return turns
}
