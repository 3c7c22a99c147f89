package lattice

import (
	"fmt"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// levels is the invented aircraft with some winglet heights, foreplane spans and foreplane heights, m.
func levels(t testing.TB, winglets, spans, lower []float64) ([]aero.Airframe, r3.Vec) {
	t.Helper()
	base, point := controlled(t)
	var out []aero.Airframe
	for _, h := range winglets {
		for _, b := range spans {
			for _, z := range lower {
				a, err := base.SetHeight("winglet", h)
				require.NoError(t, err)
				a, err = a.SetSpan("foreplane", b)
				require.NoError(t, err)
				a, err = a.Shift("foreplane", 0, -z)
				require.NoError(t, err)
				out = append(out, a)
			}
		}
	}
	return out, point
}

// answers are numbers of every kind that a solution gives.
func answers(t testing.TB, s *Solution, point r3.Vec) []float64 {
	t.Helper()
	state := State{Alpha: 0.08, Beta: 0.03, RollRate: 0.02, PitchRate: 0.003, YawRate: 0.01, Controls: map[string]float64{"elevator": 0.05, "rudder": 0.04, "aileron": 0.03}}
	d := s.Derivatives(state, point)
	var out []float64
	put := func(c aero.Coefficients) { out = append(out, c.Lift, c.Drag, c.Side, c.Roll, c.Pitch, c.Yaw) }
	for _, c := range []aero.Coefficients{s.Coefficients(state, point), d.ByAlpha, d.ByBeta, d.ByRollRate, d.ByPitchRate, d.ByYawRate} {
		put(c)
	}
	for _, name := range s.Controls() {
		put(d.ByControl[name])
	}
	for _, strip := range s.StripsAbout(state, point) {
		out = append(out, strip.SectionLift, strip.Force.X, strip.Force.Y, strip.Force.Z, strip.Moment.Y)
	}
	return append(out, s.NeutralPointAbout(state, point), s.SpanEfficiency(state))
}

// requireSame holds two lists of answers to one another, relative to the largest of them.
func requireSame(t *testing.T, want, got []float64, tolerance float64, message string) {
	t.Helper()
	require.Len(t, got, len(want), message)
	for i := range want {
		require.InDelta(t, want[i], got[i], tolerance*math.Max(1, math.Abs(want[i])), "%s, answer %d", message, i)
	}
}

func TestFamiliesEqualTheirMembers(t *testing.T) {
	// Without wakes that pass close, each member is the airframe by itself.
	airframes, point := levels(t, []float64{0.9, 1.1}, []float64{3.2, 3.5}, []float64{-0.4})
	o := Options{Density: 0.6}
	all, err := SolveAll(airframes, o)
	require.NoError(t, err)
	for i, a := range airframes {
		alone, err := Solve(a, o)
		require.NoError(t, err)
		requireSame(t, answers(t, alone, point), answers(t, all[i], point), 1e-9, fmt.Sprintf("member %d", i))
	}
}

// Asked for, each member has the panels that it has alone even where wakes pass close; the blocks that members share all the same
// are worked out once.
func TestOwnPanelsAreThoseOfTheMemberAlone(t *testing.T) {
	airframes, point := levels(t, []float64{0.9, 1.1}, []float64{3.2, 3.5}, []float64{0.12})
	o := Options{Density: 0.6, OwnPanels: true}
	all, err := SolveAll(airframes, o)
	require.NoError(t, err)
	o.OwnPanels = false
	union, err := SolveAll(airframes, o)
	require.NoError(t, err)
	for i, a := range airframes {
		alone, err := Solve(a, o)
		require.NoError(t, err)
		require.Less(t, all[i].Panels(), union[i].Panels())
		requireSame(t, answers(t, alone, point), answers(t, all[i], point), 1e-9, fmt.Sprintf("member %d", i))
	}
}

func TestFamiliesEqualTheirMembersWithWakesPassingClose(t *testing.T) {
	// Panels for passing tips are those of all members together, so that each is compared with itself on the same panels, its
	// equations in one block.
	airframes, point := levels(t, []float64{0.9, 1.1}, []float64{3.2, 3.5}, []float64{0.12, 0.2})
	o := Options{Density: 0.6}
	all, err := SolveAll(airframes, o)
	require.NoError(t, err)
	models, failed := newModels(airframes, o)
	require.NoError(t, firstOf(failed))
	for i, m := range models {
		require.Equal(t, all[i].Panels(), len(m.grid.panels))
		newFamily([]*model{m})
		require.Len(t, m.blocks, 1)
		alone, err := m.solution(o)
		require.NoError(t, err)
		requireSame(t, answers(t, alone, point), answers(t, all[i], point), 1e-9, fmt.Sprintf("member %d", i))
	}
}

func TestFamiliesInAnyOrder(t *testing.T) {
	airframes, point := levels(t, []float64{0.9, 1.0, 1.1}, []float64{3.2, 3.5}, []float64{0.15})
	o := Options{Density: 0.5, Sections: true}
	all, err := SolveAll(airframes, o)
	require.NoError(t, err)
	order := []int{4, 0, 5, 2, 1, 3}
	var shuffled []aero.Airframe
	for _, k := range order {
		shuffled = append(shuffled, airframes[k])
	}
	again, err := SolveAll(shuffled, o)
	require.NoError(t, err)
	for i, k := range order {
		requireSame(t, answers(t, all[k], point), answers(t, again[i], point), 1e-9, fmt.Sprintf("member %d", k))
	}
}

func TestFamiliesDoNotDependOnProcessors(t *testing.T) {
	airframes, point := levels(t, []float64{0.9, 1.1}, []float64{3.2, 3.5}, []float64{0, 0.2})
	solve := func(processors int) [][]float64 {
		before := runtime.GOMAXPROCS(processors)
		defer runtime.GOMAXPROCS(before)
		all, err := SolveAll(airframes, Options{Density: 0.5})
		require.NoError(t, err)
		out := make([][]float64, len(all))
		for i, s := range all {
			out[i] = answers(t, s, point)
		}
		return out
	}
	first := solve(1)
	for _, processors := range []int{2, 7} {
		require.Equal(t, first, solve(processors), "to the last bit with %d processors", processors)
	}
}

func TestAnotherLevelMovesTheOthersLessThanTheirError(t *testing.T) {
	// A foreplane of another span whose wake passes close over the wing asks for panels there; a winglet of another height leaves
	// the wing as it is.
	airframes, point := levels(t, []float64{1.1}, []float64{3.2, 3.5}, []float64{0.1, 0.2})
	o := Options{Density: 0.7}
	quantities := func(s *Solution) ([]float64, error) {
		d := s.Derivatives(State{Alpha: 0.08}, point)
		return []float64{
			d.ByAlpha.Lift, s.NeutralPointAbout(State{Alpha: 0.08}, point), s.InducedDrag(State{Alpha: 0.08}), d.ByControl["elevator"].Pitch,
			d.ByBeta.Yaw, d.ByBeta.Side, d.ByBeta.Roll, d.ByRollRate.Roll, d.ByPitchRate.Pitch,
		}, nil
	}
	before, err := SolveAllGrids(airframes, o)
	require.NoError(t, err)
	with, err := levelsAdded(t, airframes, o)
	require.NoError(t, err)
	for i := range airframes {
		numbers, err := before[i].Estimates(quantities)
		require.NoError(t, err)
		after, err := quantities(with[i])
		require.NoError(t, err)
		for k, n := range numbers {
			require.InDelta(t, n.Value, after[k], n.Error+1e-9, "airframe %d, quantity %d", i, k)
		}
	}
}

// levelsAdded solves the airframes together with one more winglet and foreplane, which passes closer over the wing.
func levelsAdded(t testing.TB, airframes []aero.Airframe, o Options) ([]*Solution, error) {
	more, _ := levels(t, []float64{0.95}, []float64{3.35}, []float64{0.05})
	return SolveAll(append(append([]aero.Airframe(nil), airframes...), more...), o)
}

func TestAnotherWingletLeavesTheWingsPanels(t *testing.T) {
	airframes, _ := levels(t, []float64{0.8, 1.2}, []float64{3.5}, []float64{0})
	all, err := SolveAll(airframes, Options{})
	require.NoError(t, err)
	for k := range all[0].grid.strips {
		a, b := &all[0].grid.strips[k], &all[1].grid.strips[k]
		if all[0].airframe.Surfaces[a.surface].Name != "wing" {
			break
		}
		require.Equal(t, a.a, b.a)
		require.Equal(t, a.at, b.at)
	}
	require.Equal(t, all[0].grid.parts[0].key, all[1].grid.parts[0].key)
}

func TestTheFirstFailureIsNamed(t *testing.T) {
	airframes, _ := levels(t, []float64{0.8, 1.2}, []float64{3.5}, []float64{0})
	airframes[1].Surfaces = append([]aero.Surface(nil), airframes[1].Surfaces...)
	airframes[1].Surfaces[1].Joins = "tail"
	_, err := SolveAll(airframes, Options{})
	var which *AirframeError
	require.ErrorAs(t, err, &which)
	require.Equal(t, 1, which.Index)
	var place *aero.GeometryError
	require.ErrorAs(t, err, &place)
	require.Equal(t, "winglet", place.Surface)
	require.ErrorContains(t, err, "airframe 2 of the list: ")
}

// Levels of a strake that leave its trailing edge and the wing alone: the wing's edge at the joint looks at the strake's last strip.
func TestFamiliesOfStrakesDoNotDependOnWhoComesFirst(t *testing.T) {
	var airframes []aero.Airframe
	for _, x := range []float64{2.2, 1.9, 1.6} {
		var c caseFile
		readJSON(t, "canard-case.json", &c)
		a := c.airframe("1.00", "1.00")
		wing := a.Surfaces[0]
		strake := wing
		strake.Name, strake.Role, strake.Joins, strake.JoinsAt = "strake", aero.RoleStrake, "wing", aero.AtRoot
		strake.Stations = append([]aero.Station(nil), wing.Stations[:2]...)
		strake.Stations[0].LeadingEdge.X = x
		a.Surfaces[0].Stations = wing.Stations[1:]
		a.Surfaces = append(a.Surfaces, strake)
		low, err := a.Shift("foreplane", 0, -0.15)
		require.NoError(t, err)
		airframes = append(airframes, low)
	}
	var first []aero.Coefficients
	for range 4 {
		all, err := SolveAll(airframes, Options{Density: 0.5})
		require.NoError(t, err)
		var now []aero.Coefficients
		for _, s := range all {
			now = append(now, s.Coefficients(State{Alpha: 0.08, Beta: 0.02}, r3.Vec{X: 4}))
		}
		if first == nil {
			first = now
		}
		require.Equal(t, first, now)
	}
}
