package main

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
)

// latticeFolder is a folder of two flights with the winglet as its one choice.
func latticeFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	warmSeason(t, dir, "F01", "F03")
	return dir
}

// columns reads what a command prints with --csv: a map for each row.
func columns(t *testing.T, args ...string) []map[string]string {
	t.Helper()
	got := wingproof(append(args, "--csv")...)
	require.Zero(t, got.status, got.err)
	rows, err := csv.NewReader(strings.NewReader(got.stdout)).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		one := map[string]string{}
		for i, head := range rows[0] {
			require.NotContains(t, one, head, "one head twice")
			require.Regexp(t, `^[a-z0-9_.]+$`, head)
			one[head] = row[i]
		}
		out = append(out, one)
	}
	require.NotEmpty(t, out)
	return out
}

func numberIn(t *testing.T, row map[string]string, head string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(row[head], 64)
	require.NoError(t, err, head)
	return v
}

// valueOf finds a quantity of a configuration among estimates.
func valueOf(t *testing.T, estimates []any, configuration, quantity string) map[string]any {
	t.Helper()
	for _, e := range estimates {
		if row := e.(map[string]any); row["configuration"] == configuration && row["quantity"] == quantity {
			return row
		}
	}
	require.Failf(t, "no estimate", "%s of %s", quantity, configuration)
	return nil
}

// Table and document hold one and the same: the error of the grid in a column of its own here, half of it as a shared source
// there.
func TestGridErrorInTableAndDocument(t *testing.T) {
	dir := latticeFolder(t)
	rows := columns(t, "lattice", "--program", dir)
	doc := document(t, "lattice", "--program", dir)
	require.Len(t, rows, 3)
	condition := doc["condition"].(map[string]any)
	for i, row := range rows {
		for quantity, head := range map[string][2]string{
			"neutral_point":    {"neutral_point_m", "neutral_point_grid_error_m"},
			"lift_curve_slope": {"lift_curve_slope_per_rad", "lift_curve_slope_grid_error_per_rad"},
			"induced_drag":     {"induced_drag", "induced_drag_grid_error"},
		} {
			e := valueOf(t, doc["estimates"].([]any), row["configuration"], quantity)
			value, grid := numberIn(t, row, head[0]), numberIn(t, row, head[1])
			require.InEpsilon(t, e["value"].(float64), value, 1e-8)
			require.Positive(t, grid)
			require.InEpsilon(t, e["common"].(map[string]any)["lattice grid of "+quantity].(float64), grid/2, 1e-8)
			require.Contains(t, e["method"], "grid error")
			if quantity == "induced_drag" { // no error of theory is stated for it: that of the grid alone is no interval
				require.Nil(t, e["sd"])
				require.Nil(t, e["low"])
			}
		}
		require.InEpsilon(t, condition["moment_point_x_m"].(float64), numberIn(t, row, "moment_point_x_m"), 1e-8)
		require.Equal(t, condition["panels"].([]any)[i].(float64), numberIn(t, row, "panels"))
		require.Equal(t, "body", row["wake"])
		require.InDelta(t, 0, numberIn(t, row, "pitching_moment"), 0, "trimmed")
	}
}

// A sweep of the winglet's height passes through its levels: two roads to one airframe, within the error of the grid.
func TestSweepMeetsTheLevels(t *testing.T) {
	dir := latticeFolder(t)
	levels := map[string]map[string]string{}
	for _, row := range columns(t, "lattice", "--program", dir) {
		levels[row["configuration"]] = row
	}
	sweep := columns(t, "lattice", "--sweep", "winglet.height_m=0.75:1.5:4", "--program", dir)
	require.Len(t, sweep, 5) // the baseline of 0.95 m among them
	require.Equal(t, []string{"0.75", "0.95", "1", "1.25", "1.5"}, []string{sweep[0]["winglet.height_m"], sweep[1]["winglet.height_m"], sweep[2]["winglet.height_m"], sweep[3]["winglet.height_m"], sweep[4]["winglet.height_m"]})
	for i, level := range map[int]string{0: "winglet=small", 1: "winglet=mid", 4: "winglet=tall"} {
		for _, q := range [][2]string{{"neutral_point_m", "neutral_point_grid_error_m"}, {"induced_drag", "induced_drag_grid_error"}, {"directional_stiffness_per_rad", "directional_stiffness_grid_error_per_rad"}} {
			require.InDelta(t, numberIn(t, levels[level], q[0]), numberIn(t, sweep[i], q[0]), numberIn(t, sweep[i], q[1]), "%s %s", level, q[0])
		}
	}
	require.Equal(t, []string{"no", "yes", "no"}, []string{sweep[0]["baseline"], sweep[1]["baseline"], sweep[2]["baseline"]})
	require.Empty(t, sweep[2]["neutral_point_grid_error_m"], "between the ends no error is estimated")
	for i := range sweep[1:] {
		require.Less(t, numberIn(t, sweep[i+1], "induced_drag"), numberIn(t, sweep[i], "induced_drag"), "more winglet, less induced drag")
	}
}

