package program

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A CG or a mass of the model that only a wrong unit explains is a mistake with its place.
func TestModelInTheWrongUnit(t *testing.T) {
	for name, c := range map[string]struct{ file, old, fresh, want string }{
		"millimetres of the full-size aircraft": {"weighings.csv", ",935,", ",3740,",
			`weighings.csv:2:25: cg_x_mm "3740" puts the centre of gravity at 14.96 m of the full-size aircraft, whose surfaces reach from 0.30 to 6.59 m; write what was measured on the model, aft of its datum; 3.74 m fits the full-size aircraft, and on the model that is 935 mm (row 2, column E "cg_x_mm")`},
		"metres under millimetres": {"weighings.csv", ",935,", ",0.935,",
			`puts the centre of gravity at 0.00 m of the full-size aircraft, whose surfaces reach from 0.30 to 6.59 m; write what was measured on the model, aft of its datum; in metres the number would fit, but the head says mm`},
		"in the row of a flight": {"flights.csv", ",940.5,", ",3762,", `flights.csv:3:60: cg_mm "3762" puts the centre of gravity at 15.05 m`},
		"grams under kilograms":  {"weighings.csv", ",15.1,", ",15100,", `mass_kg "15100" is 1.51e+04 kg, and a model to scale weighs 9.22 to 15 kg; write the mass of the model in the unit of the head, or correct length_ratio`},
		"full-size kilograms":    {"flights.csv", ",15.2,", ",960,", `mass_kg "960" is 960 kg, and a model to scale weighs 9.22 to 15 kg`},
	} {
		files := sandreed()
		change(t, files, c.file, c.old, c.fresh)
		_, err := Load(build(t, files))
		require.ErrorContains(t, err, c.want, name)
	}
}

// Figures that are fair numbers but hardly meant are told, and stop nothing.
func TestDoubtfulFigures(t *testing.T) {
	for name, c := range map[string]struct{ file, old, fresh, want string }{
		"pounds under kilograms": {"weighings.csv", ",15.1,", ",33.3,", `weighings.csv: row 2, column C "mass_kg" is 33.3 kg, and a model to scale weighs 9.22 to 15 kg; look at the unit`},
		"one weighing in pounds": {"weighings.csv", "3.3,0.02,\n", "3.3,0.02,\nw2,2026-03-13,15.3,0.02,940,1.5,,,,,,,\nw3,2026-03-13,6.9,0.02,950,1.5,,,,,,,\n",
			`weighings.csv: weighing "w3" says 6.9 kg, and the others lie about 15.1 kg; it is the same model, so look at the unit`},
		"foreplane in centimetres": {"shape/foreplane.csv", "station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,", "station,le_x_cm,le_y_cm,le_z_cm,te_x_cm,te_y_cm,te_z_cm,",
			`surface "foreplane" has a span of 35 m and the wing 8.6 m; look at the unit in the heads`},
		"foreplane behind the wing": {"shape/foreplane.csv", "1,305,0,250,765,0,234,fore-16\n2,425,1750,250,805", "1,6305,0,250,6765,0,234,fore-16\n2,6425,1750,250,6805",
			`surface "foreplane" begins 6.30 m aft of datum and the wing 4.20 m; x counts aft, and a foreplane stands ahead of the wing`},
		"sign of the ground":         {"program.toml", "ground_z_m = -1.1", "ground_z_m = 1.1", "ground_z puts the ground 1.00 m above the empty aircraft's centre of gravity; z is up"},
		"empty CG in another unit":   {"program.toml", "empty_cg_x_m = { value = 4.15", "empty_cg_x_m = { value = 41.5", "empty_cg_x puts the empty aircraft's centre of gravity at 41.50 m"},
		"station with a wrong sign":  {"program.toml", `mass_kg = 170, x_m = 2.9`, `mass_kg = 170, x_m = -2.9`, `loading "two aboard" carries crew at -2.90 m`},
		"crew in pounds":             {"program.toml", `mass_kg = 170`, `mass_kg = 375`, `loading "two aboard" weighs 1146 kg with the empty aircraft, more than the gross mass of 960 kg`},
		"share under per cent":       {"program.toml", "hinge_chord_percent = 75", "hinge_chord_percent = 0.75", `surface "wing" hinges its aileron at 0.75 % of the chord; if 75 % is meant, write that`},
		"radians under degrees":      {"program.toml", "travel_deg = [-15, 25]", "travel_deg = [-0.26, 0.44]", `elevator on surface "foreplane" travels 0.7° in all; travel_deg is in degrees`},
		"margin as a share":          {"program.toml", "at_least_percent = 5", "at_least_percent = 0.05", `limit "aft margin" asks for 0.05 %; if 5 % is meant, write that`},
		"airspeed error as a share":  {"program.toml", "airspeed_scale_percent = 1", "airspeed_scale_percent = 0.015", "airspeed_scale_percent = 0.015 claims"},
		"km/h under metres a second": {"program.toml", "cruise = { speed_kt = 120", "cruise = { speed_m_s = 222", "cruise speed is 222 m/s (799 km/h); look at the unit"},
		"empty and gross mass mixed": {"program.toml", "empty_mass_kg = { value = 590", "empty_mass_kg = { value = 1090", "empty_mass (1090 kg) is more than mass (960 kg)"},
	} {
		files := sandreed()
		change(t, files, c.file, c.old, c.fresh)
		p, err := Load(build(t, files))
		require.NoError(t, err, name)
		require.Contains(t, strings.Join(p.Warnings, "\n"), c.want, name)
	}
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	for _, w := range p.Warnings {
		require.NotContains(t, w, "look at the unit")
		require.NotContains(t, w, "is meant")
	}
}

