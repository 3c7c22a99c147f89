package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// demoSeed is the seed of that folder: the one that demo takes when none is given.
const demoSeed = 2

// sharedRoot is the folder of all that tests share, removed behind them.
var sharedRoot = sync.OnceValues(func() (string, error) { return os.MkdirTemp("", "wingproof-shared-") })

// season is the demo's folder with its truth file beside it, and how it came about.
type season struct {
	dir      string
	outcome  outcome // of the command that made it
	reported bool    // whether it wrote its page
}

// flown is what 'wingproof demo' makes in an empty folder, once for all tests of this binary: the first example of --help. It is
// read only: a test that writes takes a copy. Its report is taken away, as if nobody had asked for one yet.
var flown = sync.OnceValues(func() (season, error) {
	root, err := sharedRoot()
	if err != nil {
		return season{}, err
	}
	var stdout, stderr bytes.Buffer
	c := exec.Command("wingproof", "demo")
	c.Dir, c.Stdout, c.Stderr = root, &stdout, &stderr
	if err := c.Run(); err != nil {
		return season{}, fmt.Errorf("wingproof demo: %w: %s", err, stderr.String())
	}
	s := season{dir: filepath.Join(root, "wingproof-demo"), outcome: outcome{stdout: stdout.String(), err: stderr.String()}}
	_, err = os.Stat(filepath.Join(s.dir, "report", "index.html"))
	s.reported = err == nil
	if err := harvest(s.dir); err != nil {
		return season{}, err
	}
	return s, os.RemoveAll(filepath.Join(s.dir, "report"))
})

// removingFlown runs the tests and removes the demo's folder behind them.
type removingFlown struct{ *testing.M }

// Run runs the tests.
func (m removingFlown) Run() int {
	status := m.M.Run()
	if root, err := sharedRoot(); err == nil {
		_ = os.RemoveAll(root)
	}
	return status
}

// demoFolder is the demo's folder, to be read only.
func demoFolder(t *testing.T) string {
	t.Helper()
	s, err := flown()
	require.NoError(t, err)
	return s.dir
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
