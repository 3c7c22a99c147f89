package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// The files published_*_test.go use exported names only, so that they hold for whatever lattice is inside.

// plateChord is the chord of the plates whose trace alone matters, in half spans of the wing.
const plateChord = 0.2

// plateThrough is a flat surface of constant chord through points (y, z) of the right half, its leading edge at x; with
// joins it continues the tip of that surface.
func plateThrough(name string, role aero.Role, joins string, x float64, points ...[2]float64) aero.Surface {
	s := aero.Surface{Name: name, Role: role, Mirrored: true, Joins: joins}
	if joins != "" {
		s.JoinsAt = aero.AtTip
	}
	for _, p := range points {
		le := r3.Vec{X: x, Y: p[0], Z: p[1]}
		s.Stations = append(s.Stations, aero.Station{LeadingEdge: le, TrailingEdge: r3.Add(le, r3.Vec{X: plateChord})})
	}
	return s
}

// spanTwo puts surfaces together on the reference quantities of a wing of span 2 and chord plateChord.
func spanTwo(surfaces ...aero.Surface) aero.Airframe {
	return aero.Airframe{
		Surfaces:  surfaces,
		Reference: aero.Reference{Area: 2 * plateChord, Span: 2, MeanChord: plateChord},
	}
}

// ellipticWing has the chord c0 √(1 − y²), span 2 and a straight line at the chord fraction given. Stations crowd at the
// tip, where the outline ends at 1 − (π/2·0.001)²/2.
func ellipticWing(aspect, straight float64, bays int) aero.Airframe {
	root := 8 / (math.Pi * aspect)
	wing := aero.Surface{Name: "wing", Role: aero.RoleWing, Mirrored: true}
	for i := range bays + 1 {
		y := math.Sin(math.Pi / 2 * float64(i) / float64(bays) * 0.999)
		chord := root * math.Sqrt(1-y*y)
		wing.Stations = append(wing.Stations, aero.Station{
			LeadingEdge:  r3.Vec{X: straight * (root - chord), Y: y},
			TrailingEdge: r3.Vec{X: straight*(root-chord) + chord, Y: y},
		})
	}
	return aero.Airframe{
		Surfaces:  []aero.Surface{wing},
		Reference: aero.Reference{Area: 4 / aspect, Span: 2, MeanChord: root * 8 / (3 * math.Pi)},
	}
}

// solvedAt solves an airframe at a density; it serves rapid's tests too.
func solvedAt(t require.TestingT, a aero.Airframe, density float64) *Solution {
	if h, ok := t.(testing.TB); ok {
		h.Helper()
	}
	s, err := Solve(a, Options{Density: density})
	require.NoError(t, err)
	return s
}

// slopeOf is the lift curve slope at zero angle of attack, 1/rad.
func slopeOf(s *Solution) float64 { return s.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift }

// centreOf is the aerodynamic centre in mean chords aft of the mean chord's leading edge.
func centreOf(s *Solution) float64 {
	r := s.Derivatives(State{}, r3.Vec{}).Reference
	return r.Percent(s.NeutralPoint(State{})) / 100
}

// efficiencyOf is the span efficiency of an untwisted wing.
func efficiencyOf(s *Solution) float64 { return s.SpanEfficiency(State{Alpha: 0.05}) }
