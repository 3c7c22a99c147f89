package lattice

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// surfaceOf is a surface of flat sections with the chord lines given as x, y, z of the leading edge and the chord.
func surfaceOf(name string, role aero.Role, stations ...[4]float64) aero.Surface {
	s := aero.Surface{Name: name, Role: role, Mirrored: true}
	for _, v := range stations {
		le := r3.Vec{X: v[0], Y: v[1], Z: v[2]}
		s.Stations = append(s.Stations, aero.Station{LeadingEdge: le, TrailingEdge: aft(le, v[3])})
	}
	return s
}

func TestOptionsThatCannotBe(t *testing.T) {
	a := plainWing(6, 1, 0)
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		options Options
		want    string
	}{
		{Options{Density: nan}, "a panel density of NaN was asked for; give a number between 0.2 and about 3"},
		{Options{Density: inf}, "a panel density of +Inf"},
		{Options{Density: -1}, "a panel density of -1"},
		{Options{Wake: 7}, "wake 7 was asked for"},
		{Options{Wake: WakeAlongStream, WakeAlpha: nan}, "a wake at an angle of attack of NaN"},
		{Options{Wake: WakeAlongStream, WakeAlpha: 80 * math.Pi / 180}, "a wake at 80° was asked for"},
		{Options{Mach: nan}, "a Mach number of NaN"},
		{Options{Mach: 0.9}, "a Mach number of 0.9"},
		{Options{Ground: &Ground{Height: inf}}, "ground +Inf m below"},
		{Options{Ground: &Ground{Height: nan}}, "ground NaN m below"},
		{Options{Ground: &Ground{Height: 1, Pitch: nan}}, "at a pitch of NaN rad"},
		{Options{Ground: &Ground{Height: 0.1, Pitch: 0.6}}, `surface "wing" station 1: it reaches 0.0882 m into the ground`},
		{Options{Density: 8}, "the panel density 8 asks for some 24576 panels on the half model, more than the 4000 that are solved; lower the density to 3.2"},
		{Options{Density: 1e300}, "a panel density of 1e+300"},
	} {
		_, err := Solve(a, c.options)
		require.ErrorContains(t, err, c.want)
		require.ErrorContains(t, err, "solving the vortex lattice: ")
	}
	_, err := Solve(a, Options{Density: 3.2, coarse: [2]float64{0.1, 0.1}})
	require.NoError(t, err)
}

func TestTooManyStations(t *testing.T) {
	wing := aero.Surface{Name: "wing", Role: aero.RoleWing, Mirrored: true}
	for i := range 600 {
		wing.Stations = append(wing.Stations, surfaceOf("", "", [4]float64{0.02 * float64(i%2), 0.01 * float64(i), 0, 1}).Stations...)
	}
	_, err := Solve(aero.Airframe{Surfaces: []aero.Surface{wing}}, Options{})
	require.ErrorContains(t, err, "stations with kinks, joints and hinge ends ask for some 599 strips")
}

func TestReferencesThatCannotBe(t *testing.T) {
	for want, r := range map[string]aero.Reference{
		"the reference area is NaN":                 {Area: math.NaN(), Span: 2, MeanChord: 1},
		"the reference area is -1":                  {Area: -1, Span: 2, MeanChord: 1},
		"the reference span is 0":                   {Area: 1, MeanChord: 1},
		"the reference mean aerodynamic chord is 0": {Area: 1, Span: 2},
		"mean aerodynamic chord has no place":       {Area: 1, Span: 2, MeanChord: 1, MeanChordLeadingEdge: math.NaN()},
	} {
		a := plainWing(6, 1, 0)
		a.Reference = r
		_, err := Solve(a, Options{})
		require.ErrorContains(t, err, want)
	}
}

// spike is a mean line without a slope somewhere.
type spike struct{}

func (spike) Slope(x float64) float64 { return 1 / math.Max(0, 0.9-x) }