// The same for what lattice, stall and loads are told besides.
func TestDoubtfulFiguresOfTheLatticeChapter(t *testing.T) {
	for name, c := range map[string]struct{ file, old, fresh, want string }{
		"masses of one half in grams": {"program.toml", "mass_kg = 95", "mass_kg = 950", "program.toml: the lifting surfaces weigh 950 kg together, more than the empty aircraft (590 kg); mass is that of both halves"},
		"tank beyond the tip":         {"program.toml", "span_to_m = 1.2", "span_to_m = 12", `loading "two aboard": fuel reaches to 12.00 m from the plane of symmetry, and the surfaces to 4.30 m`},
		"body in another unit":        {"shape/fuselage.csv", "station,x_mm,", "station,x_cm,", "the fuselage reaches from 2.00 to 56.00 m, and the surfaces from 0.30 to 6.59 m; look at the unit in the heads"},
		"width in another unit":       {"shape/fuselage.csv", "width_mm", "width_cm", "the fuselage is 5.4 m long and 10 m wide or high; look at the unit in the heads"},
		"states exchanged":            {"shape/fore-polar.csv", "1.31,0.0098", "1.61,0.0098", "shape/fore-polar.csv: row 3: contaminated the section lifts more (1.61) than clean in row 2 (1.55); look whether the two are exchanged"},
		"polar of nothing":            {"program.toml", "naca = \"23012\"", "naca = \"23012\"\npolar = \"shape/fore-polar.csv\"", `aerofoil "tip-12" has a polar and no station names it`},
		"six-series as five digits":   {"program.toml", "naca = \"23012\"", "naca = \"63012\"", `program.toml: aerofoil "tip-12": read as a five-digit section`},
		"manoeuvring above cruise":    {"program.toml", "manoeuvre_speed_kt = 105", "manoeuvre_speed_kt = 120", "the manoeuvre speed of 120 kt lies above the cruise, which is 111.5 kt of equivalent airspeed; it need not"},
	} {
		files := furnished(t)
		change(t, files, c.file, c.old, c.fresh)
		p, err := Load(build(t, files))
		require.NoError(t, err, name)
		require.Contains(t, strings.Join(p.Warnings, "\n"), c.want, name)
	}
}

// One wrong head is one mistake, not two for every row below it.
func TestAMissingWeighingColumnIsSaidOnce(t *testing.T) {
	files := sandreed()
	change(t, files, "flights.csv", "foreplane,weighing,mass_kg,cg_mm", "foreplane,Wiegung,Masse,Lage")
	_, err := Load(build(t, files))
	require.ErrorContains(t, err, "flights.csv:1:1: there is no column that tells mass and CG of the flights; add a column headed weighing, or the columns mass_kg and cg_mm")
	require.NotContains(t, err.Error(), "has neither")
}
