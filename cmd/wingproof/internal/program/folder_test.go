package program

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sandreed is a whole program folder of the invented two-seater, file by file.
func sandreed() map[string]string {
	return map[string]string{
		"program.toml": sandreedTOML,
		"shape/wing.csv": `station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,aerofoil
1,4200,1300,0,5700,1300,0,wing-15
2,5550,4300,60,6300,4300,80,wing-15
`,
		"shape/strake.csv": `station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,aerofoil
1,2400,0,0,5400,0,0,wing-15
2,4200,1300,0,5700,1300,0,wing-15
`,
		"shape/winglet.csv": `# cut with vertical planes
station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,aerofoil
1,5550,4300,60,6300,4300,60,thin-12
2,5900,4300,610,6445,4300,610,thin-12
3,6250,4300,1160,6590,4300,1160,thin-12
`,
		"shape/winglet-tall.csv": `station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,aerofoil
1,5550,4300,60,6300,4300,60,thin-12
2,6000,4300,750,6545,4300,750,thin-12
3,6425,4300,1435,6765,4300,1435,thin-12
`,
		"shape/foreplane.csv": `station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,aerofoil
1,305,0,250,765,0,234,fore-16
2,425,1750,250,805,1750,237,fore-16
`,
		"shape/thin-12.csv": `# thickness of a NACA 0012, NACA Report 460
x,y
1,0
0.9,0.0137
0.8,0.0257
0.6,0.0455
0.4,0.0580
0.3,0.0600
0.2,0.0574
0.1,0.0468
0.05,0.0355
0.0125,0.0189
0,0
0.0125,-0.0189
0.05,-0.0355
0.1,-0.0468
0.2,-0.0574
0.3,-0.0600
0.4,-0.0580
0.6,-0.0455
0.8,-0.0257
0.9,-0.0137
1,0.0000
`,
		"shape/spar-allowable.csv": `y_m,bending_nm
0,31000
2,14000
4.2,600
`,
		"flights.csv": `flight,date,log,logger,winglet,foreplane,weighing,mass_kg,cg_mm,pressure_hpa,temperature_c,use,why_not,notes
f01,2026-03-14,logs/f01.csv,field-box,mid,standard,w1,,,1013.2,8.5,yes,,calm
f02,2026-03-15,logs\f02.csv,field-box,small,standard,,15.2,940.5,1009,11,yes,,
f03,2026-03-16,logs/f03.csv,field-box,mid,large,w1,,,,,no,lost the airspeed tube,
`,
		"weighings.csv": `weighing,date,mass_kg,mass_sd_kg,cg_x_mm,cg_x_sd_mm,cg_z_mm,cg_z_sd_mm,ix_kg_m2,iy_kg_m2,iz_kg_m2,ixz_kg_m2,notes
w1,2026-03-13,15.1,0.02,935,1.5,20,3,1.4,2.1,3.3,0.02,
`,
		"marks.csv": `flight,start_s,end_s,manoeuvre
f01,60,72.5,glide
`,
		"parts.csv": `part,side,stage,built_to,hours_spent,hours_left,shaped_by,must_pass,responsible,needed_by,notes
main spar,both,laid_up,,220,40,none,aft margin,shop,2026-05-01,
winglet plug,left,plug,winglet=mid,30,80,winglet,aft margin; tip-back and signoff:flutter_and_mass_balance,shop,,
foreplane mould,,drawn,,0,120,foreplane,aft margin,shop,2026-06-15,
nose bowl,,drawn,,0,60,,,shop,,
`,
	}
}

