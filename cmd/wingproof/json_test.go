package main

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// document runs a command with --json and reads its one JSON document.
func document(t *testing.T, args ...string) map[string]any {
	t.Helper()
	got := wingproof(append(args, "--json")...)
	require.Zero(t, got.status, got.err)
	decoder := json.NewDecoder(strings.NewReader(got.stdout))
	var doc map[string]any
	require.NoError(t, decoder.Decode(&doc), "%v", args)
	require.ErrorIs(t, decoder.Decode(new(any)), io.EOF, "%v prints more than one document", args)
	return doc
}

// keyForm is how every key of a document is written.
var keyForm = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)

// requireKeys checks the form of all keys, but for those that are the user's own names.
func requireKeys(t *testing.T, path string, value any) {
	t.Helper()
	switch v := value.(type) {
	case map[string]any:
		for key, inner := range v {
			if slices.Contains([]string{"levels", "built_to", "common"}, filepath.Base(path)) {
				continue
			}
			require.Regexp(t, keyForm, key, path)
			requireKeys(t, path+"/"+key, inner)
		}
	case []any:
		for _, inner := range v {
			requireKeys(t, path, inner)
		}
	}
}

// Every command that reads the folder answers with one document whose keys are words.
func TestEachCommandPrintsOneDocument(t *testing.T) {
	dir := t.TempDir()
	warmSeason(t, dir, "F01", "F03")
	for _, args := range [][]string{
		{"check"}, {"scale"}, {"lattice"}, {"lattice", "--span-load"}, {"lattice", "--sweep", "winglet.height_m=0.8:1.2:2"}, {"compare", "winglet"}, {"reduce"}, {"fit"}, {"margin"}, {"parts"}, {"next"}, {"plan"}, {"rehearse", "--manoeuvres", "glide", "--cg-mm", "920"}, {"report"},
		{"look", filepath.Join(dir, "logs", "F10.csv"), "--logger", "spare-box"},
		{"settle", "flutter_and_mass_balance", "--signoff", "--who", "S. I.", "--why", "report 12"},
	} {
		doc := document(t, append(args, "--program", dir)...)
		require.NotEmpty(t, doc, "%v", args)
		requireKeys(t, args[0], doc)
	}
	requireKeys(t, "new", document(t, "new", filepath.Join(t.TempDir(), "mine")))
}

// The board is what other programs of the shop read: each part of parts.csv once, in its order, with a
// status, an action that goes with it, and a reason.
func TestPartsDocument(t *testing.T) {
	dir := demoFolder(t)
	doc := document(t, "parts", "--program", dir)
	rows := doc["parts"].([]any)
	require.Equal(t, partNames(t, dir), columnOf(rows, "part"))
	actions := map[string][]string{"frozen": {"start", "carry on", "done"}, "pending": {"wait", "stop and ask"}}
	for _, r := range rows {
		row := r.(map[string]any)
		require.Contains(t, []any{"drawn", "plug", "mould", "laid_up", "fitted"}, row["stage"])
		require.Contains(t, actions, row["status"])
		require.Contains(t, actions[row["status"].(string)], row["action"], "%v", row["part"])
		require.NotEmpty(t, row["reasons"], "%v", row["part"])
		for _, reason := range row["reasons"].([]any) {
			require.NotEmpty(t, strings.TrimSpace(reason.(string)), "%v", row["part"])
		}
		require.Equal(t, row["status"] == "pending", row["clears"] != "", "%v: what would clear it belongs to pending parts", row["part"])
		require.Equal(t, row["action"] == "start" || row["action"] == "carry on", row["next"] != "", "%v: the next operation", row["part"])
	}
	for _, list := range []string{"alarms", "choices", "levels", "left_out", "not_judged_here"} {
		require.IsType(t, []any{}, doc[list], "%s is a list", list)
	}
	require.Contains(t, columnOf(doc["left_out"].([]any), "flight"), "F07")
	require.Regexp(t, `^\d{4}-\d{2}-\d{2}$`, doc["date"])
	for _, level := range doc["levels"].([]any) {
		require.Contains(t, []any{"out", "good", "unproven"}, level.(map[string]any)["state"])
	}
}

