package program

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
)

// Every size that the program lists can be set, and measuring the airframe afterwards gives the number back.
func TestASizeThatIsSetIsMeasured(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	base, _, err := p.Airframe(p.baseline())
	require.NoError(t, err)
	values := map[string]float64{"span": 3.9, "height": 1.31, "cant": 12, "toe": -1.5, "incidence": 2.5}
	swept := 0
	for _, key := range p.Sizes() {
		size, err := p.EditOf(key)
		require.NoError(t, err, key)
		require.Equal(t, key, size.Key)
		value, measured := values[size.Name]
		if !measured || size.Surface == "wing" || size.Surface == "strake" {
			continue
		}
		now, ok := size.Now(base)
		require.True(t, ok, key)
		require.Greater(t, math.Abs(now-value), 0.1, "%s must change", key)
		e, err := size.Edit(value)
		require.NoError(t, err, key)
		a, err := e.Apply(base)
		require.NoError(t, err, key)
		got, ok := size.Now(a)
		require.True(t, ok)
		require.InDelta(t, value, got, 1e-9, key)
		swept++
	}
	require.Equal(t, 5, swept)
}

func TestSizesOfTheSoundFolder(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	require.Equal(t, []string{
		"wing.span_m", "wing.height_m", "wing.chord_scale", "wing.incidence_deg", "wing.move_x_m", "wing.move_z_m",
		"strake.span_m", "strake.chord_scale", "strake.incidence_deg",
		"winglet.height_m", "winglet.chord_scale", "winglet.cant_deg", "winglet.toe_deg",
		"foreplane.span_m", "foreplane.chord_scale", "foreplane.incidence_deg", "foreplane.move_x_m", "foreplane.move_z_m",
	}, p.Sizes())
	base, _, err := p.Airframe(p.baseline())
	require.NoError(t, err)
	for key, want := range map[string]float64{"winglet.height_m": 1.1, "Foreplane.span_mm": 3500, "wing.span_m": 8.6, "wing.chord_scale": 1, "foreplane.move_x_m": 0,
		"winglet.cant_deg": 0, "foreplane.incidence_deg": math.Atan2(16, 460) * 180 / math.Pi} { // from the points of the tables
		size, err := p.EditOf(key)
		require.NoError(t, err)
		now, ok := size.Now(base)
		require.True(t, ok)
		require.InDelta(t, want, now, 1e-9, key)
	}
}

// A size written in program.toml and the same size named to a command are one edit.
func TestEditsOfTheFileAndOfACommandAgree(t *testing.T) {
	for _, c := range []struct {
		key     string
		written float64
		si      float64 // by hand
	}{
		{"height_m", 0.95, 0.95}, {"height_ft", 3, 0.9144}, {"span_in", 120, 3.048}, {"chord_scale", 1.07, 1.07}, {"cant_deg", 9, math.Pi / 20},
		{"cant_rad", 0.1, 0.1}, {"toe_deg", -1.8, -math.Pi / 100}, {"incidence_deg", 3, math.Pi / 60}, {"move_x_mm", -120, -0.12}, {"move_z_cm", 4, 0.04},
	} {
		files := sandreed()
		surface := "winglet"
		if strings.HasPrefix(c.key, "span") {
			surface = "foreplane"
		}
		change(t, files, "program.toml", `{ surface = "winglet", height_m = 0.88 }`, fmt.Sprintf(`{ surface = %q, %s = %g }`, surface, c.key, c.written))
		p, err := Load(build(t, files))
		require.NoError(t, err, c.key)
		fromFile := p.Choices[0].Levels[1].Edits[0]
		size, err := EditOf(surface + "." + c.key)
		require.NoError(t, err)
		fromKey, err := size.Edit(c.written)
		require.NoError(t, err)
		require.Equal(t, fromFile, fromKey, c.key)
		parsed, err := ParseEdit(surface, c.key, c.written)
		require.NoError(t, err)
		require.Equal(t, fromFile, parsed, c.key)
		require.InDelta(t, c.si, *(*size.size.field(&fromKey)), 1e-12, c.key)

		byLevel, _, err := p.Airframe(map[string]string{"winglet": "small", "foreplane": "standard"})
		require.NoError(t, err)
		byCommand, _, err := p.AirframeWith(p.baseline(), []Edit{parsed})
		require.NoError(t, err)
		require.Equal(t, byLevel, byCommand, c.key)
	}
}