const sandreedTOML = `format = 1
name = "Sandreed two-seater (invented)"
cautions_read = "ab, 2026-03-02"
seed = 7
date_order = "day_first"

[model]
length_ratio = 0.25
test_altitude_m = 120
[model.errors]
airspeed_scale_percent = 1
alpha_deg = 0.5

[full_size]
mass_kg = { value = 960, sd = 10, status = "estimated", source = "drawing weights" }
empty_mass_kg = { value = 590, sd = 12, status = "estimated", source = "drawing weights" }
empty_cg_x_m = { value = 4.15, sd = 0.03, status = "estimated", source = "drawing weights" }
empty_cg_z_m = { value = 0.10, sd = 0.03, status = "estimated", source = "drawing weights" }
cruise = { speed_kt = 120, altitude_m = 1500 }
limit_load_factor = 3.8

[gear]
nose_x_m = 1.1
main_x_m = 4.6
track_m = 2.2
ground_z_m = -1.1

[reference]
span_m = 8.6

[[lifting_surface]]
name = "wing"
role = "wing"
stations = "shape/wing.csv"
hinges = [{ control = "aileron", from_station = 1, to_station = 2, hinge_chord_percent = 75, travel_deg = [-20, 20] }]

[[lifting_surface]]
name = "strake"
role = "strake"
joins = "wing root"
stations = "shape/strake.csv"

[[lifting_surface]]
name = "winglet"
role = "winglet"
joins = "wing tip"
stations = 'shape\winglet.csv'
hinges = [{ control = "rudder", from_station = 1, to_station = 3, hinge_chord_percent = 70, travel_deg = [-25, 25] }]

[[lifting_surface]]
name = "foreplane"
role = "foreplane"
stations = "shape/foreplane.csv"
hinges = [{ control = "elevator", from_station = 1, to_station = 2, hinge_chord_percent = 65, travel_deg = [-15, 25], effectiveness = 0.75 }]

[[aerofoil]]
name = "wing-15"
naca = "2415"
[[aerofoil]]
name = "fore-16"
naca = "3416"
[[aerofoil]]
name = "thin-12"
outline = "shape/thin-12.csv"

[[choice]]
name = "winglet"
baseline = "mid"
level.mid = []
level.small = [{ surface = "winglet", height_m = 0.88 }]
level.tall = [{ surface = "winglet", stations = "shape/winglet-tall.csv" }]

[[choice]]
name = "foreplane"
baseline = "standard"
level.standard = []
level.large = [{ surface = "foreplane", span_m = 3.75, chord_scale = 1.07 }]

[[loading]]
name = "two aboard"
items = [{ what = "crew", mass_kg = 170, x_m = 2.9, z_m = 0.1 }, { what = "fuel", mass_lb = 400, x_m = 3.9, z_m = 0.0 }]
[[loading]]
name = "nobody aboard"
flies = false
items = []

[[limit]]
name = "aft margin"
quantity = "static_margin"
at_least_percent = 5
evidence = "flight"
source = "common practice, no source"
loadings = ["two aboard"]
[[limit]]
name = "tip-back"
quantity = "tip_back_angle"
at_least_deg = 15
evidence = "analysis"
source = "common practice, no source"

[built.main_spar]
surface = "wing"
bending_allowable = "shape/spar-allowable.csv"
basis = "limit"
knock_down = 0.9
sd_percent = 5

[theory_error.neutral_point]
bias_percent = 2
level_percent = { winglet = 0.5, foreplane = 1 }
interaction_percent = 0.5
full_size_percent = { reynolds = 0.5, power = 1, shape = 0.5 }
source = "common practice, no source"

[logger.field-box]
time = { column = "t", unit = "ms" }
channels = [
  { column = "wy", is = "pitch_rate", unit = "deg/s", sign = -1 },
  { column = "s2", is = "elevator", unit = "deg", calibration = [[1000, -20], [1500, 0], [2000, 18]] },
  { column = "T", is = "air_temperature", unit = "°C", offset = -1.5 },
]
`

// build writes a folder into a fresh directory. Each change is file, old text, new text.
func build(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	return dir
}

// change replaces text that must be there once.
func change(t testing.TB, files map[string]string, file, old, fresh string) {
	t.Helper()
	require.Equal(t, 1, strings.Count(files[file], old), "%q in %s", old, file)
	files[file] = strings.Replace(files[file], old, fresh, 1)
}
