package aero

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// quarterChord is the point that SetIncidence, SetToe, SetSpan and ScaleChord hold, fraction of the chord.
const quarterChord = 0.25

// edit applies change to a copy of the named surface, then draws joined surfaces together again.
// A surface that joins another is thus moved onto it, and surfaces that join the changed one follow it
// as a whole when its end moved.
func (a Airframe) edit(surface string, change func(*Surface) error) (Airframe, error) {
	i := a.index(surface)
	if i < 0 {
		return Airframe{}, &GeometryError{"", 0, fmt.Sprintf("there is no lifting surface %q", surface), "use one of " + a.names()}
	}
	if len(a.Surfaces[i].Stations) < 2 {
		return Airframe{}, &GeometryError{surface, 0, "it has fewer than two stations", "give at least two"}
	}
	out := a.clone()
	if err := change(&out.Surfaces[i]); err != nil {
		return Airframe{}, err
	}
	out.follow(a, surface, 0)
	joined, _, err := Join(out)
	return joined, err
}

// follow shifts the surfaces that join the changed one by as much as their joint moved, and those
// that join them in turn. depth stops a ring of joints.
func (a *Airframe) follow(before Airframe, changed string, depth int) {
	if depth > len(a.Surfaces) {
		return
	}
	for i := range a.Surfaces {
		s := &a.Surfaces[i]
		if s.Joins != changed || s.Name == changed {
			continue
		}
		_, was, err1 := before.joint(before.Surfaces[i])
		_, is, err2 := a.joint(*s)
		if err1 != nil || err2 != nil {
			continue
		}
		step := r3.Sub(is.LeadingEdge, was.LeadingEdge)
		if r3.Norm(step) == 0 {
			continue
		}
		shiftStations(s, step)
		a.follow(before, s.Name, depth+1)
	}
}

func (a Airframe) names() string {
	names := make([]string, len(a.Surfaces))
	for i, s := range a.Surfaces {
		names[i] = s.Name
	}
	return strings.Join(names, ", ")
}

func shiftStations(s *Surface, step r3.Vec) {
	for i := range s.Stations {
		s.Stations[i].LeadingEdge = r3.Add(s.Stations[i].LeadingEdge, step)
		s.Stations[i].TrailingEdge = r3.Add(s.Stations[i].TrailingEdge, step)
	}
}

// SetHeight gives the surface (a winglet or a fin) the height m, the difference in z between its two
// ends. Leading-edge offsets from the root are stretched in one ratio, so that sweep and cant of the
// leading edge stay; chords and their toe stay.
func (a Airframe) SetHeight(surface string, m float64) (Airframe, error) {
	return a.edit(surface, func(s *Surface) error {
		root, tip := s.Stations[0].LeadingEdge, s.Stations[len(s.Stations)-1].LeadingEdge
		height := math.Abs(tip.Z - root.Z)
		if height < smallestChord {
			return &GeometryError{s.Name, 0, "both ends lie at one height, so that it cannot be stretched", "set the span instead"}
		}
		if !(m > 0) {
			return &GeometryError{s.Name, 0, fmt.Sprintf("a height of %.4g m was asked for", m), "give a height above zero"}
		}
		stretch(s, 0, m/height)
		return nil
	})
}

// SetSpan gives the surface the full span m (twice the y of its tip). Offsets of the quarter-chord line
// from the root are stretched in one ratio, so that its sweep and dihedral stay; chords stay.
func (a Airframe) SetSpan(surface string, m float64) (Airframe, error) {
	return a.edit(surface, func(s *Surface) error {
		root, tip := s.Stations[0].LeadingEdge.Y, s.Stations[len(s.Stations)-1].LeadingEdge.Y
		if tip-root < smallestChord {
			return &GeometryError{s.Name, 0, "it has no extent in y, so that it has no span", "set the height instead"}
		}
		if !(m/2 > root) {
			return &GeometryError{s.Name, 0, fmt.Sprintf("a span of %.4g m was asked for", m), fmt.Sprintf("give more than %.4g m, twice the y of its root", 2*root)}
		}
		stretch(s, quarterChord, (m/2-root)/(tip-root))
		return nil
	})
}

// stretch multiplies the offsets of a chordwise point of every station from that of the root.
func stretch(s *Surface, fraction, ratio float64) {
	origin := s.Stations[0].at(fraction)
	for i := range s.Stations {
		st := &s.Stations[i]
		offset := r3.Sub(st.at(fraction), origin)
		step := r3.Scale(ratio-1, offset)
		st.LeadingEdge = r3.Add(st.LeadingEdge, step)
		st.TrailingEdge = r3.Add(st.TrailingEdge, step)
	}
}

