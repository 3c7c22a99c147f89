package program

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const threeBays = `
[[model.bay]]
name = "nose"
x_mm = 95
z_mm = 45
most_kg = 0.8

[[model.bay]]
name = "belly tray"
x_from_mm = 850
x_to_cm = 95
z_mm = 10
most_g = 1500

[[model.bay]]
name = "outer wing"
x_mm = 1380
y_mm = 800
z_mm = 8
most_kg = 0.3
`

// Places of ballast stay at model size, whatever their unit; a place is a tray of no length.
func TestBaysAreReadAtModelSize(t *testing.T) {
	files := sandreed()
	files["program.toml"] += threeBays
	p, err := Load(build(t, files))
	require.NoError(t, err)
	require.Len(t, p.Model.Bays, 3)
	for i, want := range []Bay{{"nose", 0.095, 0.095, 0, 0.045, 0.8}, {"belly tray", 0.85, 0.95, 0, 0.01, 1.5}, {"outer wing", 1.38, 1.38, 0.8, 0.008, 0.3}} {
		got := p.Model.Bays[i]
		require.Equal(t, want.Name, got.Name)
		require.InDeltaSlice(t, []float64{want.From, want.To, want.Y, want.Z, want.Most}, []float64{got.From, got.To, got.Y, got.Z, got.Most}, 1e-12)
	}
	require.Equal(t, usualWarnings(t), p.Warnings)
}

func TestOneMistakeInABay(t *testing.T) {
	for _, s := range []slip{
		{"name twice", "", `name = "belly tray"`, `name = ‸"Nose"`, `the ballast bay "Nose" is there twice; give each bay a name of its own`},
		{"no name", "", "[[model.bay]]\nname = \"nose\"\n", "[[‸model.bay]]\n", `[[model.bay]] has no name; add name = "..."`},
		{"no place", "", "[[model.bay]]\nname = \"nose\"\nx_mm = 95\n", "[[‸model.bay]]\nname = \"nose\"\n", `[[model.bay]] has no x_mm; add x_mm = ..., or x_from_mm = ... and x_to_mm = ... for a tray`},
		{"no unit", "", "x_mm = 95", "‸x = 95", `"x" does not say its unit; write x_mm; units of length are cm, ft, in, m, mm`},
		{"place and tray", "", "x_from_mm = 850", "x_mm = ‸900\nx_from_mm = 850", `bay "belly tray" states x and also a range of x; keep x_mm for one place, or x_from_mm and x_to_mm for a tray`},
		{"tray without an end", "", "x_from_mm = 850\nx_to_cm = 95", "x_from_mm = ‸850", `bay "belly tray" states x_from without x_to; add x_to_mm, its aft end`},
		{"tray without a beginning", "", "x_from_mm = 850\nx_to_cm = 95", "x_to_cm = ‸95", `bay "belly tray" states x_to without x_from; add x_from_mm, its forward end`},
		{"tray backwards", "", "x_to_cm = 95", "x_to_cm = ‸80", `bay "belly tray" ends at x = 0.8 m and begins at 0.85 m; write the forward end as x_from and the aft end as x_to; x counts aft`},
		{"left side", "", "y_mm = 800", "y_mm = ‸-800", `bay "outer wing" has y = -0.8 m; write the distance from the middle, as on the right: a bay off the middle is there on both sides, and both are filled alike`},
		{"no height", "", "\nz_mm = 45", "", ""},
		{"takes nothing", "", "most_kg = 0.8", "most_kg = ‸0", `most_kg = 0 is out of range; write more than 0 and at most 200 kg`},
		{"grams under kilograms", "", "most_kg = 0.8", "most_kg = ‸800", `most_kg = 800 is out of range; write more than 0 and at most 200 kg`},
		{"metres for millimetres", "", "x_mm = 95", "x_m = ‸95", `x_m = 95 is out of range; write at least -20 and at most 20 m`},
		{"unknown key", "", "most_kg = 0.3", "most_kg = 0.3\n‸most_lb = 0.6", `most is stated twice, as most_kg and as most_lb; keep one of the two`},
	} {
		s.file = "program.toml"
		files := sandreed()
		files["program.toml"] += threeBays
		if s.want == "" {
			change(t, files, s.file, s.old, s.fresh)
			_, err := Load(build(t, files))
			require.ErrorContains(t, err, `[[model.bay]] has no z_mm; add z_mm = ...`)
			continue
		}
		t.Run(s.name, func(t *testing.T) { requireSlipIn(t, files, s) })
	}
}

// Lengths of the full-size aircraft in a bay of the model are seen.
func TestABayOffTheModelIsDoubted(t *testing.T) {
	files := sandreed()
	files["program.toml"] += strings.Replace(threeBays, "x_mm = 1380", "x_mm = 5520", 1)
	p, err := Load(build(t, files))
	require.NoError(t, err)
	require.Contains(t, strings.Join(p.Warnings, "\n"), `ballast bay "outer wing" lies at 5520 mm, and the surfaces of the model reach from`)
}
