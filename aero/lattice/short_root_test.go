package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// shortWinglet is the invented aircraft with a winglet whose root chord begins and ends at fractions of the tip chord.
func shortWinglet(t testing.TB, from, to float64) (aero.Airframe, r3.Vec) {
	t.Helper()
	a, point := controlled(t)
	root := &a.Surfaces[1].Stations[0]
	chord := r3.Sub(root.TrailingEdge, root.LeadingEdge)
	le := root.LeadingEdge
	root.LeadingEdge, root.TrailingEdge = r3.Add(le, r3.Scale(from, chord)), r3.Add(le, r3.Scale(to, chord))
	return a, point
}

// faired lays the fairing by hand, in chords of the tip.
func faired(t testing.TB, a aero.Airframe, length float64) aero.Airframe {
	t.Helper()
	out, _, err := aero.Join(a)
	require.NoError(t, err)
	at := make([]places, len(out.Surfaces))
	for i := range at {
		at[i] = numbered(len(out.Surfaces[i].Stations))
	}
	fairJoints(out.Surfaces, at, length, nil)
	return out
}

// jointQuantities are those that a joint moves most.
func jointQuantities(t testing.TB, s *Solution, point r3.Vec) []float64 {
	t.Helper()
	alpha, err := s.AlphaForLift(0.5, nil)
	require.NoError(t, err)
	d := s.Derivatives(State{Alpha: alpha}, point)
	bending, winglet := rootBending(s.Strips(State{Alpha: alpha}))
	return []float64{d.ByAlpha.Lift, d.ByBeta.Yaw, d.ByBeta.Side, d.ByBeta.Roll, bending, winglet, s.InducedDrag(State{Alpha: alpha})}
}

// roots are where the winglet's root chord begins and ends, in fractions of the tip chord: shorter ones that meet the leading
// or the trailing edge, one wholly inside, one set forward, and a longer one.
var roots = [][2]float64{{0, 0.6}, {0.3, 1}, {0.2, 0.8}, {-0.1, 0.7}, {0, 1.2}}

func TestShortRootsConverge(t *testing.T) {
	// Lift slope, yaw, side force and roll with sideslip, root bending, the winglet's part of it (left out: no grid has it right
	// at a corner), induced drag.
	byGrid := []float64{0.003, 0.012, 0.01, 0.012, 0.002, math.Inf(1), 0.005}
	byLength := []float64{0.006, 0.016, 0.01, 0.03, 0.004, math.Inf(1), 0.005}
	for k, c := range roots {
		a, point := shortWinglet(t, c[0], c[1])
		solve := func(length, density float64) []float64 {
			s, err := Solve(faired(t, a, length), Options{Density: density})
			require.NoError(t, err)
			return jointQuantities(t, s, point)
		}
		s, err := Solve(a, Options{})
		require.NoError(t, err)
		at1 := jointQuantities(t, s, point)
		coarse, short := solve(fairingLength, 0.5), solve(fairingLength/2, 1)
		fine := at1
		if k == 0 {
			fine = solve(fairingLength, 1.6)
		}
		for i, v := range at1 {
			t.Logf("root %v, quantity %d: %9.5f, half the panels %+.2f %%, more %+.2f %%, half the fairing %+.2f %%", c, i, v,
				100*(coarse[i]/v-1), 100*(fine[i]/v-1), 100*(short[i]/v-1))
			require.InDelta(t, 1, coarse[i]/v, byGrid[i], "root %v, quantity %d, half the panels", c, i)
			require.InDelta(t, 1, fine[i]/v, byGrid[i], "root %v, quantity %d, 1.6 times the panels each way", c, i)
			require.InDelta(t, 1, short[i]/v, byLength[i], "root %v, quantity %d, half the fairing", c, i)
		}
	}
}

func TestFairingMattersLessThanTheGrid(t *testing.T) {
	a, point := shortWinglet(t, 0, 0.6)
	g, err := SolveGrids(a, Options{})
	require.NoError(t, err)
	numbers, err := g.Estimates(func(s *Solution) ([]float64, error) { return jointQuantities(t, s, point), nil })
	require.NoError(t, err)
	s, err := Solve(faired(t, a, fairingLength/2), Options{})
	require.NoError(t, err)
	for i, v := range jointQuantities(t, s, point) {
		t.Logf("quantity %d: %.5f ± %.5f, half the fairing %.5f", i, numbers[i].Value, numbers[i].Error, v)
		require.InDelta(t, numbers[i].Value, v, 1.3*numbers[i].Error, "quantity %d", i)
	}
}

