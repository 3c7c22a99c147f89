package program

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pointer stands in the changed text where the mistake must point to.
const pointer = "‸"

// slip is one mistake put into the sound folder.
type slip struct {
	name, file, old, fresh string
	want                   string // everything behind file:line:column
}

// place is file:line:column of the pointer in a text, counted from the text itself.
func place(t *testing.T, file, text string) string {
	t.Helper()
	require.Equal(t, 1, strings.Count(text, pointer))
	before, _, _ := strings.Cut(text, pointer)
	line := strings.Count(before, "\n") + 1
	return fmt.Sprintf("%s:%d:%d: ", file, line, len(before)-strings.LastIndex(before, "\n"))
}

func requireSlip(t *testing.T, s slip) {
	t.Helper()
	requireSlipIn(t, sandreed(), s)
}

func requireSlipIn(t *testing.T, files map[string]string, s slip) {
	t.Helper()
	change(t, files, s.file, s.old, s.fresh)
	want := place(t, s.file, files[s.file]) + s.want
	files[s.file] = strings.Replace(files[s.file], pointer, "", 1)
	_, err := Load(build(t, files))
	var mistakes Mistakes
	require.ErrorAs(t, err, &mistakes)
	require.Equal(t, want, err.Error())
}

func TestOneMistakeInProgramTOML(t *testing.T) {
	for _, s := range []slip{
		{"unknown key", "", "length_ratio = 0.25", "length_ratio = 0.25\n‸wheighings = \"w.csv\"", `[model] has no key "wheighings"; did you mean weighings?`},
		{"unknown key far from any", "", "length_ratio = 0.25", "length_ratio = 0.25\n‸colour = \"w.csv\"", `[model] has no key "colour"; keys here are length_ratio, weighings, test_altitude_m, errors, bay`},
		{"unknown table", "", "[gear]", "[‸propeller]\ndiameter_m = 1.6\n[gear]", `program.toml has no key "propeller"; keys here are format, name, cautions_read, seed, date_order, model, full_size, fuselage, gear, reference, aerofoil, lifting_surface, choice, loading, limit, built, servo, theory_error, logger`},
		{"wrong type", "", `name = "Sandreed two-seater (invented)"`, `name = ‸7`, `name is a number, not text; write name = "text"`},
		{"number between quotation marks", "", "length_ratio = 0.25", `length_ratio = ‸"0.25"`, `length_ratio is text, not a number; write length_ratio = 1.5`},
		{"range", "", "length_ratio = 0.25", "length_ratio = ‸4", `length_ratio = 4 is out of range; write more than 0 and at most 1`},
		{"range with unit", "", "airspeed_scale_percent = 1", "airspeed_scale_percent = ‸40", `airspeed_scale_percent = 40 is out of range; write at least 0 and at most 30 percent`},
		{"not finite", "", "length_ratio = 0.25", "length_ratio = ‸nan", `length_ratio is not a finite number; write a number`},
		{"missing key", "", "[model]\nlength_ratio = 0.25\n", "[‸model]\n", `[model] has no length_ratio; add length_ratio = ...`},
		{"missing text", "", "[[loading]]\nname = \"nobody aboard\"\n", "[[‸loading]]\n", `[[loading]] has no name; add name = "..."`},
		{"unit missing", "", "test_altitude_m = 120", "‸test_altitude = 120", `"test_altitude" does not say its unit; write test_altitude_m; units of length are cm, ft, in, m, mm`},
		{"unit of something else", "", "test_altitude_m = 120", "‸test_altitude_kg = 120", `the unit of "test_altitude_kg" is not one of length; write test_altitude_m; units of length are cm, ft, in, m, mm`},
		{"unit on a plain number", "", "limit_load_factor = 3.8", "‸limit_load_factor_m = 3.8", `"limit_load_factor_m" carries a unit, but it is a plain number; write limit_load_factor`},
		{"stated twice", "", "test_altitude_m = 120", "test_altitude_m = 120\n‸test_altitude_ft = 394", `test_altitude is stated twice, as test_altitude_m and as test_altitude_ft; keep one of the two`},
		{"key twice", "", "test_altitude_m = 120", "test_altitude_m = 120\n‸test_altitude_m = 130", `"test_altitude_m" is written twice; it already stands in line 9; keep one of the two`},
		{"figure without a doubt", "", `mass_kg = { value = 960, sd = 10, status = "estimated", source = "drawing weights" }`, `mass_kg = ‸960`, `mass_kg is a number, not a table with its standard deviation and source; write mass_kg = { value = 1.0, sd = 0.1, status = "estimated", source = "..." }`},
		{"unknown status", "", `value = 960, sd = 10, status = "estimated"`, `value = 960, sd = 10, status = ‸"guessed"`, `status = "guessed" is not known; write "estimated" or "weighed"`},
		{"negative doubt", "", "value = 960, sd = 10", "value = 960, sd = ‸-10", `sd = -10 is out of range; write one standard deviation, at least 0`},
		{"date order", "", `"day_first"`, `‸"days"`, `date_order = "days" is not known; write "year_first", "day_first" or "month_first"`},
		{"role", "", `role = "strake"`, `role = ‸"lerx"`, `role = "lerx" is not known; write "wing", "strake", "foreplane", "winglet" or "fin"`},
		{"joins what is not there", "", `joins = "wing tip"`, `joins = ‸"wnig tip"`, `joins names "wnig", which is no other lifting surface; did you mean "wing"?`},
		{"joins without an end", "", `joins = "wing tip"`, `joins = ‸"wing"`, `joins = "wing" does not say which end; write the name of a surface and tip or root, such as joins = "wing tip"`},
		{"surface twice", "", "name = \"strake\"\nrole", "name = ‸\"Wing\"\nrole", `the lifting surface "Wing" is there twice; give each surface a name of its own`},
		{"file not there", "", `"shape/strake.csv"`, `‸"shape/strakes.csv"`, `the file "shape/strakes.csv" is not there; put the file there, or correct the path`},
		{"file outside", "", `"shape/strake.csv"`, `‸'C:\cad\strake.csv'`, `the path "C:\cad\strake.csv" leads out of the program folder; copy the file into the program folder and write its path from there, such as logs/f01.csv`},
		{"hinge past the tip", "", "to_station = 3", "to_station = ‸4", `to_station = 4 is not a whole number in range; write a whole number from 1 to 3`},
		{"travel that falls", "", "travel_deg = [-25, 25]", "travel_deg = ‸[25, -25]", `travel_deg does not rise; write the smaller number first, such as [-25, 25]`},
		{"aerofoil with neither", "", "[[aerofoil]]\nname = \"wing-15\"\nnaca = \"2415\"", "[[‸aerofoil]]\nname = \"wing-15\"", `aerofoil "wing-15" needs exactly one of naca, outline and mean_line; write naca = "2412", or outline = "shape/name.csv", or mean_line = "shape/name.csv" with thickness_percent = 12`},
		{"baseline unknown", "", `baseline = "mid"`, `baseline = ‸"middle"`, `the baseline "middle" is no level of choice "winglet"; did you mean "mid"?`},
		{"level edits what is not there", "", `{ surface = "winglet", height_m = 0.88 }`, `{ surface = ‸"winglets", height_m = 0.88 }`, `there is no lifting surface "winglets"; did you mean "winglet"?`},
		{"edit without a change", "", `{ surface = "winglet", height_m = 0.88 }`, `‸{ surface = "winglet" }`, `this edit of "winglet" changes nothing; add what changes, such as height_m = 1.2, or leave the level's list empty`},
		{"edit unit", "", `height_m = 0.88`, `‸height_deg = 0.88`, `the unit of "height_deg" is not one of length; write height_m; units of length are cm, ft, in, m, mm`},
		{"level that cannot be built", "", `level.small = [{ surface = "winglet", height_m = 0.88 }]`, `level.‸small = [{ surface = "foreplane", height_m = 0.88 }]`, `level small of choice winglet cannot be built: surface "foreplane": both ends lie at one height, so that it cannot be stretched; set the span instead; correct the edits of this level`},
		{"limit on what is not judged", "", `quantity = "static_margin"`, `quantity = ‸"margin"`, `quantity = "margin" is not known; write "static_margin", "directional_stiffness", "lift_curve_slope", "tip_back_angle", "nose_gear_share", "overturn_angle", "fuel_cg_travel", "stall_order_margin", "stalling_speed", "elevator_room", "rotation_speed", "short_period_damping", "control_anticipation", "phugoid_damping", "dutch_roll_frequency", "dutch_roll_damping", "roll_time_constant" or "spiral_time_to_double"`},
		{"limit with a unit that does not fit", "", "at_least_percent = 5", "‸at_least_deg = 5", `the unit of "at_least_deg" is not one of share; write at_least_percent`},
		{"limit loading", "", `loadings = ["two aboard"]`, `loadings = [‸"three aboard"]`, `there is no loading "three aboard"; did you mean "two aboard"?`},
		{"limit without a bound", "", "[[limit]]\nname = \"tip-back\"\nquantity = \"tip_back_angle\"\nat_least_deg = 15", "[[‸limit]]\nname = \"tip-back\"\nquantity = \"tip_back_angle\"", `limit "tip-back" has no bound; add at_least_deg = ... or at_most_deg = ...`},
		{"built part unknown", "", "[built.main_spar]", "[‸built.main_sparr]", `[built.main_sparr] is no part of parts.csv; did you mean "main spar"?`},
		{"theory error of nothing", "", "[theory_error.neutral_point]", "[‸theory_error.neutral_pint]", `there is no theory error of "neutral_pint"; did you mean "neutral_point"?`},
		{"theory error of an unknown choice", "", "{ winglet = 0.5, foreplane = 1 }", "{ winglet = 0.5, foreplane = 1, ‸fin = 2 }", `level_percent has no key "fin"; keys here are winglet, foreplane`},
		{"quantity unknown", "", `is = "pitch_rate"`, `is = ‸"pitchrate"`, `no quantity is called "pitchrate"; did you mean "pitch_rate"?`},
		{"unit of a channel", "", `unit = "deg/s"`, `unit = ‸"deg"`, `unit "deg" is no unit of angular rate, which pitch_rate has; write deg_s or rad_s`},
		{"pulse width without calibration", "", `unit = "deg", calibration = [[1000, -20], [1500, 0], [2000, 18]]`, `unit = ‸"us"`, `unit "us" is no unit of angle, which elevator has; write deg or rad; a servo command needs calibration = [[1000, -20], [2000, 20]], and then the unit is that of the result`},
		{"calibration that falls", "", "[1500, 0]", "[‸900, 0]", `cell 900 of calibration does not rise; write calibration = [[1000, -20], [1500, 0], [2000, 20]]: cell, value; cells rising`},
		{"two columns for one quantity", "", `is = "pitch_rate", unit = "deg/s", sign = -1 }`, `is = "pitch_rate", unit = "deg/s", sign = -1 }, { column = "q", unit = "deg/s", is = ‸"pitch_rate" }`, `"pitch_rate" comes from two columns; line 118 names it too; keep the better one`},
		{"time unit", "", `unit = "ms"`, `unit = ‸"minutes"`, `unit = "minutes" is not known; write "s", "ms", "us" or "iso"`},
		{"format of tomorrow", "", "format = 1", "format = ‸2", `this folder is in format 2, and this wingproof reads formats up to 1; read it with a newer wingproof; nothing else was looked at`},
		{"dots left in", "", "calibration = [[1000, -20], [1500, 0]", "calibration = [[1000, ‸...], [1500, ...]", `nobody has filled in what the three dots stand for; write what was measured, such as calibration = [[1000, -20], [1500, 0], [2000, 20]], or begin the line with #`},
		{"no TOML", "", "seed = 7", "seed = 0‸,5", `this is not TOML: expected newline but got U+002C ','; write key = value, with text between quotation marks and a decimal point`},
	} {
		s.file = "program.toml"
		t.Run(s.name, func(t *testing.T) { requireSlip(t, s) })
	}
}

