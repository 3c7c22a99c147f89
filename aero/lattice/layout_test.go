package lattice

import (
	"errors"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

func TestJointsShareNodesAndWidths(t *testing.T) {
	a, _ := controlled(t)
	g := solved(t, a).grid
	for i := 1; i < len(g.strips); i++ {
		inner, outer := &g.strips[i-1], &g.strips[i]
		if inner.group != outer.group {
			continue
		}
		require.Equal(t, inner.b, outer.a)
		require.Equal(t, inner.chordB, outer.chordA)
		if outer.width > 0.02 { // away from the tip
			require.InDelta(t, 0, math.Log(outer.width/inner.width), math.Log(1.5), "strip %d", i)
		}
	}
}

func TestEdgesFallOnKinks(t *testing.T) {
	a, _ := controlled(t)
	s := solved(t, a)
	for _, y := range []float64{0, 1.3, 4.3} {
		found := false
		for _, st := range s.grid.strips {
			found = found || st.surface == 0 && (math.Abs(st.a.Y-y) < 1e-9 || math.Abs(st.b.Y-y) < 1e-9)
		}
		require.True(t, found, "an edge at y = %.2f", y)
	}
}

// largestSpike is the largest departure of c·cl of a wing strip from the line between its neighbours.
func largestSpike(strips []aero.StripLoad) float64 {
	spike := 0.0
	for i := 1; i+1 < len(strips); i++ {
		a, b, c := strips[i-1], strips[i], strips[i+1]
		if a.Surface != "wing" || c.Surface != "wing" {
			continue
		}
		f := (b.Centre.Y - a.Centre.Y) / (c.Centre.Y - a.Centre.Y)
		line := (1-f)*a.SectionLift*a.Chord + f*c.SectionLift*c.Chord
		spike = math.Max(spike, math.Abs(b.SectionLift*b.Chord-line))
	}
	return spike
}

func TestGrazingWakeIsReported(t *testing.T) {
	a, _ := controlled(t)
	low, err := a.Shift("foreplane", 0, -0.24)
	require.NoError(t, err)
	warnings := solved(t, low).Warnings()
	require.Len(t, warnings, 1)
	require.Equal(t, "foreplane", warnings[0].Surface)
	require.Contains(t, warnings[0].What, `from "wing"`)
	require.Empty(t, solved(t, a).Warnings())
}

func TestSplitWingIsTheSameWing(t *testing.T) {
	// One wing of three stations, or a strake and a wing that join: equal panels, equal answers.
	var c caseFile
	readJSON(t, "canard-case.json", &c)
	whole := c.airframe("1.00", "1.00")
	split := c.airframe("1.00", "1.00")
	wing := split.Surfaces[0]
	strake := wing
	strake.Name, strake.Role, strake.Joins, strake.JoinsAt = "strake", aero.RoleStrake, "wing", aero.AtRoot
	strake.Stations = wing.Stations[:2]
	split.Surfaces[0].Stations = wing.Stations[1:]
	split.Surfaces = append(split.Surfaces, strake)
	one, two := solved(t, whole), solved(t, split)
	require.Equal(t, one.Panels(), two.Panels())
	requireClose(t, one.Coefficients(State{Alpha: 0.1, Beta: 0.1}, c.momentPoint()), two.Coefficients(State{Alpha: 0.1, Beta: 0.1}, c.momentPoint()), 1e-9)
}

func TestTwoWingletsAtOneTip(t *testing.T) {
	a, point := controlled(t)
	lower := a.Surfaces[1]
	lower.Name, lower.Hinges = "ventral", nil
	lower.Stations = append([]aero.Station(nil), lower.Stations...)
	for i, drop := range []float64{0, -0.5} {
		lower.Stations[i].LeadingEdge.Z, lower.Stations[i].TrailingEdge.Z = 0.06+drop, 0.06+drop
	}
	with := a
	with.Surfaces = append(append([]aero.Surface(nil), a.Surfaces...), lower)
	s, alone := solved(t, with), solved(t, a)
	require.Empty(t, s.Warnings())
	d, before := s.Derivatives(State{}, point), alone.Derivatives(State{}, point)
	require.Less(t, d.ByBeta.Side, before.ByBeta.Side)
	require.Greater(t, d.ByBeta.Yaw, before.ByBeta.Yaw)
	fine, err := Solve(with, Options{Density: 1.5})
	require.NoError(t, err)
	require.InDelta(t, 1, d.ByBeta.Yaw/fine.Derivatives(State{}, point).ByBeta.Yaw, 0.01)
	require.InDelta(t, 1, s.SpanEfficiency(State{Alpha: 0.1})/fine.SpanEfficiency(State{Alpha: 0.1}), 0.005)
}

func TestRootOffThePlaneIsCarriedInboard(t *testing.T) {
	wing := wingAt("wing", aero.RoleWing, 0, 0, 1)
	whole := solved(t, aero.Airframe{Surfaces: []aero.Surface{wing}})
	wing.Stations[0].LeadingEdge.Y, wing.Stations[0].TrailingEdge.Y = 0.1, 0.1
	wing.Hinges = []aero.Hinge{{Control: "flap", FromStation: 1, ToStation: 2, HingeFraction: 0.8, Effectiveness: 1}}
	cut := solved(t, aero.Airframe{Surfaces: []aero.Surface{wing}})
	require.Len(t, cut.Warnings(), 1)
	require.Contains(t, cut.Warnings()[0].What, "0.1 m off the plane")
	require.InDelta(t, whole.Reference().Area, cut.Reference().Area, 1e-12)
	require.InDelta(t, 1, cut.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift/whole.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift, 1e-3)
}

func TestAnswersDoNotDependOnProcessors(t *testing.T) {
	a, point := controlled(t)
	state := State{Alpha: 0.05, Beta: 0.02, RollRate: 0.01, Controls: map[string]float64{"aileron": 0.05, "elevator": 0.02}}
	first := solved(t, a).Coefficients(state, point)
	for _, n := range []int{1, 2, 7} {
		before := runtime.GOMAXPROCS(n)
		again := solved(t, a).Coefficients(state, point)
		runtime.GOMAXPROCS(before)
		require.Equal(t, first, again)
	}
}

func TestSolveNamesWhatItCannotUse(t *testing.T) {
	a, _ := controlled(t)
	a.Surfaces[2].Stations = append([]aero.Station(nil), a.Surfaces[2].Stations...)
	a.Surfaces[2].Stations[1].TrailingEdge = a.Surfaces[2].Stations[1].LeadingEdge
	_, err := Solve(a, Options{})
	var place *aero.GeometryError
	require.True(t, errors.As(err, &place))
	require.Equal(t, "foreplane", place.Surface)
	require.Equal(t, 2, place.Station)
	_, err = Solve(aero.Airframe{}, Options{})
	require.ErrorContains(t, err, "no lifting surfaces")
	fin := aero.Surface{Name: "fin", Role: aero.RoleFin, Stations: []aero.Station{
		{TrailingEdge: r3.Vec{X: 1}}, {LeadingEdge: r3.Vec{Z: 1}, TrailingEdge: r3.Vec{X: 1, Z: 1}},
	}}
	_, err = Solve(aero.Airframe{Surfaces: []aero.Surface{fin}}, Options{})
	require.ErrorContains(t, err, "role wing")
}

func TestOutlinesTileThePlanform(t *testing.T) {
	a, _ := controlled(t)
	s := solved(t, a)
	outlines := s.Outlines()
	require.Len(t, outlines, s.Panels())
	area := 0.0
	for _, o := range outlines {
		if o.Surface == "wing" {
			across := r3.Cross(r3.Sub(o.Corners[2], o.Corners[0]), r3.Sub(o.Corners[3], o.Corners[1]))
			area += math.Abs(across.Z) / 2
		}
	}
	require.InDelta(t, a.Reference.Area/2, area, 1e-6)
}

func TestOrderOfSurfacesDoesNotMatter(t *testing.T) {
	// a fin stands where two pieces of a wing join: the straight piece continues the wing, whichever is listed first
	wing := wingAt("outer", aero.RoleWing, 0, 0, 1)
	inner := wing
	inner.Name = "inner"
	middle := wing.Stations[1]
	middle.LeadingEdge.Y, middle.TrailingEdge.Y = 0.6, 0.6
	inner.Stations = []aero.Station{wing.Stations[0], middle}
	wing.Stations = []aero.Station{middle, wing.Stations[1]}
	top := middle
	top.LeadingEdge.Z, top.TrailingEdge.Z = 0.3, 0.3
	fin := aero.Surface{Name: "fin", Role: aero.RoleFin, Mirrored: true, Stations: []aero.Station{middle, top}}
	first := solved(t, aero.Airframe{Surfaces: []aero.Surface{inner, wing, fin}})
	second := solved(t, aero.Airframe{Surfaces: []aero.Surface{inner, fin, wing}})
	require.Equal(t, first.Panels(), second.Panels())
	state := State{Alpha: 0.05, Beta: 0.05}
	requireClose(t, first.Coefficients(state, r3.Vec{}), second.Coefficients(state, r3.Vec{}), 1e-9)
}