func TestMistakesNameSurfaceAndStation(t *testing.T) {
	wing := surfaceOf("wing", aero.RoleWing, [4]float64{1, 0, 0, 1}, [4]float64{1, 2, 0, 1}, [4]float64{1, 4, 0, 1})
	hinge := func(control string) aero.Hinge {
		return aero.Hinge{Control: control, FromStation: 1, ToStation: 2, HingeFraction: 0.7, Effectiveness: 1}
	}
	for _, c := range []struct {
		name, want string
		other      aero.Surface
	}{
		{
			"fin through the wing", `surface "fin" station 1: it passes through "wing" between its stations 2 and 3, near x 1.6, y 3, z 0 m; end one of the two there`,
			surfaceOf("fin", aero.RoleFin, [4]float64{1.2, 3, -0.5, 0.8}, [4]float64{1.2, 3, 0.5, 0.8}),
		},
		{
			"winglet through the foreplane", `surface "winglet" station 2: it passes through "wing" between its stations 1 and 2`,
			surfaceOf("winglet", aero.RoleWinglet, [4]float64{1.2, 1, 1, 0.5}, [4]float64{1.2, 1, 0.5, 0.5}, [4]float64{1.2, 1.1, -0.5, 0.5}),
		},
		{
			"one surface twice", `surface "again" station 1: it lies on "wing" between its stations 1 and 2`,
			surfaceOf("again", aero.RoleForeplane, [4]float64{1, 0, 0, 1}, [4]float64{1, 2, 0, 1}),
		},
		{
			"overlap in one plane", `surface "foreplane" station 1: it lies on "wing" between its stations 1 and 2`,
			surfaceOf("foreplane", aero.RoleForeplane, [4]float64{0.8, 0, 0.005, 0.5}, [4]float64{0.8, 1, 0.005, 0.5}),
		},
		{
			"fin on the middle of the wing", `surface "fin" station 1: it touches "wing" between its stations 2 and 3, near x 1.6, y 3, z 0.005 m, without joining it; let it join the tip of "wing"; where it stands on the middle of it, cut "wing" there into two that join`,
			surfaceOf("fin", aero.RoleFin, [4]float64{1.2, 3, 0.005, 0.8}, [4]float64{1.2, 3, 0.5, 0.8}),
		},
		{
			"winglet that forgot to join", `surface "winglet" station 1: it touches "wing" between its stations 2 and 3`,
			surfaceOf("winglet", aero.RoleWinglet, [4]float64{1, 4, 0, 0.6}, [4]float64{1, 4, 1, 0.6}),
		},
		{
			"one name, two motions", `surface "fin" station 1: its control "trim" has the name of one on "wing"`,
			func() aero.Surface {
				s := surfaceOf("fin", aero.RoleFin, [4]float64{1.2, 3, 0.5, 0.8}, [4]float64{1.2, 3, 1.5, 0.8})
				s.Hinges = []aero.Hinge{hinge("trim")}
				return s
			}(),
		},
		{
			"broken mean line", `surface "fin" station 1: the mean line stands at -87° at 85 % of the chord`,
			func() aero.Surface {
				s := surfaceOf("fin", aero.RoleFin, [4]float64{1.2, 3, 0.5, 0.8}, [4]float64{1.2, 3, 1.5, 0.8})
				s.Stations[0].MeanLine = spike{}
				return s
			}(),
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			own := wing
			own.Hinges = []aero.Hinge{hinge("trim")}
			_, err := Solve(aero.Airframe{Surfaces: []aero.Surface{own, c.other}}, Options{})
			require.ErrorContains(t, err, c.want)
		})
	}
}