func TestOneMistakeInATable(t *testing.T) {
	for _, s := range []slip{
		{"not a number", "flights.csv", "15.2,940.5", "15.2,‸94O.5", `cg_mm "94O.5" is not a number; write digits, such as 310 or 0.31 (row 3, column I "cg_mm")`},
		{"decimal comma between commas", "flights.csv", "15.2,940.5", `15.2,‸"940,5"`, `cg_mm "940,5" is not a number; this table separates cells by commas; write a decimal point, such as 0.31 (row 3, column I "cg_mm")`},
		{"unit missing", "flights.csv", "cg_mm", "‸cg", `"cg" does not say its unit; write cg_mm; units of length are cm, ft, in, m, mm (column I)`},
		{"unknown head", "flights.csv", "temperature_c", "‸temprature_c", `no column of this table is called "temprature_c"; did you mean temperature_c? (column K)`},
		{"head twice", "flights.csv", "why_not,notes", "why_not,‸flight", `the head "flight" stands in column A too; keep one of the two columns (column N)`},
		{"unknown level", "flights.csv", "field-box,small", "field-box,‸smal", `level "smal" is not known; did you mean "small"? (row 3, column E "winglet")`},
		{"unknown logger", "flights.csv", "field-box,small", "‸box,small", `logger "box" is not known; write "field-box" (row 3, column D "logger")`},
		{"unknown weighing", "flights.csv", "standard,w1,", "standard,‸w2,", `weighing "w2" is not known; did you mean "w1"? (row 2, column G "weighing")`},
		{"no such day", "flights.csv", "2026-03-15", "‸2026-02-30", `"2026-02-30" is not a date; there is no such day in the calendar; write year-month-day such as 2026-03-14 (row 3, column B "date")`},
		{"no date", "flights.csv", "2026-03-15", "‸spring", `"spring" is not a date; write 2026-03-14 (row 3, column B "date")`},
		{"neither yes nor no", "flights.csv", "11,yes", "11,‸perhaps", `"perhaps" is neither yes nor no; write yes or no (row 3, column L "use")`},
		{"no reason", "flights.csv", "no,lost the airspeed tube,", "no,‸,", `the flight is left out and nobody says why; write the reason into why_not (row 4, column M "why_not")`},
		{"flight twice", "flights.csv", "f02,", "‸f01,", `the flight "f01" already stands in row 2; give each flight a name of its own (row 3, column A "flight")`},
		{"no CG", "flights.csv", "15.2,940.5", "15.2,‸", `the flight is used and has neither a weighing nor a CG; write the weighing, or cg_mm in millimetres aft of the model's datum (row 3, column I "cg_mm")`},
		{"no level", "flights.csv", "field-box,small", "field-box,‸", `winglet is empty; write the level flown: "mid", "small" or "tall" (row 3, column E "winglet")`},
		{"pressure in another unit", "flights.csv", "1013.2", "‸29.92", `pressure_hpa = 29.92 is out of range; write at least 300 and at most 1100 hpa (row 2, column J "pressure_hpa")`},
		{"cell under no head", "flights.csv", "yes,,calm", "yes,,calm,‸windy", `the cell "windy" stands under no head; give the column a head, or empty the cell; a cell that holds the separator needs quotation marks (row 2, column O)`},
		{"quotation mark", "flights.csv", "yes,,calm", `yes,,cal‸"m`, `a quotation mark stands where none can be read; the rows from here on are not read; put the whole cell between quotation marks, and double a quotation mark inside it: "5"" plug"`},
		{"log outside", "flights.csv", `logs\f02.csv`, `‸..\f02.csv`, `the path "..\f02.csv" leads out of the program folder; copy the file into the program folder and write its path from there, such as logs/f01.csv (row 3, column C "log")`},

		{"mass", "weighings.csv", "15.1,", "‸0,", `mass_kg = 0 is out of range; write more than 0 and at most 100000 kg (row 2, column C "mass_kg")`},
		{"weighing without a CG", "weighings.csv", "935,", "‸,", `cg_x_mm is empty; write a number (row 2, column E "cg_x_mm")`},
		{"weighing unit", "weighings.csv", "iy_kg_m2", "‸iy_kg", `the unit of "iy_kg" is not one of moment of inertia; write iy_kg_m2; units of moment of inertia are g_m2, kg_m2, slug_ft2 (column J)`},

		{"mark of no flight", "marks.csv", "f01,60", "‸f09,60", `flight "f09" is not known; did you mean "f01"? (row 2, column A "flight")`},
		{"mark backwards", "marks.csv", "60,72.5", "60,‸50", `the stretch ends before it starts; write an end later than the start (row 2, column C "end_s")`},
		{"mark without an end", "marks.csv", "flight,start_s,end_s,manoeuvre\nf01,60,72.5,glide", "‸flight,start_s,manoeuvre\nf01,60,glide", `there is no column end_s; add a column headed end_s`},

		{"stage", "parts.csv", "main spar,both,laid_up", "main spar,both,‸laminated", `stage "laminated" is not known; write "drawn", "plug", "mould", "laid_up", "ready" or "fitted" (row 2, column C "stage")`},
		{"limit unknown", "parts.csv", "none,aft margin", "none,‸aft margn", `there is no limit "aft margn"; did you mean "aft margin"? (row 2, column H "must_pass")`},
		{"choice unknown", "parts.csv", "120,foreplane", "120,‸canards", `there is no choice "canards"; write "winglet", "foreplane" or "none" (row 4, column G "shaped_by")`},
		{"built to nothing known", "parts.csv", "winglet=mid", "‸winglet=midi", `choice winglet has no level "midi"; did you mean "mid"? (row 3, column D "built_to")`},
		{"built to without a level", "parts.csv", "winglet=mid", "‸mid", `"mid" does not say which level of which choice; write choice=level, such as winglet=mid; foreplane=large (row 3, column D "built_to")`},
		{"past drawn and built to nothing", "parts.csv", "winglet=mid", "‸", `the part is past drawn and does not say to which level of winglet it is built; write winglet=mid or winglet=small or winglet=tall (row 3, column D "built_to")`},
		{"hours below zero", "parts.csv", "220,40", "‸-220,40", `hours_spent = -220 is out of range; write at least 0 and at most 1e+06 (row 2, column E "hours_spent")`},
		{"part twice", "parts.csv", "nose bowl,,drawn", "‸Foreplane Mould,,drawn", `the part "Foreplane Mould" already stands in row 4; give it another name or another side (row 5, column A "part")`},

		{"station out of turn", "shape/wing.csv", "\n2,5550", "\n‸3,5550", `station 3 stands in the place of station 2; number the stations 1, 2, 3 from the inboard end outboard (row 3, column A "station")`},
		{"aerofoil unknown", "shape/wing.csv", "6300,4300,80,wing-15", "6300,4300,80,‸wing-16", `aerofoil "wing-16" is not known; did you mean "wing-15"? (row 3, column H "aerofoil")`},
		{"geometry", "shape/wing.csv", "\n2,5550,4300,60,6300,4300,80", "\n‸2,5550,1300,60,6300,1300,80", `surface "wing": y does not rise from station 1 (1.3 m) to here (1.3 m); order the stations of the right half from the plane of symmetry outboard`},
		{"station head", "shape/wing.csv", "te_z_mm", "‸te_z", `"te_z" does not say its unit; write te_z_mm; units of length are cm, ft, in, m, mm (column G)`},
		{"outline", "shape/thin-12.csv", "0.3,0.0600\n", "0.3,‸a\n", `y "a" is not a number; write digits, such as 310 or 0.31 (row 8, column B "y")`},
		{"allowable that falls back", "shape/spar-allowable.csv", "\n2,14000", "\n‸0,14000", `y = 0 m does not rise; order the rows from the plane of symmetry outboard, each y once (row 3, column A "y_m")`},
		{"empty table", "marks.csv", "flight,start_s,end_s,manoeuvre\nf01,60,72.5,glide\n", "‸\n", `the table is empty; write a line of heads, then one line a row`},
	} {
		t.Run(s.file+" "+s.name, func(t *testing.T) { requireSlip(t, s) })
	}
}