// Two sizes make a grid with the first one slowest.
func TestSweepOfTwoSizes(t *testing.T) {
	dir := latticeFolder(t)
	rows := columns(t, "lattice", "--sweep", "winglet.height_m=0.8:1.2:2", "--sweep", "foreplane.span_m=3.3:3.6:2", "--program", dir)
	var sizes []string
	for _, row := range rows {
		sizes = append(sizes, row["winglet.height_m"]+"/"+row["foreplane.span_m"])
	}
	require.Equal(t, []string{"0.8/3.3", "0.8/3.6", "1.2/3.3", "1.2/3.6", "0.95/3.6"}, sizes)
	require.Equal(t, "yes", rows[4]["baseline"])
	doc := document(t, "lattice", "--sweep", "winglet.height_m=0.8:1.2:2", "--program", dir)
	require.Len(t, doc["points"], 3)
	first := doc["points"].([]any)[0].(map[string]any)
	require.Equal(t, []any{map[string]any{"size": "winglet.height_m", "value": 0.8}}, first["sizes"])
}

// Ground far below is free air with the wakes along the stream.
func TestGroundFarBelowIsFreeAir(t *testing.T) {
	dir := latticeFolder(t)
	ask := func(args ...string) map[string]string {
		return columns(t, append([]string{"lattice", "--configuration", "winglet=mid", "--no-grid-error", "--program", dir}, args...)...)[0]
	}
	free, far, near := ask("--wake", "stream"), ask("--ground-mm", "500000"), ask("--ground-mm", "1000")
	for _, head := range []string{"neutral_point_m", "induced_drag", "trim_elevator_rad", "directional_stiffness_per_rad"} {
		require.InEpsilon(t, numberIn(t, free, head), numberIn(t, far, head), 2e-4, head)
	}
	require.Less(t, numberIn(t, near, "induced_drag"), 0.8*numberIn(t, free, "induced_drag"))
	require.Equal(t, []string{"stream", "ground"}, []string{free["wake"], near["wake"]})
	require.Empty(t, free["induced_drag_grid_error"])
}

// The condition asked for is the condition that is stated and reached.
func TestLatticeTakesTheConditionAskedFor(t *testing.T) {
	dir := latticeFolder(t)
	ask := func(args ...string) map[string]string {
		return columns(t, append([]string{"lattice", "--configuration", " Winglet = TALL ", "--no-grid-error", "--program", dir}, args...)...)[0]
	}
	row := ask("--alpha-deg", "3", "--cg-mm", "4030", "--cg-z-mm", "200", "--mach", "0.3", "--density", "0.5")
	require.Equal(t, "winglet=tall", row["configuration"])
	require.InDelta(t, 3*math.Pi/180, numberIn(t, row, "alpha_rad"), 1e-9)
	require.Equal(t, []string{"4.03", "0.2", "0.3", "0.5", "no"}, []string{row["moment_point_x_m"], row["moment_point_z_m"], row["mach"], row["density"], row["trimmed"]})
	require.NotContains(t, row, "directional_stiffness_aftmost_loading_per_rad", "one moment point for all when it is asked for")

	row = ask("--lift", "0.8", "--untrimmed")
	require.InDelta(t, 0.8, numberIn(t, row, "lift_coefficient"), 1e-9)
	require.NotZero(t, numberIn(t, row, "pitching_moment"))
	require.InDelta(t, 0, numberIn(t, ask("--lift", "0"), "lift_coefficient"), 0)
}

// Strips add up to the lift of the condition: near-field load along the span against the whole aircraft.
func TestSpanLoadAddsUp(t *testing.T) {
	dir := latticeFolder(t)
	rows := columns(t, "lattice", "--span-load", "--configuration", "winglet=mid", "--lift", "0.6", "--program", dir)
	sum := 0.0
	for _, row := range rows {
		if row["surface"] != "winglet" {
			sum += 2 * numberIn(t, row, "section_lift_coefficient") * numberIn(t, row, "chord_m") * numberIn(t, row, "width_m")
		}
	}
	require.InEpsilon(t, 0.6, sum/numberIn(t, rows[0], "reference_area_m2"), 0.01, "circulation lift against near-field lift, cosines left out")
	doc := document(t, "lattice", "--span-load", "--configuration", "winglet=mid", "--program", dir)
	require.Len(t, doc["span_loads"].([]any)[0].(map[string]any)["strips"], len(rows))
}

