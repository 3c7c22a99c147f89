package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// hingeForm is the hinge moment over ½ρV², m³, of the circulation with one set of weights in the velocity of another: a
// quadratic form in the state, as loads are.
func (s *Solution) hingeForm(h *hinged, circulation, velocity []float64) float64 {
	sum := 0.0
	for i := range h.strips {
		p := &h.strips[i]
		sum -= p.sense * p.square * s.flapForm(p, circulation, velocity)
	}
	return sum
}

// flapForm is the moment, m³, of the normal force on a strip's flap about its hinge line, arms along the chord.
func (s *Solution) flapForm(p *hingedStrip, circulation, velocity []float64) float64 {
	n := len(s.grid.chord.vortex)
	st := &s.grid.strips[p.index]
	pieces := s.pieces[3*n*p.index : 3*n*(p.index+1)] // n bound ones, then those of the inboard and of the outboard edge
	perCirculation, force := make([]float64, n), make([]float64, n)
	for k := range n {
		perCirculation[k] = s.normalForce(&pieces[k], st.normal, velocity)
		force[k] = perCirculation[k] * s.strengthIn(&pieces[k], circulation)
	}
	moment := 0.0
	for _, own := range st.hinges { // take the singular loading of every hinge on the strip apart
		deflection := circulation[firstControl+2*own.control]
		if own.hinge <= 0 || deflection == 0 {
			continue
		}
		source := p.flap
		if own.hinge != source.hinge {
			source = newFlap(s.grid.chord, own.hinge)
		}
		size := own.gain * deflection * st.chord * s.grid.field.slant(st.slopeAt(own.hinge)) *
			interpolate(s.grid.chord.vortex, perCirculation, own.hinge)
		for k := range force {
			force[k] -= size * source.discrete[k]
		}
		moment += size * p.flap.momentOf(source)
	}
	moment = st.chord * (moment + p.flap.momentOfSeries(force))
	for k := n; k < 3*n; k++ {
		e := &pieces[k]
		chord := st.chordA
		if k >= 2*n {
			chord = st.chordB
		}
		from, to, _ := s.grid.edgeSpan(e.row)
		along := s.normalForce(e, st.normal, velocity) * s.strengthIn(e, circulation)
		moment += along * chord * armBehind(p.flap.hinge, from, to)
	}
	return moment
}

// normalForce is the force along a normal over ½ρV² per unit circulation of a piece.
func (s *Solution) normalForce(e *element, normal r3.Vec, velocity []float64) float64 {
	var v r3.Vec
	for i, k := range velocity {
		if k != 0 {
			v = r3.Add(v, r3.Scale(k, s.velocity.at(i, e.sample)))
		}
	}
	return 2 * r3.Dot(r3.Cross(v, e.along), normal)
}

// strengthIn is the circulation of a piece in a state given by weights.
func (s *Solution) strengthIn(e *element, weights []float64) float64 {
	sum := 0.0
	for i, k := range weights {
		if k != 0 {
			sum += k * s.strength(e, i)
		}
	}
	return sum
}

// armBehind is the mean over a piece, spread evenly between two chord fractions, of its arm behind the hinge.
func armBehind(hinge, from, to float64) float64 {
	start := math.Max(from, hinge)
	if to <= start {
		return 0
	}
	return (to - start) / (to - from) * ((to+start)/2 - hinge)
}

// changes are the derivatives of a state's weights.
type changes struct {
	alpha, beta, roll, pitch, yaw []float64
	controls                      [][]float64
}

func (s *Solution) changesOf(state State, momentPoint r3.Vec) changes {
	r := s.airframe.Reference
	sinA, cosA := math.Sincos(state.Alpha)
	sinB, cosB := math.Sincos(state.Beta)
	stream := func(v r3.Vec) []float64 {
		step := make([]float64, len(s.circulation))
		s.setStream(step, state, v)
		return step
	}
	turn := func(omega r3.Vec) []float64 {
		step := make([]float64, len(s.circulation))
		addTurn(step, omega, momentPoint)
		return step
	}
	out := changes{
		alpha: stream(r3.Vec{X: -sinA * cosB, Z: cosA * cosB}),
		beta:  stream(r3.Vec{X: -cosA * sinB, Y: -cosB, Z: -sinA * sinB}),
		roll:  turn(r3.Vec{X: -2 / r.Span}), pitch: turn(r3.Vec{Y: 2 / r.MeanChord}), yaw: turn(r3.Vec{Z: -2 / r.Span}),
	}
	for c := range s.controls.controls {
		step := make([]float64, len(s.circulation))
		setControl(step, c, 1, r3.Vec{X: cosA * cosB, Y: -sinB, Z: sinA * cosB})
		out.controls = append(out.controls, step)
	}
	return out
}