// What new writes for an edit, program.toml gives back.
func TestAnEditSurvivesTheFile(t *testing.T) {
	value := func(x float64) *float64 { return &x }
	e := Edit{Surface: "winglet", Height: value(0.95), ChordScale: value(0.9), Cant: value(math.Pi / 18), Toe: value(math.Pi / 180), MoveX: value(-0.05), MoveZ: value(0.01)}
	files := sandreed()
	change(t, files, "program.toml", `{ surface = "winglet", height_m = 0.88 }`, e.text())
	p, err := Load(build(t, files))
	require.NoError(t, err)
	got := p.Choices[0].Levels[1].Edits[0]
	require.Equal(t, e.text(), got.text())
	for _, size := range editSizes() {
		want, have := *size.field(&e), *size.field(&got)
		require.Equal(t, want == nil, have == nil, size.measure.stem)
		if want != nil {
			require.InDelta(t, *want, *have, 1e-12, size.measure.stem)
		}
	}
}

func TestNamesOfSizesThatAreRefused(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	const sizes = "span_m, height_m, chord_scale, cant_deg, toe_deg, incidence_deg, move_x_m, move_z_m"
	for key, want := range map[string]string{
		"height_m":              `the size "height_m" does not say of which surface; write SURFACE.SIZE, such as winglet.height_m; sizes are ` + sizes,
		".height_m":             `the size ".height_m" names no surface; write SURFACE.SIZE, such as winglet.height_m`,
		"winglet.hight_m":       `there is no size "hight_m" of a surface; did you mean winglet.height_m? sizes that can be swept are ` + sizes,
		"winglet.stations":      `there is no size "stations" of a surface; sizes that can be swept are ` + sizes,
		"winglet.height":        `the size "winglet.height": "height" does not say its unit; write height_m; units of length are cm, ft, in, m, mm`,
		"winglet.height_deg":    `the size "winglet.height_deg": the unit of "height_deg" is not one of length; write height_m; units of length are cm, ft, in, m, mm`,
		"winglet.chord_scale_m": `the size "winglet.chord_scale_m": "chord_scale_m" carries a unit, but it is a plain number; write chord_scale`,
	} {
		_, err := EditOf(key)
		require.EqualError(t, err, want)
		_, err = p.EditOf(key)
		require.EqualError(t, err, want+"; here: "+strings.Join(p.Sizes(), ", "))
	}
	_, err = p.EditOf("wimglet.height_m")
	require.ErrorContains(t, err, `there is no lifting surface "wimglet"; did you mean "winglet"?; sizes that can be swept here are wing.span_m, `)
	size, err := p.EditOf("winglet.height_m")
	require.NoError(t, err)
	_, err = size.Edit(-1)
	require.EqualError(t, err, "winglet.height_m = -1 is out of range; write more than 0 and at most 1000 m")
	_, err = size.Edit(math.NaN())
	require.EqualError(t, err, "winglet.height_m is not a finite number; write a number")
}

// Edits behind the levels come last, leave the program alone, and are refused where they make no aircraft.
func TestFurtherEditsOnALevel(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	before, _, err := p.Airframe(p.baseline())
	require.NoError(t, err)
	tall := map[string]string{"winglet": "tall", "foreplane": "large"}
	e, err := ParseEdit("winglet", "height_m", 1)
	require.NoError(t, err)
	a, _, err := p.AirframeWith(tall, []Edit{e})
	require.NoError(t, err)
	root, tip := ends(a.Surfaces[2])
	require.InDelta(t, 1, tip.Z-root.Z, 1e-12)
	require.InDelta(t, 3.75/2, a.Surfaces[3].Stations[1].LeadingEdge.Y, 1e-12)
	require.Equal(t, before.Reference, a.Reference)
	after, _, err := p.Airframe(p.baseline())
	require.NoError(t, err)
	require.Equal(t, before, after)

	wide, err := ParseEdit("strake", "span_m", 3.4)
	require.NoError(t, err)
	_, _, err = p.AirframeWith(tall, []Edit{wide})
	require.ErrorContains(t, err, `surface "wing" station 1: its inboard end leaves an overlap of 0.4 m in y with "strake"; let strake and wing meet at one y`)
	_, err = Edit{Surface: "tail", Height: e.Height}.Apply(aero.Airframe{Surfaces: p.Surfaces})
	require.ErrorContains(t, err, `there is no lifting surface "tail"; use one of wing, strake, winglet, foreplane`)
}