// at is the point of the chord line a fraction of the chord aft of the leading edge.
func (s Station) at(fraction float64) r3.Vec {
	return r3.Add(s.LeadingEdge, r3.Scale(fraction, r3.Sub(s.TrailingEdge, s.LeadingEdge)))
}

// ScaleChord multiplies every chord by ratio, holding the quarter-chord points.
func (a Airframe) ScaleChord(surface string, ratio float64) (Airframe, error) {
	return a.edit(surface, func(s *Surface) error {
		if !(ratio > 0) {
			return &GeometryError{s.Name, 0, fmt.Sprintf("chords were to be multiplied by %.4g", ratio), "give a ratio above zero"}
		}
		for i := range s.Stations {
			st := &s.Stations[i]
			hold := st.at(quarterChord)
			st.LeadingEdge = r3.Add(hold, r3.Scale(ratio, r3.Sub(st.LeadingEdge, hold)))
			st.TrailingEdge = r3.Add(hold, r3.Scale(ratio, r3.Sub(st.TrailingEdge, hold)))
		}
		return nil
	})
}

// Shift moves the surface by dx aft and dz up, metres.
func (a Airframe) Shift(surface string, dx, dz float64) (Airframe, error) {
	return a.edit(surface, func(s *Surface) error {
		shiftStations(s, r3.Vec{X: dx, Z: dz})
		return nil
	})
}

// SetIncidence turns the whole surface so that the chord of its root stands at rad to the datum x
// axis, leading edge up positive. Every chord turns by the same angle about its own quarter-chord
// point, so that the twist along the span stays.
func (a Airframe) SetIncidence(surface string, rad float64) (Airframe, error) {
	return a.edit(surface, func(s *Surface) error {
		root := r3.Sub(s.Stations[0].TrailingEdge, s.Stations[0].LeadingEdge)
		turn := rad - math.Atan2(-root.Z, root.X)
		turnChords(s, r3.Vec{Y: 1}, turn)
		return nil
	})
}

// SetToe turns the whole surface (a winglet) so that the chord of its root stands at rad to the plane
// of symmetry, leading edge inboard positive. Every chord turns by the same angle about a vertical
// axis through its own quarter-chord point, but for a root that Join draws onto the surface that it joins.
func (a Airframe) SetToe(surface string, rad float64) (Airframe, error) {
	return a.edit(surface, func(s *Surface) error {
		root := r3.Sub(s.Stations[0].TrailingEdge, s.Stations[0].LeadingEdge)
		turn := rad - math.Atan2(root.Y, root.X)
		turnChords(s, r3.Vec{Z: 1}, turn)
		return nil
	})
}

// turnChords turns every chord by an angle (right-hand rule about axis) about its quarter-chord point.
func turnChords(s *Surface, axis r3.Vec, angle float64) {
	for i := range s.Stations {
		st := &s.Stations[i]
		rotation := r3.NewRotation(angle, axis)
		hold := st.at(quarterChord)
		st.LeadingEdge = r3.Add(hold, rotation.Rotate(r3.Sub(st.LeadingEdge, hold)))
		st.TrailingEdge = r3.Add(hold, rotation.Rotate(r3.Sub(st.TrailingEdge, hold)))
	}
}

// SetCant turns the surface (a winglet) about the x axis through the leading edge of its root so that
// the line from root to tip stands at rad to the vertical, outboard positive. Length, sweep and the
// root chord stay.
func (a Airframe) SetCant(surface string, rad float64) (Airframe, error) {
	return a.edit(surface, func(s *Surface) error {
		root, tip := s.Stations[0].LeadingEdge, s.Stations[len(s.Stations)-1].LeadingEdge
		now := math.Atan2(tip.Y-root.Y, math.Abs(tip.Z-root.Z))
		turn := now - rad // about +x, which carries y towards z
		if tip.Z < root.Z {
			turn = -turn
		}
		rotation := r3.NewRotation(turn, r3.Vec{X: 1})
		for i := 1; i < len(s.Stations); i++ {
			st := &s.Stations[i]
			st.LeadingEdge = r3.Add(root, rotation.Rotate(r3.Sub(st.LeadingEdge, root)))
			st.TrailingEdge = r3.Add(root, rotation.Rotate(r3.Sub(st.TrailingEdge, root)))
		}
		return nil
	})
}

// ReplaceStations gives the surface another set of stations, such as those of another level of a
// choice. Hinges stay and count the new stations.
func (a Airframe) ReplaceStations(surface string, stations []Station) (Airframe, error) {
	return a.edit(surface, func(s *Surface) error {
		s.Stations = append([]Station(nil), stations...)
		return errors.Join(checkSurface(*s)...)
	})
}
