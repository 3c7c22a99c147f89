package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/demo"
)

// demoSeed is the seed of that folder: the one that demo takes when none is given.
const demoSeed = 2

// flownRoot is where flown has made its folder, to be removed behind the tests.
var flownRoot string

// flown is the demo's folder with its truth file beside it, made once for all tests of this binary. It is
// read only: a test that writes takes a copy.
var flown = sync.OnceValues(func() (string, error) {
	root, err := os.MkdirTemp("", "wingproof-flown-")
	if err != nil {
		return "", err
	}
	flownRoot = root
	dir := filepath.Join(root, "sandreed")
	return dir, demo.Write(context.Background(), dir, filepath.Join(root, "sandreed-truth.json"), demoSeed, nil)
})

// removingFlown runs the tests and removes the demo's folder behind them.
type removingFlown struct{ *testing.M }

// Run runs the tests.
func (m removingFlown) Run() int {
	status := m.M.Run()
	if flownRoot != "" {
		_ = os.RemoveAll(flownRoot)
	}
	return status
}

// demoFolder is the demo's folder, to be read only.
func demoFolder(t *testing.T) string {
	t.Helper()
	dir, err := flown()
	require.NoError(t, err)
	return dir
}

// shortSeason copies the demo's folder to dir with a few of its flights and the winglet as its one choice, so that a
// test may run many commands.
func shortSeason(t *testing.T, dir string, flights ...string) {
	t.Helper()
	require.NoError(t, copyFolder(demoFolder(t), dir))
	editTable(t, filepath.Join(dir, "flights.csv"), func(rows [][]string) [][]string {
		return slices.DeleteFunc(rows, func(row []string) bool { return !slices.Contains(flights, row[0]) })
	})
	require.NoError(t, withoutForeplane(dir))
}

// read returns what a file holds.
func read(t *testing.T, path string) string {
	t.Helper()
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(content)
}

// editTable rewrites the rows of a table; the heads stay.
func editTable(t *testing.T, path string, edit func(rows [][]string) [][]string) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(read(t, path))).ReadAll()
	require.NoError(t, err)
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	require.NoError(t, w.Write(rows[0]))
	require.NoError(t, w.WriteAll(edit(rows[1:])))
	require.NoError(t, writeOver(path, b.Bytes()))
}
