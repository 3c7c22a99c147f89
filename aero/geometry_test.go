package aero

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func station(x, y, z, chord float64) Station {
	return Station{LeadingEdge: r3.Vec{X: x, Y: y, Z: z}, TrailingEdge: r3.Vec{X: x + chord, Y: y, Z: z}}
}

// sample is an invented foreplane aircraft: strake, wing, winglet, foreplane.
func sample() Airframe {
	return Airframe{Surfaces: []Surface{
		{Name: "strake", Role: RoleStrake, Mirrored: true, Joins: "wing", JoinsAt: AtRoot, Stations: []Station{station(2.4, 0, 0, 3), station(4.2, 1.3, 0, 1.5)}},
		{Name: "wing", Role: RoleWing, Mirrored: true, Stations: []Station{station(4.2, 1.3, 0, 1.5), station(5.55, 4.3, 0.06, 0.75)}},
		{Name: "winglet", Role: RoleWinglet, Mirrored: true, Joins: "wing", JoinsAt: AtTip, Stations: []Station{station(5.55, 4.3, 0.06, 0.75), station(6.25, 4.3, 1.16, 0.34)}},
		{Name: "foreplane", Role: RoleForeplane, Mirrored: true, Stations: []Station{station(0.305, 0, 0.25, 0.46), station(0.425, 1.75, 0.25, 0.38)}},
	}}
}

func TestReferenceOfTheInventedAircraft(t *testing.T) {
	// testdata/canard-case.json: the same wing as one surface, computed by an independent program.
	raw, err := os.ReadFile("../testdata/canard-case.json")
	require.NoError(t, err)
	var file struct {
		Reference struct {
			Area float64 `json:"area_m2"`
			Span float64 `json:"span_m"`
			MAC  float64 `json:"mean_aerodynamic_chord_m"`
			X    float64 `json:"mean_aerodynamic_chord_leading_edge_x_m"`
		} `json:"reference"`
	}
	require.NoError(t, json.Unmarshal(raw, &file))
	got, err := ReferenceOf(sample().Surfaces)
	require.NoError(t, err)
	require.InDelta(t, file.Reference.Area, got.Area, 1e-12)
	require.InDelta(t, file.Reference.Span, got.Span, 1e-12)
	require.InDelta(t, file.Reference.MAC, got.MeanChord, 1e-12)
	require.InDelta(t, file.Reference.X, got.MeanChordLeadingEdge, 1e-12)
}

func TestReferenceOfATrapezoid(t *testing.T) {
	// Closed formulas of a straight-tapered wing: c̄ = ⅔ c0 (1 + λ + λ²)/(1 + λ), its leading edge at
	// y = b/6 (1 + 2λ)/(1 + λ). Etkin & Reid, Dynamics of Flight, Appendix C.
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(rt, name) }
		root, taper, half, sweep := draw("root", 0.2, 4), draw("taper", 0.1, 1), draw("half span", 0.5, 10), draw("sweep", -0.5, 1)
		wing := Surface{Name: "w", Role: RoleWing, Mirrored: true, Stations: []Station{station(1, 0, 0, root), station(1+half*math.Tan(sweep), half, 0.3, root*taper)}}
		got, err := ReferenceOf([]Surface{wing})
		require.NoError(rt, err)
		require.InDelta(rt, half*root*(1+taper), got.Area, 1e-9)
		require.InDelta(rt, 2.0/3*root*(1+taper+taper*taper)/(1+taper), got.MeanChord, 1e-9)
		y := half / 3 * (1 + 2*taper) / (1 + taper)
		require.InDelta(rt, 1+y*math.Tan(sweep), got.MeanChordLeadingEdge, 1e-9)
		require.InDelta(rt, 25, got.Percent(got.Station(25)), 1e-9)
	})
}

func TestRootOffThePlaneIsCarriedInboard(t *testing.T) {
	wing := Surface{Name: "w", Role: RoleWing, Mirrored: true, Stations: []Station{station(1, 0.5, 0, 2), station(1, 2, 0, 2)}}
	got, err := ReferenceOf([]Surface{wing})
	require.NoError(t, err)
	require.InDelta(t, 8, got.Area, 1e-12)
	require.InDelta(t, 4, got.Span, 1e-12)
}

