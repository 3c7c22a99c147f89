package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// plainWing is a flat straight-tapered wing of span 2 at z = 0.
func plainWing(aspect, taper, leadingEdgeSweep float64) aero.Airframe {
	root := 4 / (aspect * (1 + taper))
	tip := taper * root
	x := math.Tan(leadingEdgeSweep)
	return aero.Airframe{Surfaces: []aero.Surface{{
		Name: "wing", Role: aero.RoleWing, Mirrored: true,
		Stations: []aero.Station{
			{TrailingEdge: r3.Vec{X: root}},
			{LeadingEdge: r3.Vec{X: x, Y: 1}, TrailingEdge: r3.Vec{X: x + tip, Y: 1}},
		},
	}}}
}

// quarterSweep turns a sweep of the quarter-chord line into that of the leading edge.
func quarterSweep(aspect, taper, sweep float64) float64 {
	return math.Atan(math.Tan(sweep) + (1-taper)/(aspect*(1+taper)))
}

func TestPlanforms(t *testing.T) {
	// Independent vortex-lattice computation (6×20 and 12×40 panels a side, ¼–¾ placement,
	// extrapolated; own, uncertain by 0.3 % in slope and 0.003 in place and e); aerodynamic centre in
	// mean chords aft of the mean chord's leading edge.
	const degree = math.Pi / 180
	for _, c := range []struct {
		name                      string
		aspect, taper, le         float64
		slope, centre, efficiency float64
	}{
		{"rectangular 2", 2, 1, 0, 2.474, 0.209, 0.999},
		{"rectangular 6", 6, 1, 0, 4.215, 0.239, 0.984},
		{"rectangular 12", 12, 1, 0, 5.022, 0.245, 0.948},
		{"swept 45°", 5, 1, 45 * degree, 3.188, 0.174, 0.905},
		{"tapered", 6, 0.5, quarterSweep(6, 0.5, 0), 4.342, 0.240, 0.998},
		{"tapered, c/4 30°", 6, 0.5, quarterSweep(6, 0.5, 30*degree), 4.037, 0.252, 0.981},
		{"tapered, c/4 45°", 4, 0.6, quarterSweep(4, 0.6, 45*degree), 3.140, 0.244, 0.966},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := Solve(plainWing(c.aspect, c.taper, c.le), Options{})
			require.NoError(t, err)
			slope := s.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift
			require.InDelta(t, c.slope, slope, 0.003*c.slope)
			r := s.Reference()
			require.InDelta(t, c.centre, r.Percent(s.NeutralPoint(State{}))/100, 0.003)
			require.InDelta(t, c.efficiency, s.SpanEfficiency(State{Alpha: 0.05}), 0.003)
		})
	}
}

func TestWarrenTwelve(t *testing.T) {
	const source = "benchmark planform Warren 12, lifting-surface values (from memory)"
	a := plainWing(2*math.Sqrt2, 1.0/3, 53.54*math.Pi/180)
	s, err := Solve(a, Options{})
	require.NoError(t, err)
	d := s.Derivatives(State{}, r3.Vec{})
	near(t, 2.743, d.ByAlpha.Lift, 0.01, source)
	average := s.Reference().Area / s.Reference().Span
	near(t, -3.10, d.ByAlpha.Pitch*s.Reference().MeanChord/average, 0.01, source)
}

func TestSlenderDelta(t *testing.T) {
	// R. T. Jones, NACA Report 835, 1946: CL_α → πA/2 and centre of pressure at ⅔ of the root chord as A → 0 (from memory).
	s, err := Solve(plainWing(0.1, 0.001, math.Atan(4/0.1/1.001)), Options{})
	require.NoError(t, err)
	near(t, 1, s.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift/(math.Pi*0.1/2), 0.03, "slender wing limit")
	root := 4 / (0.1 * 1.001)
	near(t, 2.0/3, s.NeutralPoint(State{})/root, 0.02, "slender wing limit")
}

func TestCircularPlate(t *testing.T) {
	// Exact lifting-surface solution (Kinner, Krienes; Jordan 1971): CL_α 1.790 (from memory).
	var stations []aero.Station
	for i := range 41 {
		y := math.Sin(math.Pi / 2 * float64(i) / 40 * 0.99)
		x := math.Sqrt(1 - y*y)
		stations = append(stations, aero.Station{LeadingEdge: r3.Vec{X: -x, Y: y}, TrailingEdge: r3.Vec{X: x, Y: y}})
	}
	a := aero.Airframe{Surfaces: []aero.Surface{{Name: "disc", Role: aero.RoleWing, Mirrored: true, Stations: stations}}}
	s, err := Solve(a, Options{})
	require.NoError(t, err)
	near(t, 1.790, s.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift, 0.02, "circular plate")
}

func TestDensityHardlyMatters(t *testing.T) {
	a := plainWing(5, 0.5, 0.5)
	coarse, err := Solve(a, Options{})
	require.NoError(t, err)
	fine, err := Solve(a, Options{Density: 1.6})
	require.NoError(t, err)
	require.Greater(t, fine.Panels(), 2*coarse.Panels())
	c, f := coarse.Derivatives(State{}, r3.Vec{}), fine.Derivatives(State{}, r3.Vec{})
	require.InDelta(t, 1, c.ByAlpha.Lift/f.ByAlpha.Lift, 5e-4)
	require.InDelta(t, 0, (coarse.NeutralPoint(State{})-fine.NeutralPoint(State{}))/coarse.Reference().MeanChord, 1e-3)
	require.InDelta(t, 1, c.ByRollRate.Roll/f.ByRollRate.Roll, 2e-3)
	require.InDelta(t, 1, coarse.SpanEfficiency(State{Alpha: 0.1})/fine.SpanEfficiency(State{Alpha: 0.1}), 1e-3)
}
