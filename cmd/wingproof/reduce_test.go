package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/reduce"
	"wingproof/flightlog/unit"
)

// pure lists the columns of test points that are plain numbers, coefficients and counts.
func pure() []string {
	return []string{"reynolds", "load_factor", "lift_coefficient", "lift_coefficient_sd", "drag_coefficient", "drag_coefficient_sd"}
}

// Every column of a number with a dimension carries its unit in its head: SI, in the letters of the one table of units.
func TestHeadsOfPointsCarryTheirUnit(t *testing.T) {
	fields := reflect.TypeFor[reduce.TestPoint]()
	for _, c := range pointColumns() {
		require.Regexp(t, `^[a-z][a-z0-9_]*$`, c.head)
		if fields.Field(c.index).Type.Kind() != reflect.Float64 || slices.Contains(pure(), c.head) {
			continue
		}
		require.True(t, endsInSI(c.head), "%s has no unit", c.head)
	}
}

// endsInSI tells whether a head ends in a unit whose factor to SI is one.
func endsInSI(head string) bool {
	for _, d := range []unit.Dimension{unit.Length, unit.Mass, unit.Angle, unit.Speed, unit.Pressure, unit.Time, unit.AngularRate, unit.Acceleration} {
		if _, u, ok := unit.Suffix(head, d); ok {
			return u.Factor == 1 && u.Offset == 0
		}
	}
	return strings.HasSuffix(head, "density_kg_m3") // no file of a folder states a density, so that the table has none
}

// What a point does not hold stays empty, and everything else reads back as it was.
func TestRowOfAPoint(t *testing.T) {
	heads := pointHeads()
	cell := func(p reduce.TestPoint, head string) string {
		require.Contains(t, heads, head)
		return pointRow(p)[slices.Index(heads, head)]
	}
	p := reduce.TestPoint{Flight: `F01, "late"`, Lift: 1.0 / 3, Kept: true, Power: reduce.Idle}
	require.Equal(t, "0.333333333", cell(p, "lift_coefficient"))
	require.Equal(t, "yes", cell(p, "kept"))
	require.Equal(t, "idle", cell(p, "power"))
	require.NotContains(t, heads, "has_drag")
	for _, head := range []string{"drag_coefficient", "drag_coefficient_sd", "sideslip_rad", "sideslip_sd_rad", "alpha_absolute_sd_rad"} {
		require.Empty(t, cell(p, head), head)
	}
	p.HasDrag, p.HasSideslip, p.Drag, p.AlphaAbsoluteSD = true, true, 0.04, 0.01
	require.Equal(t, "0.04", cell(p, "drag_coefficient"))
	require.Equal(t, "0", cell(p, "sideslip_rad"), "no sideslip is a measurement")
	require.Equal(t, "0.01", cell(p, "alpha_absolute_sd_rad"))
	require.Len(t, pointRow(p), len(heads))

	var b strings.Builder
	require.NoError(t, pointsCSV(&b, []reduce.Reduction{{Points: []reduce.TestPoint{p}}}))
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	require.NoError(t, err)
	require.Equal(t, [][]string{heads, pointRow(p)}, rows)
	require.Contains(t, b.String(), `"F01, ""late"""`, "RFC 4180, section 2, rules 5 to 7")
}

// The table for a spreadsheet holds each point of the document, number by number.
func TestPointsAsCSVAndJSONSayTheSame(t *testing.T) {
	dir := demoFolder(t)
	got := wingproof("reduce", "--csv", "--program", dir)
	require.Zero(t, got.status, got.err)
	require.Contains(t, got.err, "left out: flight F07")
	rows, err := csv.NewReader(strings.NewReader(got.stdout)).ReadAll()
	require.NoError(t, err)
	i := 1
	for _, f := range document(t, "reduce", "--json", "--program", dir)["flights"].([]any) {
		for _, p := range f.(map[string]any)["points"].([]any) {
			for k, head := range rows[0] {
				value := p.(map[string]any)[head]
				if number, ok := value.(float64); ok && rows[i][k] != "" {
					read, err := strconv.ParseFloat(rows[i][k], 64)
					require.NoError(t, err)
					require.InEpsilon(t, 1+number, 1+read, 1e-8, head)
					continue
				}
				if text, ok := value.(string); ok {
					require.Equal(t, text, rows[i][k], head)
				}
			}
			i++
		}
	}
	require.Len(t, rows, i)
	require.Greater(t, i, 100)
}

// --flight shows the flights asked for, with the numbers that they have beside all others.
func TestReduceSomeFlights(t *testing.T) {
	dir := t.TempDir()
	warmSeason(t, dir, fewFlights()...)
	all := wingproof("reduce", "--csv", "--program", dir)
	require.Zero(t, all.status, all.err)
	some := wingproof("reduce", "--csv", "--program", dir, "--flight", "f03", "--flight", "F01", "--flight", "F01")
	require.Zero(t, some.status, some.err)
	var want []string
	for line := range strings.Lines(all.stdout) {
		if strings.HasPrefix(line, "flight,") || strings.HasPrefix(line, "F01,") || strings.HasPrefix(line, "F03,") {
			want = append(want, line)
		}
	}
	require.Equal(t, strings.Join(want, ""), some.stdout)

	require.NoError(t, os.Remove(filepath.Join(dir, "logs", "F02.csv")))
	require.Empty(t, wingproof("reduce", "--csv", "--program", dir, "--flight", "F01").err, "the log that is missing was not asked for")
	one := document(t, "reduce", "--program", dir, "--flight", "F02")
	require.Empty(t, one["flights"])
	require.Equal(t, []any{"F02"}, columnOf(one["left_out"].([]any), "flight"))
}

func TestReduceRefusesUnknownFlights(t *testing.T) {
	dir := t.TempDir()
	warmSeason(t, dir, "F01", "F02")
	got := wingproof("reduce", "--program", dir, "--flight", "F01", "--flight", "F9", "--flight", "", "--json", "--csv")
	require.Equal(t, 2, got.status)
	require.Empty(t, got.stdout)
	require.Equal(t, "--csv and --json together: ask for one of them\n"+
		"--flight: no flight \"F9\" in flights.csv; it has F01, F02\n--flight: no flight \"\" in flights.csv; it has F01, F02\n", got.err)
	editTable(t, filepath.Join(dir, "flights.csv"), func([][]string) [][]string { return nil })
	got = wingproof("reduce", "--program", dir, "--flight", "F01")
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, `the folder has no flight yet; write it into flights.csv`)
}

// What the flights of a logger say together about its airspeed is told below the table, with its sign in words.
func TestReduceTellsTheAirspeed(t *testing.T) {
	var b strings.Builder
	require.NoError(t, tellAirspeeds(&b, []study.AirspeedCalibration{{Logger: "box", Scale: -0.0123, SD: 0.004, Flights: []string{"F01"}}, {Logger: "crate", Scale: 0.02, SD: 0.01, Flights: []string{"F02", "F03"}}}))
	require.Equal(t, "logger box: its airspeed reads 1.2 % low (± 0.8 % at 95 %), as one flight shows; that is taken off the test points\n"+
		"logger crate: its airspeed reads 2.0 % high (± 2.0 % at 95 %), as 2 flights show together; that is taken off the test points\n", b.String())
}
