package main

import (
	"encoding/json"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// A level is settled before any flight, on theory that passes. Then flights come in which say that the aircraft stops righting itself
// 24 cm further forward at full size. The settled level stays settled, since nothing flips in silence: an alarm is raised, the parts under way
// stop, the record says that the evidence now rules the level out, and the sheet on the wall is called out of date.
func TestFlightsThatContradictASettledLevel(t *testing.T) {
	dir := t.TempDir()
	warmSeason(t, dir, fewFlights()...)
	var later [][]string
	editTable(t, filepath.Join(dir, "flights.csv"), func(rows [][]string) [][]string {
		later = rows
		return nil
	})
	editTable(t, filepath.Join(dir, "parts.csv"), func(rows [][]string) [][]string {
		for _, row := range rows {
			if row[0] == "winglet" && row[1] == "right" {
				row[3], row[4], row[8] = "plug", "winglet=mid", "none"
			}
		}
		return rows
	})
	at := []string{"--program", dir, "--date", "2026-01-10"}
	ask := func(args ...string) partsDocument {
		t.Helper()
		got := wingproof(append(args, at...)...)
		require.Zero(t, got.status, got.err)
		var doc partsDocument
		if args[0] == "parts" {
			require.NoError(t, json.Unmarshal([]byte(got.stdout), &doc))
		}
		return doc
	}
	ask("settle", "winglet", "mid", "--who", "S. I.", "--why", "theory passes", "--against-evidence")
	ask("settle", "flutter_and_mass_balance", "--signoff", "--who", "K. A.", "--why", "report 12")
	before := ask("parts", "--json")
	require.NotEqual(t, decide.Out, before.Decisions[0].State)
	require.Empty(t, before.Decisions[0].FlightsThen)
	require.Equal(t, decide.CarryOn, rowNamed(t, before.Parts, "winglet", "right").Action)
	ask("report", "--issue", "R. Vik")

	editTable(t, filepath.Join(dir, "weighings.csv"), func(rows [][]string) [][]string { return moveForward(t, rows, 60) })
	editTable(t, filepath.Join(dir, "flights.csv"), func([][]string) [][]string { return later })
	at = []string{"--program", dir}
	after := ask("parts", "--json")
	d := after.Decisions[0]
	require.Equal(t, "changed", d.Evidence)
	require.Empty(t, d.FlightsThen)
	require.NotEmpty(t, d.FlightsSince)
	require.Equal(t, decide.Out, d.State)
	require.True(t, slices.ContainsFunc(after.Alarms, func(a string) bool {
		return strings.Contains(a, "winglet is settled at mid (decision 1, S. I., 2026-01-10), but ")
	}), after.Alarms)
	require.Equal(t, decide.Settled, after.Choices[0].State, "nothing flips in silence")
	under := rowNamed(t, after.Parts, "winglet", "right")
	require.Equal(t, decide.StopAndAsk, under.Action)
	require.Contains(t, strings.Join(under.Reasons, "\n"), "winglet is settled at mid (decision 1, S. I., 2026-01-10), but ")
	require.Equal(t, decide.Done, rowNamed(t, after.Parts, "firewall", "both").Action, "what no choice reaches goes on")
	require.True(t, slices.ContainsFunc(after.Alarms, func(a string) bool {
		return strings.HasPrefix(a, "sheet 1 on the wall still lets work go on with ") && strings.Contains(a, "winglet, right (now: stop and ask)")
	}), after.Alarms)
	got := wingproof("parts", "--program", dir)
	require.Zero(t, got.status, got.err)
	require.Regexp(t, `THE\s+EVIDENCE\s+NOW\s+RULES\s+MID\s+OUT`, got.stdout)
}

// moveForward writes every centre of gravity further forward than the model was flown at, in millimetres of the model.
func moveForward(t *testing.T, rows [][]string, by float64) [][]string {
	t.Helper()
	for _, row := range rows {
		x, err := strconv.ParseFloat(row[4], 64)
		require.NoError(t, err)
		row[4] = strconv.FormatFloat(x-by, 'f', 1, 64)
	}
	return rows
}

// rowNamed is the row of a board by part and side.
func rowNamed(t *testing.T, rows []decide.Row, part, side string) decide.Row {
	t.Helper()
	for _, r := range rows {
		if r.Part == part && r.Side == side {
			return r
		}
	}
	require.Fail(t, "no such part", "%s, %s", part, side)
	return decide.Row{}
}