func TestGeometryMistakesNameThePlace(t *testing.T) {
	for what, c := range map[string]struct {
		spoil func(*Airframe)
		want  []string
	}{
		"zero chord":        {func(a *Airframe) { a.Surfaces[1].Stations[1].TrailingEdge = a.Surfaces[1].Stations[1].LeadingEdge }, []string{"wing", "station 2", "chord is zero"}},
		"reversed edges":    {func(a *Airframe) { a.Surfaces[1].Stations[0].TrailingEdge.X = 0 }, []string{"wing", "station 1", "aft"}},
		"falling y":         {func(a *Airframe) { a.Surfaces[1].Stations[1] = station(5, 1.0, 0, 1) }, []string{"wing", "station 2", "y does not rise"}},
		"left side":         {func(a *Airframe) { a.Surfaces[0].Stations[0] = station(2, -1, 0, 1) }, []string{"strake", "station 1", "right half"}},
		"one station":       {func(a *Airframe) { a.Surfaces[1].Stations = a.Surfaces[1].Stations[:1] }, []string{"wing", "1 stations"}},
		"not a number":      {func(a *Airframe) { a.Surfaces[1].Stations[0].LeadingEdge.Z = math.NaN() }, []string{"wing", "station 1", "not a number"}},
		"gap to the strake": {func(a *Airframe) { a.Surfaces[0].Stations[1] = station(4.2, 1.0, 0, 1.5) }, []string{"wing", "gap of 0.3 m", "strake"}},
		"no wing":           {func(a *Airframe) { a.Surfaces = a.Surfaces[2:] }, []string{"role wing"}},
		"millimetres":       {func(a *Airframe) { a.Surfaces[1].Stations[1] = station(5550, 4300, 60, 750) }, []string{"wing", "station 2", "5550 m", "unit"}},
		"stream-wise":       {func(a *Airframe) { a.Surfaces[1].Stations[0] = station(2, 4.29, 0.06, 0.5) }, []string{"wing", "station 2", "only 10 mm"}},
	} {
		t.Run(what, func(t *testing.T) {
			a := sample()
			c.spoil(&a)
			_, err := ReferenceOf(a.Surfaces)
			require.Error(t, err)
			for _, w := range c.want {
				require.ErrorContains(t, err, w)
			}
		})
	}
}

func TestChecksOfHingesAndNames(t *testing.T) {
	a := sample()
	a.Surfaces[3].Hinges = []Hinge{{Control: "elevator", FromStation: 2, ToStation: 3, HingeFraction: 0.7}, {Control: "elevator", FromStation: 1, ToStation: 2, HingeFraction: 1}}
	a.Surfaces[2].Name = "wing"
	err := CheckSurfaces(a.Surfaces)
	require.ErrorContains(t, err, "from station 2 to station 3")
	require.ErrorContains(t, err, "hinge at 1 of the chord")
	require.ErrorContains(t, err, "used twice")
}

func TestChecksOfOtherSurfaces(t *testing.T) {
	for want, spoil := range map[string]func(*Airframe){
		`surface "winglet" station 3: the surface folds back on itself at station 2`: func(a *Airframe) {
			a.Surfaces[2].Stations = append(a.Surfaces[2].Stations, station(6, 4.31, 0.5, 0.3))
		},
		`surface "winglet" station 2: it is mirrored and lies in the plane of symmetry from station 1 to here`: func(a *Airframe) {
			a.Surfaces[2].Stations = []Station{station(5, 0, 0, 1), station(5, 0, 1, 1)}
		},
		`control "elevator" is given twice from station 1 to station 2`: func(a *Airframe) {
			h := Hinge{Control: "elevator", FromStation: 1, ToStation: 2, HingeFraction: 0.7, Effectiveness: 1}
			a.Surfaces[3].Hinges = []Hinge{h, h}
		},
		"a hinge moves no control": func(a *Airframe) {
			a.Surfaces[3].Hinges = []Hinge{{FromStation: 1, ToStation: 2, HingeFraction: 0.7, Effectiveness: 1}}
		},
		"has the effectiveness NaN": func(a *Airframe) {
			a.Surfaces[3].Hinges = []Hinge{{Control: "elevator", FromStation: 1, ToStation: 2, HingeFraction: 0.7, Effectiveness: math.NaN()}}
		},
		"has its hinge at NaN of the chord": func(a *Airframe) {
			a.Surfaces[3].Hinges = []Hinge{{Control: "elevator", FromStation: 1, ToStation: 2, HingeFraction: math.NaN(), Effectiveness: 1}}
		},
	} {
		a := sample()
		spoil(&a)
		require.ErrorContains(t, CheckSurfaces(a.Surfaces), want)
	}
	require.NoError(t, CheckSurfaces(sample().Surfaces))
}

