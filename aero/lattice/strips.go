package lattice

import (
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Strips returns the air load on every chordwise strip of the right half, surface by surface from
// the inboard to the outboard end; rotation is about the origin of the datum axes.
//
// The left half is that of the state with sideslip, roll and yaw rate and antisymmetric controls reversed.
func (s *Solution) Strips(state State) []aero.StripLoad { return s.StripsAbout(state, r3.Vec{}) }

// StripsAbout is Strips with rotation about a point of the caller's (datum axes, m).
func (s *Solution) StripsAbout(state State, momentPoint r3.Vec) []aero.StripLoad {
	w := s.weights(state, momentPoint)
	last := len(s.grid.chord.vortex) - 1
	out := make([]aero.StripLoad, len(s.grid.strips))
	for k := range s.grid.strips {
		st := &s.grid.strips[k]
		gamma := 0.0
		for i, wi := range w {
			gamma += wi * s.cumulated[i][st.first+last]
		}
		out[k] = aero.StripLoad{
			Surface: s.airframe.Surfaces[st.surface].Name,
			Centre:  aft(st.at, st.chord/4), Width: st.width, Chord: st.chord,
			SectionLift: 2 * gamma / st.chord, Station: st.station, Between: st.between,
		}
	}
	for e := range s.pieces {
		p := &s.pieces[e]
		var v r3.Vec
		gamma := 0.0
		for i, wi := range w {
			gamma += wi * s.strength(p, i)
			v = r3.Add(v, r3.Scale(wi, s.velocity.at(i, p.sample)))
		}
		o := &out[p.strip]
		force := r3.Scale(2*gamma, r3.Cross(v, p.along))
		o.Force = r3.Add(o.Force, force)
		o.Moment = r3.Add(o.Moment, r3.Cross(r3.Sub(p.at, o.Centre), force))
	}
	return out
}
