package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
)

// benchFolder is a new folder with a sheet in it.
func benchFolder(t *testing.T) (dir, sheet string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "own")
	require.NoError(t, program.New(dir, program.NewOptions{}))
	sheet = filepath.Join(dir, "sheet.csv")
	got := wingproof("weigh", "--blank")
	require.Zero(t, got.status, got.err)
	require.NoError(t, os.WriteFile(sheet, []byte(got.stdout), 0o644))
	return dir, sheet
}

// The table that 'new' begins has a column for everything that weigh writes, and what was written reads as what was printed.
func TestWeighWritesIntoANewFolder(t *testing.T) {
	dir, sheet := benchFolder(t)
	doc := document(t, "weigh", sheet, "--program", dir, "--write", "first ballast")
	requireKeys(t, "weigh", doc)
	require.Equal(t, map[string]any{"file": "weighings.csv", "weighing": "first ballast"}, doc["written"])
	p, err := program.Load(dir)
	require.NoError(t, err)
	require.Len(t, p.Weighings, 1)
	w, ratio := p.Weighings[0], p.Model.LengthRatio
	numbers := map[string]map[string]any{}
	for _, n := range doc["numbers"].([]any) {
		numbers[n.(map[string]any)["quantity"].(string)] = n.(map[string]any)
	}
	for quantity, read := range map[string][2]float64{
		"mass": {w.Mass, w.MassSD}, "cg_x": {w.CGX * ratio, w.CGXSD * ratio}, "cg_z": {w.CGZ * ratio, w.CGZSD * ratio},
		"ix": {w.Ix, w.IxSD}, "iy": {w.Iy, w.IySD}, "iz": {w.Iz, w.IzSD}, "ixz": {w.Ixz, w.IxzSD},
	} {
		sd := numbers[quantity]["sd"].(float64)
		require.InDelta(t, numbers[quantity]["value"], read[0], sd/10, quantity)
		require.InEpsilon(t, sd, read[1], 0.05, quantity)
	}
	require.InDelta(t, numbers["cg_x"]["value"].(float64)/ratio, numbers["cg_x"]["full_size_m"], 1e-9)
}

// What the table says dominates is the largest part of the document, and the parts add up to the error.
func TestWeighDocumentAddsUp(t *testing.T) {
	dir, sheet := benchFolder(t)
	doc := document(t, "weigh", sheet, "--program", dir)
	for _, n := range doc["numbers"].([]any) {
		number := n.(map[string]any)
		var variance, before float64
		for i, p := range number["parts"].([]any) {
			sd := p.(map[string]any)["sd"].(float64)
			variance += sd * sd
			require.True(t, i == 0 || sd*sd <= before*(1+1e-12), number["quantity"])
			before = sd * sd
		}
		require.InEpsilon(t, number["sd"].(float64)*number["sd"].(float64), variance, 1e-9, number["quantity"])
	}
	for _, s := range doc["swings"].([]any) {
		require.Positive(t, s.(map[string]any)["air_kg_m2"])
	}
}

// Every caution of the table stands in the help too, and the sheet begins with those that come before the work.
func TestWeighCautions(t *testing.T) {
	help := wingproof("weigh", "--help").stdout
	dir, sheet := benchFolder(t)
	table := strings.Join(strings.Fields(wingproof("weigh", sheet, "--program", dir).stdout), " ")
	for _, words := range []string{"propeller off", "fingers stay out", "nobody is below a hung model", "under 10° to a side"} {
		require.Contains(t, help, words)
		require.Contains(t, table, words)
	}
	require.Contains(t, program.BlankWeighingSheet(), "propeller off")
	require.NotContains(t, table, "safe to fly")
}
