package aero

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// trapezoid is one panel of the projected half wing.
type trapezoid struct {
	y0, y1 float64 // m
	x0, x1 float64 // leading edge, m
	c0, c1 float64 // projected chord, m
}

// ReferenceOf computes the reference quantities of the main wing.
//
// The surfaces of role wing and strake are projected on z = 0; the innermost station is carried to
// y = 0 with its own chord line; every stretch between two stations is a trapezoid. Area counts both
// halves, span is twice the largest y. With c(y) the projected chord and x(y) its leading edge,
//
//	mean aerodynamic chord       = 2/S ∫ c² dy
//	its leading edge             = 2/S ∫ c x dy     (from 0 to half the span)
//
// Source: the definition in any text, such as Etkin & Reid, Dynamics of Flight, 3rd ed., Appendix C.
//
// An error names the surface and the station: whatever CheckSurfaces finds, no wing at all, or
// surfaces that overlap or leave a gap in y.
func ReferenceOf(surfaces []Surface) (Reference, error) {
	var counted []Surface
	for _, s := range surfaces {
		if s.Role == RoleWing || s.Role == RoleStrake {
			counted = append(counted, s)
		}
	}
	if !slices.ContainsFunc(counted, func(s Surface) bool { return s.Role == RoleWing }) {
		return Reference{}, &GeometryError{"", 0, "no lifting surface has the role wing", "give the main wing the role wing"}
	}
	if err := CheckSurfaces(counted); err != nil {
		return Reference{}, err
	}
	slices.SortStableFunc(counted, func(a, b Surface) int {
		return cmp.Compare(a.Stations[0].LeadingEdge.Y, b.Stations[0].LeadingEdge.Y)
	})
	pieces, err := trapezoids(counted)
	if err != nil {
		return Reference{}, err
	}
	return integrate(pieces), nil
}

// trapezoids lays the surfaces, sorted by their inboard end, one outboard of the other.
func trapezoids(surfaces []Surface) ([]trapezoid, error) {
	first := surfaces[0].Stations[0]
	pieces := []trapezoid{{
		0, first.LeadingEdge.Y, first.LeadingEdge.X, first.LeadingEdge.X,
		projectedChord(first), projectedChord(first),
	}}
	reached, inner := first.LeadingEdge.Y, ""
	for _, s := range surfaces {
		start := s.Stations[0]
		if gap := start.LeadingEdge.Y - reached; math.Abs(gap) > 0.05*start.Chord() {
			word := "a gap"
			if gap < 0 {
				word = "an overlap"
			}
			what := fmt.Sprintf("its inboard end leaves %s of %.4g m in y with %q", word, math.Abs(gap), inner)
			return nil, &GeometryError{s.Name, 1, what, "let strake and wing meet at one y"}
		}
		for i := 1; i < len(s.Stations); i++ {
			a, b := s.Stations[i-1], s.Stations[i]
			pieces = append(pieces, trapezoid{
				a.LeadingEdge.Y, b.LeadingEdge.Y, a.LeadingEdge.X, b.LeadingEdge.X,
				projectedChord(a), projectedChord(b),
			})
		}
		reached, inner = s.Stations[len(s.Stations)-1].LeadingEdge.Y, s.Name
	}
	return pieces, nil
}

func projectedChord(s Station) float64 { return s.TrailingEdge.X - s.LeadingEdge.X }

// integrate sums area, ∫c² and ∫c·x of the trapezoids in closed form.
func integrate(pieces []trapezoid) Reference {
	var half, chordSquared, chordTimesX, tip float64
	for _, p := range pieces {
		dy := p.y1 - p.y0
		half += dy * (p.c0 + p.c1) / 2
		chordSquared += dy * (p.c0*p.c0 + p.c0*p.c1 + p.c1*p.c1) / 3
		chordTimesX += dy * (2*p.c0*p.x0 + p.c0*p.x1 + p.c1*p.x0 + 2*p.c1*p.x1) / 6
		tip = math.Max(tip, p.y1)
	}
	return Reference{
		Area:                 2 * half,
		Span:                 2 * tip,
		MeanChord:            chordSquared / half,
		MeanChordLeadingEdge: chordTimesX / half,
	}
}
