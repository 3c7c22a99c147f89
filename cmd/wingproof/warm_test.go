package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/keep"
)

// What one test computed, another need not compute again: it is found by all that it was computed from (see internal/keep), and
// tests of their own, on folders that begin cold, show that what is found is what is computed.

// resultsOf is where a program folder keeps its results.
func resultsOf(dir string) string { return filepath.Join(dir, keep.Folder, "results") }

// share links results into another folder, those that are not there yet. Entries are replaced as a whole, never written into.
func share(from, to string) error {
	entries, err := os.ReadDir(from)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if err := os.MkdirAll(to, 0o755); err != nil {
		return err
	}
	for _, entry := range entries {
		if !entry.Type().IsRegular() {
			continue
		}
		err := os.Link(filepath.Join(from, entry.Name()), filepath.Join(to, entry.Name()))
		if err != nil && !errors.Is(err, fs.ErrExist) && !errors.Is(err, fs.ErrNotExist) {
			return nil // a system without links computes for itself
		}
	}
	return nil
}

// warmed lends a folder what all tests have computed until now.
func warmed(dir string) error {
	root, err := sharedRoot()
	if err != nil {
		return err
	}
	return share(resultsOf(root), resultsOf(dir))
}

// harvest puts what a folder computed into the pool.
func harvest(dir string) error {
	root, err := sharedRoot()
	if err != nil {
		return err
	}
	return share(resultsOf(dir), resultsOf(root))
}

// warmSeason is a shortSeason that finds what other tests computed, and leaves them what it computes. A test of what is kept, or of the same
// bytes on other processors, takes a shortSeason, which begins cold.
func warmSeason(t *testing.T, dir string, flights ...string) {
	t.Helper()
	shortSeason(t, dir, flights...)
	require.NoError(t, warmed(dir))
	t.Cleanup(func() { _ = harvest(dir) })
}