func TestFairingIsSaid(t *testing.T) {
	a, _ := shortWinglet(t, 0.2, 0.8)
	warnings := solved(t, a).Warnings()
	require.Len(t, warnings, 1)
	require.Equal(t, "winglet", warnings[0].Surface)
	require.Equal(t, 1, warnings[0].Station)
	require.Contains(t, warnings[0].What, `its chord is 450 mm where that of "wing" is 750 mm (leading edges 150 mm apart); it was drawn out to it over 60 mm`)

	beside, _ := controlled(t)
	for i := range beside.Surfaces[1].Stations {
		beside.Surfaces[1].Stations[i].LeadingEdge.Y += 0.1
		beside.Surfaces[1].Stations[i].TrailingEdge.Y += 0.1
	}
	warnings = solved(t, beside).Warnings()
	require.Len(t, warnings, 2, "both edges")
	require.Contains(t, warnings[0].What, "leading edge is 100 mm")
	require.Contains(t, warnings[0].Right, "the gap stays open")
}

func TestStationsStayTheUsersBesideAFairing(t *testing.T) {
	a, _ := shortWinglet(t, 0, 0.6)
	user := a.Surfaces[1].Stations
	s := solved(t, a)
	seen := 0
	for k, strip := range s.Strips(State{Alpha: 0.1}) {
		if strip.Surface != "winglet" {
			continue
		}
		seen++
		require.Equal(t, 1, strip.Station)
		z := user[0].LeadingEdge.Z + strip.Between*(user[1].LeadingEdge.Z-user[0].LeadingEdge.Z)
		require.InDelta(t, z, strip.Centre.Z, 1e-9)
		fairing := strip.Between < fairingLength*0.75/1.1
		require.Equal(t, fairing, len(s.grid.strips[k].hinges) == 0, "the rudder begins above the fairing")
	}
	require.Greater(t, seen, 5)
	require.Equal(t, []string{"aileron", "elevator", "flap", "rudder"}, s.Controls())
}

func TestStrakeWithAShorterTip(t *testing.T) {
	// The other end: a strake whose tip chord is shorter than the root chord of the wing that it joins.
	whole := split(t)
	short := split(t)
	tip := &short.Surfaces[3].Stations[1]
	tip.TrailingEdge.X -= 0.2
	s, before := solved(t, short), solved(t, whole)
	require.Len(t, s.Warnings(), 1)
	require.Equal(t, "strake", s.Warnings()[0].Surface)
	require.Equal(t, 2, s.Warnings()[0].Station)
	for _, strip := range s.Strips(State{Alpha: 0.1}) {
		if strip.Surface == "strake" {
			require.Equal(t, 1, strip.Station)
			require.InDelta(t, strip.Centre.Y/1.3, strip.Between, 1e-9)
		}
	}
	require.InDelta(t, 1, s.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift/before.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift, 0.02)
}

// split is the invented aircraft with the wing's inboard panel as a strake of its own.
func split(t testing.TB) aero.Airframe {
	t.Helper()
	var c caseFile
	readJSON(t, "canard-case.json", &c)
	a := c.airframe("1.00", "1.00")
	wing := a.Surfaces[0]
	strake := wing
	strake.Name, strake.Role, strake.Joins, strake.JoinsAt = "strake", aero.RoleStrake, "wing", aero.AtRoot
	strake.Stations = append([]aero.Station(nil), wing.Stations[:2]...)
	a.Surfaces[0].Stations = wing.Stations[1:]
	a.Surfaces = append(a.Surfaces, strake)
	return a
}

func TestBlendOfMeanLines(t *testing.T) {
	a, b := bent{turn: 1}, bent{turn: 3}
	require.InDelta(t, -1.5*0.4, blend{a, b, 0.25}.Slope(0.4), 1e-15)
	require.InDelta(t, -0.75*0.4, blend{nil, b, 0.25}.Slope(0.4), 1e-15)
	require.Zero(t, blend{nil, nil, 0.5}.Slope(0.4))
}