func partNames(t *testing.T, dir string) []any {
	t.Helper()
	f, err := os.Open(filepath.Join(dir, "parts.csv"))
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var names []any
	for _, row := range rows[1:] {
		names = append(names, row[0])
	}
	return names
}

func columnOf(rows []any, key string) []any {
	var out []any
	for _, row := range rows {
		out = append(out, row.(map[string]any)[key])
	}
	return out
}

// The fields of an estimate, all there in every row, null where they do not apply.
var estimateFields = []string{"configuration", "levels", "quantity", "unit", "scale", "axes", "power", "at", "origin", "state", "value", "sd",
	"sd_own", "common", "low", "high", "set", "method", "flights", "points", "warnings"}

var atFields = []string{"cg_m", "cg_percent", "lift_coefficient", "load_factor", "speed_m_s", "reynolds"}

// The names of quantities with the units that go with them; the empty unit is a plain number.
var quantityUnits = map[string]string{
	"lift_curve_slope": "1/rad", "trimmed_lift_curve_slope": "1/rad", "zero_lift_alpha": "rad", "max_lift_coefficient": "", "stall_alpha": "rad",
	"zero_lift_drag": "1", "drag_due_to_lift": "1", "span_efficiency": "1", "neutral_point": "m", "neutral_point_percent": "%", "static_margin": "%",
	"elevator_per_lift": "rad", "pitch_stiffness": "1/rad", "pitch_damping": "1/rad", "elevator_power": "1/rad", "elevator_lift": "1/rad",
	"pitch_by_alpha_rate": "1/rad",
	"side_force_slope":    "1/rad", "dihedral_effect": "1/rad", "directional_stiffness": "1/rad", "roll_damping": "1/rad", "yaw_damping": "1/rad",
	"yaw_due_to_roll": "1/rad", "roll_due_to_yaw": "1/rad", "aileron_power": "1/rad", "rudder_power": "1/rad", "short_period_frequency": "rad/s",
	"short_period_damping": "", "dutch_roll_frequency": "rad/s", "dutch_roll_damping": "", "phugoid_frequency": "rad/s", "phugoid_damping": "",
	"roll_time_constant": "s", "spiral_time_to_double": "s", "stall_order_margin": "rad", "root_bending_moment": "N·m", "induced_drag": "1",
	"airspeed_scale": "", "wind_speed": "m/s",
	"manoeuvre_point": "m", "elevator_per_g": "rad", "rudder_per_sideslip": "1", "aileron_per_sideslip": "1", "side_force_per_sideslip": "1", "bank_per_sideslip": "1",
	"side_force_by_roll_rate": "1/rad", "side_force_by_yaw_rate": "1/rad", "side_force_by_aileron": "1/rad", "side_force_by_rudder": "1/rad",
	"roll_by_rudder": "1/rad", "yaw_by_aileron": "1/rad", "spiral_root": "1/s",
	// dδe/dCL over the CG, the slope whose zero is the neutral point
	"elevator_trim_rate": "rad/m",
	// the state that the lattice finds, and what only theory gives
	"alpha": "rad", "trim_elevator": "rad", "lift_coefficient": "1", "pitching_moment": "1", "lift_by_pitch_rate": "1/rad", "best_span_efficiency": "1",
	"elevator_hinge_moment": "1", "elevator_hinge_moment_by_alpha": "1/rad", "elevator_hinge_moment_by_deflection": "1/rad",
}

func TestEstimateDocuments(t *testing.T) {
	dir := demoFolder(t)
	origins := map[string][]any{
		"fit": {"measured"}, "lattice": {"predicted"}, "margin": {"measured", "predicted", "anchored"},
	}
	estimates := map[string][]any{}
	for command, allowed := range origins {
		rows := document(t, command, "--program", dir)["estimates"].([]any)
		estimates[command] = rows
		require.NotEmpty(t, rows, command)
		for _, origin := range allowed {
			require.Contains(t, columnOf(rows, "origin"), origin, command)
		}
		for _, r := range rows {
			row := r.(map[string]any)
			require.Contains(t, allowed, row["origin"], command)
			requireEstimate(t, row)
		}
	}
	requireMarginsFollow(t, estimates["fit"], estimates["margin"])
}