func TestOneMistakeInWhatTheLatticeChapterNeeds(t *testing.T) {
	const polar, body, toml = "shape/fore-polar.csv", "shape/fuselage.csv", "program.toml"
	for _, s := range []slip{
		{"two ways to a section", toml, "[[aerofoil]]\nname = \"tip-12\"\nnaca = \"23012\"", "[[‸aerofoil]]\nname = \"tip-12\"\nnaca = \"23012\"\nmean_line = \"shape/bent.csv\"", `aerofoil "tip-12" needs exactly one of naca, outline and mean_line; write naca = "2412", or outline = "shape/name.csv", or mean_line = "shape/name.csv" with thickness_percent = 12`},
		{"no such section", toml, `"23012"`, `‸"230125"`, `aerofoil "230125": "230125" is not four or five digits; write a name such as 2412 or 23012, or give an outline`},
		{"name of a section empty", toml, `"23012"`, `‸""`, `naca is empty; write naca = "..."`},
		{"section as a number", toml, `"23012"`, `‸23012`, `naca is a number, not text; write naca = "text"`},
		{"mean line without a thickness", toml, "mean_line = \"shape/bent.csv\"\nthickness_percent = 11.5", "mean_line = ‸\"shape/bent.csv\"", `a mean line alone does not say how thick the section is; add thickness_percent = 12, the largest thickness in percent of the chord`},
		{"thickness beside digits", toml, `naca = "23012"`, "naca = \"23012\"\nthickness_percent = ‸12", `thickness_percent stands beside a section that has its own thickness; take it out; it belongs beside mean_line alone`},
		{"thickness as a share", toml, "thickness_percent = 11.5", "thickness_percent = ‸115", `thickness_percent = 115 is out of range; write more than 0 and at most 40 percent`},
		{"mean line not there", toml, `"shape/bent.csv"`, `‸"shape/benn.csv"`, `the file "shape/benn.csv" is not there; put the file there, or correct the path`},
		{"mean line that runs back", "shape/bent.csv", "x,y\n0,0\n0.1,0.0072\n0.2,0.0128\n", "‸x,y\n0,0\n0.2,0.0128\n0.1,0.0072\n", `aerofoil "bent": x does not grow from 0.2 to 0.1 of the chord (point 3 from the leading edge); order the points along the chord, each x once`},
		{"mean line cell", "shape/bent.csv", "0.35,0.0182", "0.35,‸o", `y "o" is not a number; write digits, such as 310 or 0.31 (row 6, column B "y")`},
		{"polar not there", toml, `"shape/fore-polar.csv"`, `‸"shape/polar.csv"`, `the file "shape/polar.csv" is not there; put the file there, or correct the path`},
		{"row twice", polar, "400000,0,clean", "‸1500000,0,clean", `this row repeats row 2: the same reynolds, flap and state; keep one of the two (row 5, column A "reynolds")`},
		{"state unknown", polar, "contaminated", "‸dirty", `state "dirty" is not known; write "clean" or "contaminated" (row 3, column C "state")`},
		{"state empty", polar, ",contaminated,", ",‸,", `state is empty; write "clean" or "contaminated" (row 3, column C "state")`},
		{"no source of a row", polar, "1.31,0.0098,invented", "1.31,0.0098,‸", `source is empty; write where the figures come from, such as "tunnel, own test of 2025" or "common practice, no source" (row 3, column F "source")`},
		{"no column of sources", polar, "reynolds,flap_deg,state,max_lift,profile_drag,source\n1500000,0,clean,1.55,0.0072,invented\n1500000,0,contaminated,1.31,0.0098,invented\n1500000,20,clean,2.05,,invented\n400000,0,clean,1.38,0.0110,invented\n400000,20,clean,1.83,0.0190,invented\n", "‸reynolds,flap_deg,state,max_lift\n1500000,0,clean,1.55\n", `there is no column source; add a column headed source`},
		{"Reynolds number in millions", polar, "400000,0,", "‸0.4,0,", `reynolds = 0.4 is out of range; write at least 1000 and at most 1e+09 (row 5, column A "reynolds")`},
		{"flap in another unit", polar, "1500000,20,", "1500000,‸200,", `flap_deg = 200 is out of range; write at least -60 and at most 60 deg (row 4, column B "flap_deg")`},
		{"lift of nothing", polar, "1.38", "‸0", `max_lift = 0 is out of range; write more than 0 and at most 6 (row 5, column D "max_lift")`},
		{"lift and drag exchanged", polar, "1.55,0.0072", "1.55,‸72", `profile_drag = 72 is out of range; write more than 0 and at most 1 (row 2, column E "profile_drag")`},
		{"polar without rows", polar, "reynolds,flap_deg,state,max_lift,profile_drag,source\n1500000,0,clean,1.55,0.0072,invented\n1500000,0,contaminated,1.31,0.0098,invented\n1500000,20,clean,2.05,,invented\n400000,0,clean,1.38,0.0110,invented\n400000,20,clean,1.83,0.0190,invented\n", "‸reynolds,flap_deg,state,max_lift,source\n", `the polar has no rows; add a row for each Reynolds number, flap angle and state, with its source`},
		{"a pair without a row", polar, "reynolds,flap_deg,state,max_lift,profile_drag,source\n1500000,0,clean,1.55,0.0072,invented\n", "‸reynolds,flap_deg,state,max_lift,profile_drag,source\n", `Reynolds number 1.5e+06 with flap 0° (clean) is missing; a state needs a row for every pair of its Reynolds numbers and flap deflections`},
		{"rows off the grid", polar, "reynolds,flap_deg,state,max_lift,profile_drag,source\n1500000,0,clean,1.55,0.0072,invented\n1500000,0,contaminated,1.31,0.0098,invented\n1500000,20,clean,2.05,,invented\n400000,0,clean,1.38,0.0110,invented\n400000,20,clean,1.83,0.0190,invented\n", "‸reynolds,flap_deg,state,max_lift,profile_drag,source\n400000,0,clean,1.4,,x\n500000,5,clean,1.4,,x\n600000,10,clean,1.4,,x\n700000,15,clean,1.4,,x\n", `the 4 rows that are clean hold 4 Reynolds numbers and 4 flap angles, which make 16 pairs; give a row for every pair, so that values between can be interpolated`},
		{"row twice but for rounding", polar, "400000,0,clean", "‸1500000.0000001,0,clean", `this row repeats row 2: the same reynolds, flap and state; keep one of the two (row 5, column A "reynolds")`},
		{"polar head", polar, "flap_deg", "‸flap", `"flap" does not say its unit; write flap_deg; units of angle are deg, rad (column B)`},

		{"fuselage without a table", toml, "[fuselage]\nstations = \"shape/fuselage.csv\"", "[‸fuselage]", `[fuselage] has no stations; add stations = "..."`},
		{"body that runs back", body, "\n4,5600", "\n4,‸3400", `x = 3.4 m does not rise; order the rows from the nose aft, each x once (row 6, column B "x_mm")`},
		{"cut out of turn", body, "\n4,5600", "\n‸5,5600", `station 5 stands in the place of station 4; number the stations 1, 2, 3 from the nose aft (row 6, column A "station")`},
		{"cut without a width", body, "\n4,5600,350", "\n4,5600,‸0", `the cut has a height and no width; write both, or 0 for both at a pointed end (row 6, column C "width_mm")`},
		{"cut without a height", body, "350,400", "350,‸0", `the cut has a width and no height; write both, or 0 for both at a pointed end (row 6, column D "height_mm")`},
		{"body that vanishes", body, "1000,1150", "‸0,0", `the body vanishes between its ends; write width and height of the cut; 0 stands only at a pointed nose or tail (row 5, column C "width_mm")`},
		{"width below zero", body, "350,400", "‸-350,400", `width_mm = -350 is out of range; write at least 0 and at most 1e+06 mm (row 6, column C "width_mm")`},
		{"one cut", body, "station,x_mm,width_mm,height_mm,z_mm\n1,200,0,0,150\n2,1500,900,950,200\n3,3400,1000,1150,250\n4,5600,350,400,120\n", "‸station,x_mm,width_mm,height_mm,z_mm\n1,200,0,0,150\n", `a fuselage needs two stations or more; add a row for each cut through the body, from the nose aft`},

		{"push-over without its sign", toml, "negative_limit_load_factor = -1.9", "negative_limit_load_factor = ‸1.9", `negative_limit_load_factor = 1.9 is not negative; write the load factor of a push-over with its sign, such as -1.9`},
		{"push-over of nothing", toml, "negative_limit_load_factor = -1.9", "negative_limit_load_factor = ‸0", `negative_limit_load_factor = 0 is not negative; write the load factor of a push-over with its sign, such as -1.9`},
		{"dive below the cruise", toml, "dive_speed_kt = 165", "dive_speed_kt = ‸106", `the dive speed of 106 kt lies below the cruise, which is 111.5 kt of equivalent airspeed; write the design dive speed, an equivalent airspeed above the cruise`},
		{"manoeuvring above the dive", toml, "manoeuvre_speed_kt = 105", "manoeuvre_speed_kt = ‸165", `the manoeuvre speed of 165 kt is not below the dive speed of 165 kt; write the speed up to which full control travel is allowed, an equivalent airspeed`},
		{"gust at no speed", toml, "dive_speed_kt = 165\ngust_cruise_m_s = 15\ngust_dive_ft_s = 25", "gust_dive_ft_s = ‸25", `a gust at the dive speed is stated and the dive speed is not; add dive_speed_kt, an equivalent airspeed`},
		{"gust of a storm", toml, "gust_dive_ft_s = 25", "gust_dive_ft_s = ‸250", `gust_dive_ft_s = 250 is out of range; write more than 0 and at most 131.234 ft_s`},

		{"surface without a mass", toml, "mass_kg = 95\nmass_sd_kg = 8", "mass_sd_kg = ‸8", `surface "wing" states mass_sd without mass; add mass_kg, the structure of both halves together`},
		{"surface of no mass", toml, "mass_kg = 95", "mass_kg = ‸0", `mass_kg = 0 is out of range; write more than 0 and at most 100000 kg`},
		{"doubt in percent", toml, "effectiveness_sd = 0.1", "effectiveness_sd = ‸10", `effectiveness_sd = 10 is out of range; write at least 0 and at most 0.5`},
		{"tank without an end", toml, "span_from_m = 0.4, span_to_m = 1.2", "span_from_m = ‸0.4", `"fuel" states span_from without span_to; add span_to_m, the outboard end of the tank`},
		{"tank without a beginning", toml, "span_from_m = 0.4, span_to_m = 1.2", "span_to_m = ‸1.2", `"fuel" states span_to without span_from; add span_from_m, the inboard end of the tank; 0 is the plane of symmetry`},
		{"tank turned round", toml, "span_from_m = 0.4, span_to_m = 1.2", "span_from_m = 1.2, span_to_m = ‸0.4", `"fuel" ends 0.4 m from the plane of symmetry and begins at 1.2 m; write the inboard end as span_from and the outboard end as span_to`},
		{"tank on one side", toml, "z_m = 0.0, span_from_m", "y_m = ‸0.8, z_m = 0.0, span_from_m", `"fuel" lies on both sides and has y = 0.8 m; leave y out, or state y alone for a load on one side`},
		{"tank on the left", toml, "span_from_m = 0.4", "span_from_m = ‸-0.4", `span_from_m = -0.4 is out of range; write at least 0 and at most 1000 m`},
	} {
		t.Run(s.file+" "+s.name, func(t *testing.T) { requireSlipIn(t, furnished(t), s) })
	}
}

