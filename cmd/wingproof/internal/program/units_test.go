package program

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// everything is the sound folder with every further number that a folder may hold.
func everything(t *testing.T) map[string]string {
	t.Helper()
	files := furnished(t)
	change(t, files, "program.toml", "alpha_deg = 0.5", "alpha_deg = 0.5\ndensity_percent = 0.4\nelevator_deg = 0.3\nelevator_scale_percent = 2\nvertical_air_m_s = 0.3")
	files["program.toml"] += "\n[[model.bay]]\nname = \"nose\"\nx_mm = 120\nz_mm = 20\nmost_kg = 1\n[[model.bay]]\nname = \"wing\"\nx_from_mm = 1010\nx_to_in = 41\ny_mm = 400\nz_mm = 5\nmost_g = 250\n"
	figure := `_kg_m2 = { value = 900, sd = 90, status = "estimated", source = "drawing weights" }` + "\n"
	change(t, files, "program.toml", "\nlimit_load_factor = 3.8", "\nlimit_load_factor = 3.8\nix"+figure+"iy"+figure+"iz"+figure+"ixz"+figure)
	change(t, files, "program.toml", "span_m = 8.6", "span_m = 8.6\narea_m2 = 12.6\nmean_aerodynamic_chord_m = 1.71\nmean_aerodynamic_chord_leading_edge_x_m = 4.05")
	change(t, files, "program.toml", "height_m = 0.88", "height_m = 0.88, toe_deg = 1, cant_deg = 5")
	change(t, files, "program.toml", "span_m = 3.75, chord_scale = 1.07", "span_m = 3.75, chord_scale = 1.07, incidence_deg = 2, move_x_m = 0.1, move_z_m = 0.05")
	change(t, files, "program.toml", "x_m = 2.9, z_m = 0.1", "x_m = 2.9, y_m = 0, z_m = 0.1")
	change(t, files, "program.toml", "at_least_percent = 5", "at_least_percent = 5\nat_most_percent = 25")
	change(t, files, "program.toml", "at_least_deg = 15", "at_least_deg = 15\nat_most_deg = 40")
	change(t, files, "program.toml", "sign = -1", "sign = -1, scale = 1.01, offset = 0.2, delay_ms = 40")
	change(t, files, "program.toml", "[logger.field-box]", "[logger.field-box]\nsensors = { inertial = { x_mm = 905, y_mm = 0, z_in = 1.6 }, tube = { x_mm = 60, y_mm = 400, z_mm = 0 } }")
	files["flights.csv"] = "flight,date,log,logger,winglet,foreplane,weighing,mass_kg,mass_sd_kg,cg_mm,cg_sd_mm,pressure_hpa,temperature_c,use\n" +
		"f01,2026-03-14,logs/f01.csv,field-box,mid,standard,w1,15.1,0.02,940,1.5,1013,8,yes\n"
	files["cards.csv"] = "card,manoeuvre,speed_m_s,speed_tolerance_percent,bank_deg,repeats\nslow turn,turn,18,8,30,2\n"
	files["decisions.csv"] = strings.Join(decisionHeads(), ",") + "\n1,settle,2026-03-19,winglet,mid,ab,so,,\n"
	return files
}

// plainNumbers are the keys and heads of numbers without a dimension. hours_spent and hours_left carry
// their unit in front; offset is in the unit that stands beside it; value and sd are in the unit of the
// key that holds them.
func plainNumbers() []string {
	return []string{"format", "seed", "length_ratio", "limit_load_factor", "from_station", "to_station", "effectiveness", "chord_scale",
		"knock_down", "negative_limit_load_factor", "effectiveness_sd", "reynolds", "max_lift", "profile_drag", "sign", "scale", "offset", "value", "sd", "calibration",
		"number", "station", "repeats", "hours_spent", "hours_left", "x", "y"}
}

type numberKey struct {
	name string
	at   spot
}