// Differences are those of the values, with an error below that of either; the document and the table agree.
func TestCompareDocument(t *testing.T) {
	dir := latticeFolder(t)
	doc := document(t, "compare", "winglet", "--program", dir)
	require.Equal(t, "mid", doc["baseline"])
	levels := doc["compared"].([]any)
	require.Equal(t, []any{"mid", "small", "tall"}, columnOf(levels, "level"))
	base := levels[0].(map[string]any)["quantities"].([]any)
	for _, l := range levels[1:] {
		for i, q := range l.(map[string]any)["quantities"].([]any) {
			own, first := q.(map[string]any), base[i].(map[string]any)
			require.Equal(t, first["quantity"], own["quantity"])
			require.Nil(t, first["difference"])
			difference := own["value"].(float64) - first["value"].(float64)
			require.InDelta(t, difference, own["difference"], 1e-9*(1+math.Abs(own["value"].(float64))), own["quantity"])
			require.LessOrEqual(t, own["difference_grid_error"], own["grid_error"].(float64)+first["grid_error"].(float64)+1e-12, own["quantity"])
			if own["difference_low"] != nil {
				require.Less(t, own["difference_low"], own["difference"], own["quantity"])
				require.Less(t, own["difference"], own["difference_high"], own["quantity"])
			}
		}
	}
	drag := doc["drag"].([]any)
	require.NotEmpty(t, drag, "%v", doc["missing"])
	for _, d := range drag {
		row := d.(map[string]any)
		require.Equal(t, row["level"] == "mid", row["net_difference_m2"] == nil)
		if row["net_difference_m2"] != nil {
			require.InDelta(t, row["induced_difference_m2"].(float64)+row["profile_difference_m2"].(float64), row["net_difference_m2"], 1e-12)
		}
	}
	rows := columns(t, "compare", "winglet", "--program", dir)
	for _, row := range rows {
		require.Contains(t, []string{"mid", "small", "tall"}, row["level"])
		require.Contains(t, []string{"measured", "predicted", "anchored"}, row["origin"])
	}
}

// The figures that a command writes, and their page, are the same bytes on any number of processors, and so are the documents.
func TestLatticeSameBytes(t *testing.T) {
	dir := t.TempDir()
	shortSeason(t, dir, "F01", "F03") // cold
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	var first []string
	for _, processors := range []int{1, 3} {
		runtime.GOMAXPROCS(processors)
		var now []string
		for i, args := range [][]string{
			{"lattice", "--json"}, {"lattice", "--sweep", "winglet.height_m=0.6:1.4:3", "--csv"}, {"compare", "winglet", "--json"}, {"check"},
		} {
			figures := filepath.Join(dir, "figures", strconv.Itoa(i))
			require.NoError(t, os.RemoveAll(figures))
			got := wingproof(append(args, "--program", dir, "--figures", figures)...)
			require.Zero(t, got.status, got.err)
			drawn, err := listing(figures)
			require.NoError(t, err)
			require.Contains(t, drawn, ".html ")
			require.Contains(t, drawn, "-narrow.svg ")
			now = append(now, got.stdout, drawn)
		}
		if first == nil {
			first = now
		}
		for i := range now {
			requireSame(t, first[i], now[i], strconv.Itoa(processors)+" processors")
		}
	}
}

// The three views show panels, hinges and where the aircraft balances; a level over the baseline shows what it changes.
func TestThreeViews(t *testing.T) {
	p, err := program.Load(demoFolder(t))
	require.NoError(t, err)
	views, err := threeViews(p)
	require.NoError(t, err)
	require.Len(t, views, 4) // baseline, small and tall winglet, short foreplane
	for _, words := range []string{"panels of the lattice", "hinge line", "centre of gravity"} {
		require.Contains(t, string(views[0].SVG), words)
	}
	require.Contains(t, views[0].Alt, "hinge of the elevator")
	require.Contains(t, views[0].Alt, "aftmost loading")
	require.NotContains(t, string(views[1].SVG), "panels of the lattice")
	require.Contains(t, views[1].Alt, "winglet small, winglet:")
	require.NotContains(t, views[1].Alt, "winglet small, wing:", "what is the same is not said twice")
}