func TestOneMistakeInTheDecisions(t *testing.T) {
	const heads = "number,event,date,choice,level,who,why,inputs_sha256,previous_sha256\n"
	for _, c := range []struct{ name, row, want string }{
		{"event", "1,‸setle,2026-03-20,winglet,mid,ab,so,,", `event "setle" is not known; did you mean "settle"? (row 2, column B "event")`},
		{"choice", "1,settle,2026-03-20,‸wings,mid,ab,so,,", `there is no choice "wings"; write "winglet" or "foreplane"; put it back into program.toml, or void row number 1: wingproof settle --void 1 --who NAME --why REASON (row 2, column D "choice")`},
		{"level", "1,settle,2026-03-20,winglet,‸huge,ab,so,,", `choice winglet has no level "huge"; write "mid", "small" or "tall"; put it back into program.toml, or void row number 1: wingproof settle --void 1 --who NAME --why REASON (row 2, column E "level")`},
		{"nobody", "1,settle,2026-03-20,winglet,mid,‸,so,,", `who is empty; write who decided (row 2, column F "who")`},
		{"number", "‸one,settle,2026-03-20,winglet,mid,ab,so,,", `number "one" is not a number; write digits, such as 310 or 0.31 (row 2, column A "number")`},
		{"digest", "1,settle,2026-03-20,winglet,mid,ab,so,‸12ab,", `"12ab" is no SHA-256 digest; leave this cell as settle wrote it: 64 digits from 0 to 9 and a to f (row 2, column H "inputs_sha256")`},
		{"void", "1,void,2026-03-20,‸1,,ab,so,,", `void names "1", which is no earlier row; write the number of the row that is void (row 2, column D "choice")`},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := sandreed()
			text := heads + c.row + "\n"
			files["decisions.csv"] = strings.Replace(text, pointer, "", 1)
			_, err := Load(build(t, files))
			require.EqualError(t, err, place(t, "decisions.csv", text)+c.want)
		})
	}
}

