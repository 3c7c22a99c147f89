package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// bay is the flat stretch of a surface between two stations.
type bay struct {
	surface    int        // index in the airframe
	station    int        // inboard station, from 0
	place      [2]float64 // of its ends in the user's station table
	segment    int        // of its chain, from 0
	le0, le1   r3.Vec
	chord      [2]float64
	twist      [2]float64 // rad, leading edge towards the normal positive
	line       [2]aero.MeanLine
	normal     r3.Vec  // of the flat panel
	length     float64 // in the y–z plane, m
	hingeTurns []hingeSpan
}

// hingeSpan says that a control covers the whole bay.
type hingeSpan struct {
	control int     // index in the solution's list
	hinge   float64 // fraction of the chord
	gain    float64 // turn of the normal per radian of control, with sign and effectiveness
}

// flatten lays the chords of a surface along x, holding leading edges, and keeps their directions as twist.
func flatten(index int, s aero.Surface, at places) []bay {
	bays := make([]bay, 0, len(s.Stations)-1)
	for i := 0; i+1 < len(s.Stations); i++ {
		a, b := s.Stations[i], s.Stations[i+1]
		step := r3.Sub(b.LeadingEdge, a.LeadingEdge)
		length := math.Hypot(step.Y, step.Z)
		n := r3.Vec{Y: -step.Z / length, Z: step.Y / length}
		bays = append(bays, bay{
			surface: index, station: i, place: [2]float64{at[i], at[i+1]},
			le0: a.LeadingEdge, le1: b.LeadingEdge,
			chord:  [2]float64{a.Chord(), b.Chord()},
			twist:  [2]float64{twistOf(a, n), twistOf(b, n)},
			line:   [2]aero.MeanLine{a.MeanLine, b.MeanLine},
			normal: n, length: length,
		})
	}
	return bays
}

// twistOf is the angle from x to the chord, positive with the leading edge towards n.
func twistOf(s aero.Station, n r3.Vec) float64 {
	chord := r3.Sub(s.TrailingEdge, s.LeadingEdge)
	return math.Atan2(-r3.Dot(chord, n), chord.X)
}

// leadingEdge, chordAt and turnAt interpolate linearly at a fraction t of the bay.
func (b *bay) leadingEdge(t float64) r3.Vec {
	return r3.Add(b.le0, r3.Scale(t, r3.Sub(b.le1, b.le0)))
}

func (b *bay) chordAt(t float64) float64 { return b.chord[0] + t*(b.chord[1]-b.chord[0]) }

// placeAt is the user's station inboard of a fraction t of the bay, and how far it stands from there to the next.
func (b *bay) placeAt(t float64) (station int, between float64) {
	at := b.place[0] + t*(b.place[1]-b.place[0])
	inboard := math.Floor(math.Min(b.place[0], b.place[1]))
	return int(inboard), math.Min(1, at-inboard)
}

// turnAt is the turn of the normal at chord fraction x: twist less the angle of the mean line.
func (b *bay) turnAt(t, x float64) float64 {
	slope := 0.0
	for i, weight := range [2]float64{1 - t, t} {
		if b.line[i] != nil {
			slope += weight * b.line[i].Slope(x)
		}
	}
	return b.twist[0] + t*(b.twist[1]-b.twist[0]) - math.Atan(slope)
}