func TestJoinSaysWhatBecomesOfAStep(t *testing.T) {
	a := sample()
	a.Surfaces[2].Stations[0] = station(5.55, 4.3, 0.06, 0.5)
	_, warnings, err := Join(a)
	require.NoError(t, err)
	require.Contains(t, warnings[0].Right, "draws the chord out to the other over a short fairing")
	a.Surfaces[2].Stations[0] = station(5.55, 4.4, 0.06, 0.75)
	_, warnings, err = Join(a)
	require.NoError(t, err)
	require.Contains(t, warnings[0].Right, "the gap stays open otherwise")
}

func TestSetHeightAndSpanGiveTheLevelsOfTheCase(t *testing.T) {
	// The levels in testdata/canard-case.json were drawn by stretching: winglet 0.80 and foreplane 0.85
	// (area, so √0.85 in span and chord about the quarter-chord line).
	a := sample()
	low, err := a.SetHeight("winglet", 0.8*1.1)
	require.NoError(t, err)
	tip := low.Surfaces[2].Stations[1]
	requireVec(t, r3.Vec{X: 6.11, Y: 4.3, Z: 0.94}, tip.LeadingEdge, 1e-12)
	require.InDelta(t, 0.34, tip.Chord(), 1e-12)

	small, err := a.SetSpan("foreplane", 3.5*math.Sqrt(0.85))
	require.NoError(t, err)
	small, err = small.ScaleChord("foreplane", math.Sqrt(0.85))
	require.NoError(t, err)
	root, tip := small.Surfaces[3].Stations[0], small.Surfaces[3].Stations[1]
	requireVec(t, r3.Vec{X: 0.313975, Z: 0.25}, root.LeadingEdge, 1e-6)
	require.InDelta(t, 0.424099, root.Chord(), 1e-6)
	requireVec(t, r3.Vec{X: 0.42461, Y: 1.61342, Z: 0.25}, tip.LeadingEdge, 1e-5)
	require.InDelta(t, 0.350343, tip.Chord(), 1e-6)
	require.Equal(t, sample(), a, "edits leave the original alone")
}

func requireVec(t *testing.T, want, got r3.Vec, tolerance float64) {
	t.Helper()
	require.InDelta(t, 0, r3.Norm(r3.Sub(want, got)), tolerance, "want %v, got %v", want, got)
}

func TestAnglesOfSurfaces(t *testing.T) {
	const degree = math.Pi / 180
	a, err := sample().SetIncidence("foreplane", 2*degree)
	require.NoError(t, err)
	st := a.Surfaces[3].Stations[1]
	require.InDelta(t, math.Sin(2*degree), (st.LeadingEdge.Z-st.TrailingEdge.Z)/st.Chord(), 1e-12) // leading edge up
	require.InDelta(t, 0.38, st.Chord(), 1e-12)
	again, err := a.SetIncidence("foreplane", 2*degree)
	require.NoError(t, err)
	requireVec(t, st.LeadingEdge, again.Surfaces[3].Stations[1].LeadingEdge, 1e-12)

	a, err = sample().SetToe("winglet", 1.5*degree)
	require.NoError(t, err)
	for _, st := range a.Surfaces[2].Stations {
		require.InDelta(t, math.Sin(1.5*degree), (st.TrailingEdge.Y-st.LeadingEdge.Y)/st.Chord(), 1e-9) // leading edge inboard
	}
	require.Equal(t, a.Surfaces[1].Stations[1].LeadingEdge, a.Surfaces[2].Stations[0].LeadingEdge, "the root stays on the wing")

	a, err = sample().SetCant("winglet", 20*degree)
	require.NoError(t, err)
	root, tip := a.Surfaces[2].Stations[0].LeadingEdge, a.Surfaces[2].Stations[1].LeadingEdge
	require.InDelta(t, math.Tan(20*degree), (tip.Y-root.Y)/(tip.Z-root.Z), 1e-12)
	require.InDelta(t, 1.1, math.Hypot(tip.Y-root.Y, tip.Z-root.Z), 1e-12)
	require.InDelta(t, 0.7, tip.X-root.X, 1e-12)
}