// A level that left the discussion may stay in the history, once its row is void.
func TestAVoidRowMayNameWhatIsGone(t *testing.T) {
	files := sandreed()
	files["decisions.csv"] = "number,event,date,choice,level,who,why,inputs_sha256,previous_sha256\n1,settle,2026-03-20,winglet,huge,ab,so,,\n"
	dir := build(t, files)
	_, err := Load(dir)
	require.ErrorContains(t, err, "void row number 1")
	p, err := LoadToVoid(dir, 1)
	require.NoError(t, err, "the way to make it void")
	require.Len(t, p.Decisions, 1)
	_, err = Settle(dir, Decision{Event: "void", Date: "2026-03-21", Choice: "1", Who: "ab", Why: "huge is off the table"})
	require.NoError(t, err)
	p, err = Load(dir)
	require.NoError(t, err)
	require.Empty(t, p.Alarms)
}

func TestAllMistakesAtOnceInOrder(t *testing.T) {
	files := sandreed()
	change(t, files, "program.toml", "length_ratio = 0.25", "length_ratio = 0.25\ncolour = 1")
	change(t, files, "program.toml", "sd_percent = 5", "sd = 5")
	change(t, files, "parts.csv", "none,aft margin", "none,fore margin")
	change(t, files, "flights.csv", "field-box,small", "field-box,tiny")
	change(t, files, "flights.csv", "2026-03-14", "yesterday")
	change(t, files, "shape/wing.csv", "5550,4300", "wide,4300")
	before, _, found := strings.Cut(files["program.toml"], "\nsd = 5\n")
	require.True(t, found)
	line := strings.Count(before, "\n") + 2
	_, err := Load(build(t, files))
	var mistakes Mistakes
	require.True(t, errors.As(err, &mistakes))
	var places []string
	for _, m := range mistakes {
		places = append(places, fmt.Sprintf("%s:%d", m.File, m.Line))
	}
	require.Equal(t, []string{"flights.csv:2", "flights.csv:3", "parts.csv:2", "program.toml:9", fmt.Sprintf("program.toml:%d", line), "shape/wing.csv:3"}, places)
	require.Len(t, strings.Split(err.Error(), "\n"), len(mistakes))
}

func TestSeveralSlipsOfSyntaxAtOnce(t *testing.T) {
	files := sandreed()
	change(t, files, "program.toml", "seed = 7", "seed = 0,5")
	change(t, files, "program.toml", `role = "strake"`, `role = strake`)
	_, err := Load(build(t, files))
	var mistakes Mistakes
	require.True(t, errors.As(err, &mistakes))
	require.Len(t, mistakes, 2)
}

func TestLimitsThatCannotBeComputedAreToldWhatTheyNeed(t *testing.T) {
	files := sandreed()
	change(t, files, "program.toml", "[gear]\nnose_x_m = 1.1\nmain_x_m = 4.6\ntrack_m = 2.2\nground_z_m = -1.1\n", "")
	_, err := Load(build(t, files))
	require.ErrorContains(t, err, `limit "tip-back" on tip_back_angle needs to know where the wheels stand; add [gear] with nose_x_m, main_x_m, track_m and ground_z_m`)
}

func TestNoProgramFile(t *testing.T) {
	_, err := Load(t.TempDir())
	require.ErrorContains(t, err, "begin a program folder with: wingproof new DIR")
}