func TestDoubtsThatCanBeComputed(t *testing.T) {
	wing := surfaceOf("wing", aero.RoleWing, [4]float64{1, 0, 0, 1}, [4]float64{1, 2, 0, 1}, [4]float64{1, 4, 0, 1})
	for _, c := range []struct {
		name, what string
		other      aero.Surface
	}{
		{
			"fin close over the wing", `surface "fin" station 1: it comes within 30 mm of "wing" between its stations 2 and 3`,
			surfaceOf("fin", aero.RoleFin, [4]float64{1.2, 3, 0.03, 0.8}, [4]float64{1.2, 3, 0.5, 0.8}),
		},
		{
			"sharp strake", `surface "strake" station 1: its leading edge is swept by 79° from here to station 2`,
			surfaceOf("strake", aero.RoleForeplane, [4]float64{-2, 0, 1, 3}, [4]float64{0.5, 0.5, 1, 0.5}),
		},
		{
			"foreplane in the plane of the wing", `surface "foreplane": its wake passes 0 mm`,
			surfaceOf("foreplane", aero.RoleForeplane, [4]float64{-2, 0, 0, 0.5}, [4]float64{-2, 1.5, 0, 0.5}),
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := Solve(aero.Airframe{Surfaces: []aero.Surface{wing, c.other}}, Options{})
			require.NoError(t, err)
			require.NotEmpty(t, s.Warnings())
			require.Contains(t, s.Warnings()[0].String(), c.what)
		})
	}
	fin := surfaceOf("fin", aero.RoleFin, [4]float64{1.2, 0, 0, 0.8}, [4]float64{1.2, 0, 1, 0.8})
	fin.Mirrored = false
	require.Empty(t, solved(t, aero.Airframe{Surfaces: []aero.Surface{wing, fin}}).Warnings(), "a fin on the plane of symmetry")
}

func TestFinOnACutWing(t *testing.T) {
	// The remedy that the message gives, in either order of the surfaces, at two densities.
	inner := surfaceOf("inner", aero.RoleWing, [4]float64{1, 0, 0, 1}, [4]float64{1, 3, 0, 1})
	outer := surfaceOf("outer", aero.RoleWing, [4]float64{1, 3, 0, 1}, [4]float64{1, 4, 0, 1})
	fin := surfaceOf("fin", aero.RoleFin, [4]float64{1, 3, 0, 1}, [4]float64{1.3, 3, 1, 0.7})
	outer.Joins, fin.Joins = "inner", "inner"
	var first aero.Coefficients
	for i, order := range [][]aero.Surface{{inner, outer, fin}, {inner, fin, outer}, {fin, outer, inner}} {
		for _, density := range []float64{1, 0.7} {
			s, err := Solve(aero.Airframe{Surfaces: order}, Options{Density: density})
			require.NoError(t, err)
			require.Empty(t, s.Warnings())
			d := s.Derivatives(State{Alpha: 0.1}, r3.Vec{X: 1})
			if i == 0 && density == 1 {
				first = d.ByBeta
			}
			t.Logf("order %d, density %.1f, %d panels: CL_α %.4f, CY_β %.4f, Cn_β %.4f, Cl_β %.4f", i, density, s.Panels(), d.ByAlpha.Lift, d.ByBeta.Side, d.ByBeta.Yaw, d.ByBeta.Roll)
			require.InDelta(t, 1, d.ByBeta.Side/first.Side, 0.02)
			require.InDelta(t, 1, d.ByBeta.Yaw/first.Yaw, 0.02)
			require.InDelta(t, 1, d.ByBeta.Roll/first.Roll, 0.05)
		}
	}
}

