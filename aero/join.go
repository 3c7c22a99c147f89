package aero

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// snapFraction is the share of the chord at a joint within which edges are drawn together. It is a
// figure of common practice, no source: a gap of this size is an export or a drawing error, a wider one is meant.
const snapFraction = 0.05

// Ends of a surface that another may join; the words of Surface.JoinsAt.
const (
	AtTip  = "tip"
	AtRoot = "root"
)

// Join returns a copy of the airframe in which every surface that joins another shares its edges.
//
// At the joint, leading and trailing edge of the joining surface are set on those of the surface that
// it joins when they lie within 5 % of the chord there. The chord at the joint takes the other's
// length but keeps its own direction, for that is its toe or incidence. An edge that stays apart (a wider gap, or a
// shorter chord at the root of a winglet) is left where it is and reported as a warning, which says whether a
// lattice can bridge the step along the chord or leaves a gap beside it open. An unknown name in Joins, or another
// word than "tip" or "root" in JoinsAt, is an error.
func Join(a Airframe) (Airframe, []Warning, error) {
	out := a.clone()
	var warnings []Warning
	for i := range out.Surfaces {
		s := &out.Surfaces[i]
		if s.Joins == "" {
			continue
		}
		host, at, err := out.joint(*s)
		if err != nil {
			return Airframe{}, nil, err
		}
		if len(s.Stations) == 0 {
			return Airframe{}, nil, &GeometryError{s.Name, 0, "it has no stations", "give at least two"}
		}
		warnings = append(warnings, snap(s, host, at)...)
	}
	return out, warnings, nil
}

// joint finds the station that surface s joins.
func (a Airframe) joint(s Surface) (host string, at Station, err error) {
	i := a.index(s.Joins)
	if i < 0 || s.Joins == s.Name || len(a.Surfaces[i].Stations) == 0 {
		return "", Station{}, &GeometryError{s.Name, 0, fmt.Sprintf("it joins %q, which is no other surface with stations", s.Joins), "name a lifting surface of this airframe"}
	}
	stations := a.Surfaces[i].Stations
	switch s.JoinsAt {
	case AtTip, "":
		return s.Joins, stations[len(stations)-1], nil
	case AtRoot:
		return s.Joins, stations[0], nil
	}
	return "", Station{}, &GeometryError{s.Name, 0, fmt.Sprintf("it joins %q at %q", s.Joins, s.JoinsAt), `say "tip" or "root"`}
}

// snap draws the edges of the end of s that lies at the joint onto it. A winglet joins with its root;
// a strake, which lies inboard of the wing, joins the wing's root with its tip.
func snap(s *Surface, host string, at Station) []Warning {
	end := 0
	if s.JoinsAt == AtRoot {
		end = len(s.Stations) - 1
	}
	st := &s.Stations[end]
	tolerance := snapFraction * at.Chord()
	gaps := [2]float64{
		r3.Norm(r3.Sub(st.LeadingEdge, at.LeadingEdge)),
		r3.Norm(r3.Sub(st.TrailingEdge, at.TrailingEdge)),
	}
	along := r3.Unit(r3.Sub(st.TrailingEdge, st.LeadingEdge))
	if gaps[0] <= tolerance {
		st.LeadingEdge = at.LeadingEdge
	}
	if gaps[1] <= tolerance {
		st.TrailingEdge = at.TrailingEdge
		if gaps[0] <= tolerance {
			st.TrailingEdge = r3.Add(at.LeadingEdge, r3.Scale(at.Chord(), along))
		}
	}
	right := "let the edges meet within 5 % of the chord if no step is meant; the lattice draws the chord out to the other over a short fairing"
	if s.beside(end, at) > tolerance {
		right = "let the edges meet within 5 % of the chord; the gap stays open otherwise, and circulation does not cross it: less lift slope and more induced drag"
	}
	var warnings []Warning
	for i, edge := range [2]string{"leading edge", "trailing edge"} {
		if gaps[i] <= tolerance {
			continue
		}
		warnings = append(warnings, Warning{
			Surface: s.Name, Station: end + 1,
			What:  fmt.Sprintf("its %s is %.0f mm from that of %q (%.1f %% of the chord there)", edge, 1000*gaps[i], host, 100*gaps[i]/at.Chord()),
			Right: right,
		})
	}
	return warnings
}

// beside is how far the leading edge of an end stands from the chord line of a host, drawn on beyond both its ends, m.
func (s *Surface) beside(end int, host Station) float64 {
	chord := r3.Unit(r3.Sub(host.TrailingEdge, host.LeadingEdge))
	d := r3.Sub(s.Stations[end].LeadingEdge, host.LeadingEdge)
	return r3.Norm(r3.Sub(d, r3.Scale(r3.Dot(d, chord), chord)))
}

// clone copies the airframe so that changes of stations and hinges do not reach the original.
func (a Airframe) clone() Airframe {
	out := a
	out.Surfaces = slices.Clone(a.Surfaces)
	for i := range out.Surfaces {
		out.Surfaces[i].Stations = slices.Clone(out.Surfaces[i].Stations)
		out.Surfaces[i].Hinges = slices.Clone(out.Surfaces[i].Hinges)
	}
	return out
}

// index finds a surface by name; −1 when there is none.
func (a Airframe) index(name string) int {
	return slices.IndexFunc(a.Surfaces, func(s Surface) bool { return s.Name == name })
}
