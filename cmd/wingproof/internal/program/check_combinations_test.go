package program

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Levels that are sound alone and cannot be built together are told once, at the later one.
func TestLevelsThatCannotBeBuiltTogether(t *testing.T) {
	files := sandreed()
	change(t, files, "program.toml", "[[choice]]\nname = \"winglet\"", "[[choice]]\nname = \"cant\"\nbaseline = \"upright\"\nlevel.upright = []\nlevel.flat = [{ surface = \"winglet\", cant_deg = 90 }]\n\n[[choice]]\nname = \"winglet\"")
	files["flights.csv"], files["parts.csv"] = "flight\n", "part\n"
	delete(files, "flights.csv")
	delete(files, "parts.csv")
	change(t, files, "program.toml", "level_percent = { winglet = 0.5, foreplane = 1 }", "level_percent = { cant = 0.5, winglet = 0.5, foreplane = 1 }")
	line := strings.Count(strings.Split(files["program.toml"], "level.small")[0], "\n") + 1
	_, err := Load(build(t, files))
	require.EqualError(t, err, fmt.Sprintf(`program.toml:%d:7: level small of choice winglet cannot be built together with cant flat: surface "winglet": both ends lie at one height, so that it cannot be stretched; set the span instead; correct the edits of one of these levels`, line))
}

// Strake and wing that no longer meet, a chord that vanishes and a hinge that ends beyond the last station
// are told at the level that makes them.
func TestLevelsThatMakeNoAircraft(t *testing.T) {
	for name, c := range map[string]struct{ edit, want string }{
		"overlap":        {`{ surface = "strake", span_m = 3.4 }`, `surface "wing" station 1: its inboard end leaves an overlap of 0.4 m in y with "strake"`},
		"gap":            {`{ surface = "strake", span_m = 2.2 }`, `surface "wing" station 1: its inboard end leaves a gap of 0.2 m in y with "strake"`},
		"vanishing":      {strings.TrimSuffix(strings.Repeat(`{ surface = "foreplane", chord_scale = 0.2 }, `, 9), ", "), `surface "foreplane" station 1: the chord is zero`},
		"a point":        {`{ surface = "winglet", stations = "shape/pointed.csv" }`, `surface "winglet" station 3: the chord is zero; end the surface at a station with a chord, if a short one`},
		"hinge too long": {`{ surface = "winglet", stations = "shape/two.csv" }`, `surface "winglet": control "rudder" runs from station 1 to station 3`},
	} {
		files := sandreed()
		change(t, files, "program.toml", `{ surface = "winglet", height_m = 0.88 }`, c.edit)
		files["shape/pointed.csv"] = strings.Replace(files["shape/winglet.csv"], "6590,4300,1160", "6250,4300,1160", 1)
		files["shape/two.csv"] = strings.Join(strings.SplitAfter(files["shape/winglet.csv"], "\n")[:4], "")
		line := strings.Count(strings.Split(files["program.toml"], "level.small")[0], "\n") + 1
		_, err := Load(build(t, files))
		require.ErrorContains(t, err, fmt.Sprintf("program.toml:%d:7: level small of choice winglet cannot be built: %s", line, c.want), name)
		require.NotContains(t, err.Error(), "together", name)
	}
}

// Surfaces that meet where they should not are named with their stations, once, with the levels that do it.
func TestSurfacesThatMeet(t *testing.T) {
	const large = `{ surface = "foreplane", span_m = 3.75, chord_scale = 1.07 }`
	for name, c := range map[string]struct {
		edit string
		want []string
	}{
		// The foreplane stands at z = 0.25 m, between the ends of the winglet (0.06 and 1.16 m) at y = 4.3 m.
		"winglet through the foreplane": {`{ surface = "foreplane", span_m = 9.2, move_x_m = 5.2 }`,
			[]string{`program.toml: with foreplane large: surface "winglet" passes through surface "foreplane" between its stations 1 and 2 (stations 1 and 2 of "foreplane"), at x `, `, y 4.30, z 0.2`}},
		"foreplane on the strake": {`{ surface = "foreplane", move_x_m = 3.5, move_z_m = -0.25 }`,
			[]string{`program.toml: with foreplane large: surface "strake" lies on surface "foreplane" between its stations 1 and 2`}},
		"foreplane in the plane of the wing": {`{ surface = "foreplane", move_z_m = -0.2 }`,
			[]string{`program.toml: with foreplane large: surface "foreplane" station 1: its wake passes 34 mm from surface "strake" behind it, less than 5 % of the mean aerodynamic chord`}},
	} {
		files := sandreed()
		change(t, files, "program.toml", large, c.edit)
		p, err := Load(build(t, files))
		require.NoError(t, err, name)
		text := strings.Join(p.Warnings, "\n")
		for _, want := range c.want {
			require.Contains(t, text, want, name)
			require.Equal(t, 1, strings.Count(text, want), name)
		}
	}
}

// A fin that stands on the strake touches it; one whose root hangs below it passes through it.
func TestTouchingIsNotCrossing(t *testing.T) {
	for root, crosses := range map[string]bool{"0": false, "-10": false, "-300": true} {
		files := sandreed()
		change(t, files, "program.toml", "[[aerofoil]]\nname = \"wing-15\"", "[[lifting_surface]]\nname = \"inner fin\"\nrole = \"fin\"\nstations = \"shape/fin.csv\"\n[[aerofoil]]\nname = \"wing-15\"")
		files["shape/fin.csv"] = "station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm\n1,4300,700," + root + ",5200,700," + root + "\n2,4600,700,900,5300,700,900\n"
		p, err := Load(build(t, files))
		require.NoError(t, err)
		found := strings.Contains(strings.Join(p.Warnings, "\n"), `surface "strake" passes through surface "inner fin"`)
		require.Equal(t, crosses, found, "root at z %s mm", root)
	}
}

// With many choices every level and every pair is still tried, and the reader says so.
func TestManyCombinations(t *testing.T) {
	files := sandreed()
	var more strings.Builder
	for i := range 8 {
		fmt.Fprintf(&more, "[[choice]]\nname = \"toe %d\"\nbaseline = \"a\"\nlevel.a = []\nlevel.b = [{ surface = \"winglet\", toe_deg = %d }]\nlevel.c = [{ surface = \"winglet\", toe_deg = -1 }]\n", i, i+1)
	}
	change(t, files, "program.toml", "[[loading]]\nname = \"two aboard\"", more.String()+"[[loading]]\nname = \"two aboard\"")
	change(t, files, "program.toml", "[theory_error.neutral_point]\nbias_percent = 2\nlevel_percent = { winglet = 0.5, foreplane = 1 }\ninteraction_percent = 0.5\nfull_size_percent = { reynolds = 0.5, power = 1, shape = 0.5 }\nsource = \"common practice, no source\"\n", "")
	delete(files, "flights.csv")
	delete(files, "marks.csv")
	p, err := Load(build(t, files))
	require.NoError(t, err)
	require.Contains(t, strings.Join(p.Warnings, "\n"), "there are more than 1500 combinations of levels; each level and each pair was tried, not every combination")
	list, all := p.combinations()
	require.False(t, all)
	levels := 2 + 1 + 8*2
	pairs := (levels*levels - (2*2 + 1 + 8*4)) / 2 // of different choices
	require.Len(t, list, levels+pairs)
	require.Len(t, list[0], 1)
	require.Len(t, list[len(list)-1], 2)

	small, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	list, all = small.combinations()
	require.True(t, all)
	require.Len(t, list, len(small.Configurations())-1)
}