func requireEstimate(t *testing.T, row map[string]any) {
	t.Helper()
	name := row["configuration"].(string) + ": " + row["quantity"].(string)
	require.Equal(t, sortedKeysOf(estimateFields), keysOf(row), name)
	require.Equal(t, sortedKeysOf(atFields), keysOf(row["at"].(map[string]any)), name)
	unit, known := quantityUnits[row["quantity"].(string)]
	require.True(t, known, "%s is no name of a quantity", name)
	if unit != "" {
		require.Equal(t, unit, row["unit"], name)
	}
	require.Contains(t, []any{"model", "full_size"}, row["scale"], name)
	require.Contains(t, []any{"idle", "level", "full", nil}, row["power"], name)
	require.Contains(t, []any{"determined", "weak", "not_determined"}, row["state"], name)
	require.Contains(t, []any{"interval", "outside", "all", nil}, row["set"], name)
	require.IsType(t, []any{}, row["flights"], name)
	require.IsType(t, []any{}, row["warnings"], name)
	if row["origin"] == "measured" && row["state"] != "not_determined" {
		require.NotEmpty(t, row["flights"], name)
	}
	requireSpread(t, name, row)
}

// requireSpread checks the numbers of an estimate against each other.
func requireSpread(t *testing.T, name string, row map[string]any) {
	t.Helper()
	if row["state"] == "determined" {
		require.NotNil(t, row["value"], name)
	}
	if row["sd"] != nil {
		sum := math.Pow(row["sd_own"].(float64), 2)
		common, _ := row["common"].(map[string]any)
		for _, part := range common {
			sum += math.Pow(part.(float64), 2)
		}
		sd := row["sd"].(float64)
		require.GreaterOrEqual(t, sd, 0.0, name)
		require.InDelta(t, 1, sum/(sd*sd), 1e-9, "%s: sd² = sd_own² + Σ common²", name)
	}
	if row["set"] == "interval" && row["low"] != nil && row["high"] != nil {
		require.LessOrEqual(t, row["low"], row["value"], name)
		require.LessOrEqual(t, row["value"], row["high"], name)
		require.Less(t, row["low"], row["high"], name)
	}
	if row["set"] == nil {
		require.Nil(t, row["low"], name)
		require.Nil(t, row["high"], name)
	}
}

func keysOf(m map[string]any) []string {
	var keys []string
	for key := range m {
		keys = append(keys, key)
	}
	return sortedKeysOf(keys)
}

func sortedKeysOf(keys []string) []string {
	keys = slices.Clone(keys)
	slices.Sort(keys)
	return keys
}

// requireMarginsFollow checks that static margin and neutral point are one matter: at a CG,
// margin = 100·(x_NP − x_CG)/chord.
func requireMarginsFollow(t *testing.T, fits, margins []any) {
	t.Helper()
	neutral := map[any]float64{}
	for _, r := range fits {
		if row := r.(map[string]any); row["quantity"] == "neutral_point" && row["value"] != nil && strings.HasPrefix(row["method"].(string), "trims over CGs") {
			neutral[row["configuration"]] = row["value"].(float64)
		}
	}
	var chords []float64 // what each margin makes of the chord
	for _, r := range margins {
		row := r.(map[string]any)
		x, flown := neutral[row["configuration"]]
		if row["origin"] != "measured" || !flown || row["value"] == nil {
			continue
		}
		cg := row["at"].(map[string]any)["cg_m"].(float64)
		chords = append(chords, 100*(x-cg)/row["value"].(float64))
	}
	require.Greater(t, len(chords), 5)
	for _, chord := range chords {
		require.InDelta(t, chords[0], chord, 1e-9)
	}
}
