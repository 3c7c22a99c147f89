package lattice

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// wingAt is a flat rectangular half wing with its own name, place and half span.
func wingAt(name string, role aero.Role, x, z, half float64) aero.Surface {
	return aero.Surface{
		Name: name, Role: role, Mirrored: true,
		Stations: []aero.Station{
			{LeadingEdge: r3.Vec{X: x, Z: z}, TrailingEdge: r3.Vec{X: x + 0.2, Z: z}},
			{LeadingEdge: r3.Vec{X: x, Y: half, Z: z}, TrailingEdge: r3.Vec{X: x + 0.2, Y: half, Z: z}},
		},
	}
}

// traceDrag is drag over ½ρV² for circulations laid on the strips.
func traceDrag(g *grid, gamma []float64) float64 {
	drag := 0.0
	for k := range g.strips {
		for m := range g.strips {
			own, image := g.traceWash(k, m)
			drag -= 2 * g.strips[k].width * gamma[k] * gamma[m] * (own + image)
		}
	}
	return drag
}

func elliptic(g *grid, surface int, half float64) []float64 {
	gamma := make([]float64, len(g.strips))
	for k := range g.strips {
		if g.strips[k].surface == surface {
			y := g.strips[k].at.Y / half
			gamma[k] = math.Sqrt(1 - y*y)
		}
	}
	return gamma
}

func TestEllipticLoadInTheTrefftzPlane(t *testing.T) {
	// Lifting line with Γ = Γ0 √(1 − η²): L = ½πbΓ0 and D = ⅛πΓ0² times 2 over ½ρV² (Prandtl).
	s, err := Solve(aero.Airframe{Surfaces: []aero.Surface{wingAt("wing", aero.RoleWing, 0, 0, 1)}}, Options{})
	require.NoError(t, err)
	drag := traceDrag(s.grid, elliptic(s.grid, 0, 1))
	require.InDelta(t, 1, drag/(math.Pi/4), 2e-3)
	best, err := s.BestSpanEfficiency()
	require.NoError(t, err)
	require.InDelta(t, 1, best, 2e-3)
	require.Less(t, s.SpanEfficiency(State{Alpha: 0.1}), best)
}

func TestBiplaneInterference(t *testing.T) {
	// Prandtl's interference factor σ of two elliptic loads: σ = −(1/π²) ∬ cosθ1 cosθ2 ln[(cosθ1 − μ cosθ2)² + (2h/b)²],
	// evaluated; Prandtl's own table (NACA Report 116, from memory) gives 0.780, 0.655, 0.485 for equal spans.
	for _, c := range []struct{ span, gap, sigma, tolerance float64 }{
		{1, 0.05, 0.7845, 0.004}, {1, 0.10, 0.6565, 0.004}, {1, 0.20, 0.4842, 0.004},
		{0.5, 0.02, 0.4778, 0.004}, {0.5, 0.10, 0.3921, 0.004}, {0.4, 0.05, 0.3576, 0.004},
		{0.4, 0, 0.4, 0.01}, // in one plane, exactly the ratio of spans: the tip's singularity lies inside the wing
	} {
		t.Run(fmt.Sprintf("span %.1f gap %.2f", c.span, c.gap), func(t *testing.T) {
			s, err := Solve(aero.Airframe{Surfaces: []aero.Surface{
				wingAt("wing", aero.RoleWing, 3, 0, 1), wingAt("foreplane", aero.RoleForeplane, 0, 2*c.gap, c.span),
			}}, Options{})
			require.NoError(t, err)
			g := s.grid
			// loads of equal lift; D = D1 + D2 + 2·mutual
			one, two := elliptic(g, 0, 1), elliptic(g, 1, c.span)
			both := make([]float64, len(one))
			for k := range both {
				two[k] /= c.span
				both[k] = one[k] + two[k]
			}
			mutual := (traceDrag(g, both) - traceDrag(g, one) - traceDrag(g, two)) / 2
			// over q: mutual = σ L1 L2/(π b1 b2), and alone each has D = L²/(π b²), for the wing π/4
			require.InDelta(t, c.sigma, mutual*c.span/(math.Pi/4), c.tolerance)
		})
	}
}

func TestMunkStagger(t *testing.T) {
	// M. M. Munk, NACA Report 121: shifting a surface along the stream with its circulation held does not change the drag.
	airframe := func(x float64) aero.Airframe {
		return aero.Airframe{Surfaces: []aero.Surface{
			wingAt("wing", aero.RoleWing, 3, 0, 1), wingAt("foreplane", aero.RoleForeplane, x, 0.4, 0.5),
		}}
	}
	a, err := Solve(airframe(0), Options{})
	require.NoError(t, err)
	b, err := Solve(airframe(2), Options{})
	require.NoError(t, err)
	gamma := make([]float64, len(a.grid.strips))
	for k := range gamma {
		gamma[k] = 1 + math.Sin(float64(k))
	}
	require.InDelta(t, 1, traceDrag(a.grid, gamma)/traceDrag(b.grid, gamma), 1e-12)
}

func TestBestSpanEfficiencyOfWinglets(t *testing.T) {
	// Trefftz-plane optimum with normal velocity ∝ cos of the dihedral, computed independently (±0.002):
	// upright winglets of height h on span b.
	for _, c := range []struct{ height, e float64 }{{0.05, 1.112}, {0.10, 1.219}, {0.20, 1.418}} {
		wing := wingAt("wing", aero.RoleWing, 0, 0, 1)
		tip := wing.Stations[1]
		top := tip
		top.LeadingEdge.Z, top.TrailingEdge.Z = 2*c.height, 2*c.height
		winglet := aero.Surface{Name: "winglet", Role: aero.RoleWinglet, Mirrored: true, Joins: "wing", JoinsAt: aero.AtTip, Stations: []aero.Station{tip, top}}
		s, err := Solve(aero.Airframe{Surfaces: []aero.Surface{wing, winglet}}, Options{})
		require.NoError(t, err)
		best, err := s.BestSpanEfficiency("wing", "winglet")
		require.NoError(t, err)
		require.InDelta(t, c.e, best, 0.004, "height %.2f", c.height)
		require.Less(t, s.SpanEfficiency(State{Alpha: 0.1}), best)
	}
	s, err := Solve(aero.Airframe{Surfaces: []aero.Surface{wingAt("wing", aero.RoleWing, 0, 0, 1)}}, Options{})
	require.NoError(t, err)
	_, err = s.BestSpanEfficiency("tail")
	require.ErrorContains(t, err, "tail")
}