// numberKeys walks program.toml for every key that holds a number, a list of numbers, or a table of numbers
// in its own unit.
func numberKeys(v *value, inherited bool) []numberKey {
	var out []numberKey
	for _, k := range v.keys {
		holds := k.value.form == numberForm || k.value.form == listForm && len(k.value.list) > 0 && (k.value.list[0].form == numberForm || k.value.list[0].form == listForm)
		figure := k.value.form == groupForm && k.value.get("value") != nil
		shares := strings.HasSuffix(k.name, "_percent") && k.value.form == groupForm
		if (holds || figure || shares) && !inherited {
			out = append(out, numberKey{k.name, k.at})
		}
		out = append(out, numberKeys(k.value, figure || shares)...)
	}
	for _, item := range v.list {
		out = append(out, numberKeys(item, inherited)...)
	}
	return out
}

func suffixOf(name string) (stem string, ok bool) {
	for i := strings.IndexByte(name, '_'); i >= 0; {
		if isUnit(name[i+1:]) {
			return name[:i], true
		}
		next := strings.IndexByte(name[i+1:], '_')
		if next < 0 {
			break
		}
		i += next + 1
	}
	return "", false
}

// Every key of a dimensioned number carries a unit, and without it the folder is refused at that key.
func TestEveryDimensionedKeyNeedsItsUnit(t *testing.T) {
	files := everything(t)
	_, err := Load(build(t, files))
	require.NoError(t, err)
	root, ok := parseTOML([]byte(files["program.toml"]), func(spot, string, string) {})
	require.True(t, ok)
	dimensioned := map[string]bool{}
	for _, k := range numberKeys(root, false) {
		stem, hasUnit := suffixOf(k.name)
		if !hasUnit {
			require.Contains(t, plainNumbers(), k.name, "line %d: a number without a unit", k.at.line)
			continue
		}
		dimensioned[k.name] = true
		lines := strings.Split(files["program.toml"], "\n")
		line := lines[k.at.line-1]
		require.True(t, strings.HasPrefix(line[k.at.column-1:], k.name))
		lines[k.at.line-1] = line[:k.at.column-1] + stem + line[k.at.column-1+len(k.name):]
		bare := map[string]string{}
		for name, text := range files {
			bare[name] = text
		}
		bare["program.toml"] = strings.Join(lines, "\n")
		_, err := Load(build(t, bare))
		require.ErrorContains(t, err, fmt.Sprintf("program.toml:%d:%d: ", k.at.line, k.at.column), k.name)
	}
	require.GreaterOrEqual(t, len(dimensioned), 53)
}

// Every head of a dimensioned number carries a unit, and without it the table is refused at that head.
func TestEveryDimensionedHeadNeedsItsUnit(t *testing.T) {
	files := everything(t)
	heads := 0
	for name, text := range files {
		if !strings.HasSuffix(name, ".csv") {
			continue
		}
		lines := strings.Split(text, "\n")
		at := 0
		if strings.HasPrefix(lines[0], "#") {
			at = 1
		}
		cells := strings.Split(lines[at], ",")
		for i, head := range cells {
			stem, hasUnit := suffixOf(head)
			if !hasUnit {
				for _, row := range lines[at+1:] {
					if c := strings.Split(row, ","); i < len(c) && looksNumber(c[i]) {
						require.Contains(t, plainNumbers(), head, "%s: numbers without a unit", name)
					}
				}
				continue
			}
			heads++
			bare := map[string]string{}
			for n, text := range files {
				bare[n] = text
			}
			fresh := append([]string(nil), cells...)
			fresh[i] = stem
			bare[name] = strings.Join(append(append(append([]string(nil), lines[:at]...), strings.Join(fresh, ",")), lines[at+1:]...), "\n")
			column := len(strings.Join(cells[:i], ","))
			if i > 0 {
				column++
			}
			_, err := Load(build(t, bare))
			require.ErrorContains(t, err, fmt.Sprintf("%s:%d:%d: ", name, at+1, column+1), head)
		}
	}
	require.GreaterOrEqual(t, heads, 50)
}

func looksNumber(text string) bool {
	_, right := (&table{dialect: dialect{separator: ','}}).parseNumber(text)
	return text != "" && right == ""
}