func TestJoinedSurfacesFollow(t *testing.T) {
	a, err := sample().Shift("wing", 0.5, 0.1)
	require.NoError(t, err)
	requireVec(t, r3.Vec{X: 6.05, Y: 4.3, Z: 0.16}, a.Surfaces[2].Stations[0].LeadingEdge, 1e-12)
	requireVec(t, r3.Vec{X: 6.75, Y: 4.3, Z: 1.26}, a.Surfaces[2].Stations[1].LeadingEdge, 1e-12)
	requireVec(t, a.Surfaces[1].Stations[0].LeadingEdge, a.Surfaces[0].Stations[1].LeadingEdge, 1e-12)
	a, err = sample().SetSpan("wing", 9)
	require.NoError(t, err)
	require.InDelta(t, 4.5, a.Surfaces[2].Stations[1].LeadingEdge.Y, 1e-12)
}

func TestReplaceStations(t *testing.T) {
	tall := []Station{station(5.56, 4.31, 0.05, 0.74), station(6.4, 4.3, 1.4, 0.3)}
	a, err := sample().ReplaceStations("winglet", tall)
	require.NoError(t, err)
	require.Equal(t, a.Surfaces[1].Stations[1].LeadingEdge, a.Surfaces[2].Stations[0].LeadingEdge, "1 cm off is snapped")
	require.InDelta(t, 0.75, a.Surfaces[2].Stations[0].Chord(), 1e-12)
	_, err = sample().ReplaceStations("winglet", tall[:1])
	require.ErrorContains(t, err, "winglet")
}

func TestJoinWarnsOfWhatCannotMeet(t *testing.T) {
	a := sample()
	a.Surfaces[2].Stations[0] = station(5.55, 4.3, 0.06, 0.5) // a shorter root chord
	joined, warnings, err := Join(a)
	require.NoError(t, err)
	require.Len(t, warnings, 1)
	require.Equal(t, "winglet", warnings[0].Surface)
	require.Equal(t, 1, warnings[0].Station)
	require.Contains(t, warnings[0].What, "trailing edge is 250 mm")
	require.Contains(t, warnings[0].String(), `surface "winglet" station 1: `)
	require.InDelta(t, 0.5, joined.Surfaces[2].Stations[0].Chord(), 1e-12)
	_, warnings, err = Join(sample())
	require.NoError(t, err)
	require.Empty(t, warnings)

	a.Surfaces[2].JoinsAt = "middle"
	_, _, err = Join(a)
	require.ErrorContains(t, err, `"tip" or "root"`)
	a.Surfaces[2].Joins = "tail"
	_, _, err = Join(a)
	require.ErrorContains(t, err, "tail")
}

func TestEditsThatCannotBe(t *testing.T) {
	for want, edit := range map[string]func(Airframe) (Airframe, error){
		"there is no lifting surface": func(a Airframe) (Airframe, error) { return a.SetHeight("tail", 1) },
		"set the span instead":        func(a Airframe) (Airframe, error) { return a.SetHeight("foreplane", 1) },
		"height above zero":           func(a Airframe) (Airframe, error) { return a.SetHeight("winglet", 0) },
		"set the height instead":      func(a Airframe) (Airframe, error) { return a.SetSpan("winglet", 1) },
		"more than":                   func(a Airframe) (Airframe, error) { return a.SetSpan("wing", 2) },
		"ratio above zero":            func(a Airframe) (Airframe, error) { return a.ScaleChord("wing", math.NaN()) },
	} {
		_, err := edit(sample())
		require.ErrorContains(t, err, want)
	}
}