// brokenSurface draws a surface that may be anything.
func brokenSurface(t *rapid.T, name string, others []string, broken bool) aero.Surface {
	number := func(what string, low, high float64) float64 {
		if !broken {
			return rapid.Float64Range(low, high).Draw(t, what)
		}
		switch rapid.IntRange(0, 60).Draw(t, what+" kind") {
		case 0:
			return math.NaN()
		case 1:
			return math.Inf(1)
		case 2:
			return 0
		case 3:
			return 1e12
		case 4:
			return math.Round(low + (high-low)/2)
		}
		return rapid.Float64Range(low, high).Draw(t, what)
	}
	s := aero.Surface{
		Name: name, Role: rapid.SampledFrom(aero.Roles()).Draw(t, "role"),
		Mirrored: true,
	}
	if len(others) > 0 && rapid.Bool().Draw(t, "joining") {
		s.Joins = rapid.SampledFrom(others).Draw(t, "joins")
		s.JoinsAt = rapid.SampledFrom([]string{"", aero.AtTip, aero.AtRoot}).Draw(t, "joins at")
	}
	if broken {
		s.Mirrored, s.JoinsAt = rapid.Bool().Draw(t, "mirrored"), rapid.SampledFrom([]string{"", "middle"}).Draw(t, "at")
	}
	y, z := rapid.SampledFrom([]float64{0, 0, 1}).Draw(t, "y"), number("z", -1, 1)
	fewest := 2
	if broken {
		fewest = 1
	}
	for range rapid.IntRange(fewest, 5).Draw(t, "stations") {
		le := r3.Vec{X: number("x", -1, 3), Y: y, Z: z}
		chord := number("chord", 0.001, 2)
		st := aero.Station{LeadingEdge: le, TrailingEdge: r3.Add(le, r3.Scale(chord, r3.Vec{X: 1, Y: 0.1 * number("toe", -1, 1), Z: 0.3 * number("twist", -1, 1)}))}
		if rapid.Bool().Draw(t, "cambered") {
			st.MeanLine = parabolas{0.02, 0.4}
		}
		s.Stations = append(s.Stations, st)
		if s.Role == aero.RoleWinglet || s.Role == aero.RoleFin {
			z += number("rise", -0.1, 1)
			y += 0.1 * number("lean", -1, 1)
		} else {
			y += number("step", 0.001, 2)
			z += 0.1 * number("dihedral", -1, 1)
		}
	}
	if rapid.Bool().Draw(t, "hinged") {
		s.Hinges = []aero.Hinge{{
			Control: rapid.SampledFrom([]string{"elevator", "aileron", "rudder"}).Draw(t, "control"), FromStation: 1,
			ToStation: rapid.IntRange(fewest, 2).Draw(t, "to"), HingeFraction: number("hinge", 0, 0.99), Effectiveness: number("effectiveness", 0, 1),
		}}
	}
	return s
}

func TestBrokenGeometryNeverGivesNaN(t *testing.T) {
	solvedOnes, causes := 0, make(map[string]int)
	rapid.Check(t, func(rt *rapid.T) {
		a := aero.Airframe{}
		names := []string{"one", "two", "three"}
		broken := rapid.IntRange(0, 4).Draw(rt, "broken") == 4
		for i := range rapid.IntRange(1, 3).Draw(rt, "surfaces") {
			a.Surfaces = append(a.Surfaces, brokenSurface(rt, names[i], names[:i], broken))
		}
		if a.Surfaces[0].Mirrored = true; !broken {
			a.Reference = aero.Reference{Area: 10, Span: 8, MeanChord: 1.3}
		}
		o := Options{coarse: [2]float64{0.4, 0.3}}
		if rapid.Bool().Draw(rt, "more") {
			o.Mach = rapid.Float64Range(0, 0.75).Draw(rt, "Mach")
			o.Wake = rapid.SampledFrom([]Wake{WakeAlongBody, WakeAlongStream}).Draw(rt, "wake")
			o.WakeAlpha = rapid.Float64Range(-0.5, 0.5).Draw(rt, "wake angle")
			if rapid.Bool().Draw(rt, "grounded") {
				o.Ground = &Ground{Height: rapid.Float64Range(0.1, 20).Draw(rt, "height"), Pitch: rapid.Float64Range(-0.3, 0.3).Draw(rt, "pitch")}
			}
		}
		s, err := Solve(a, o)
		if err != nil {
			causes[strings.Join(strings.Fields(err.Error())[:9], " ")]++
			return
		}
		solvedOnes++
		requireFinite(rt, s)
	})
	t.Logf("%d could be solved; %v", solvedOnes, causes)
	require.Greater(t, solvedOnes, 15)
}

// requireFinite holds every number that a solution gives against NaN and infinity.
func requireFinite(t require.TestingT, s *Solution) {
	state := State{Alpha: 0.1, Beta: 0.05, RollRate: 0.02, PitchRate: 0.01, YawRate: 0.02, Controls: map[string]float64{"elevator": 0.1, "aileron": 0.1, "rudder": 0.1}}
	d := s.Derivatives(state, r3.Vec{X: 1})
	text := fmt.Sprintf("%v %v %v %v", d, s.Coefficients(state, r3.Vec{}), s.Strips(state), s.HingeMoments(state, r3.Vec{}))
	require.NotContains(t, text, "NaN")
	require.NotContains(t, text, "Inf")
	require.False(t, math.IsNaN(s.SpanEfficiency(state)))
}
