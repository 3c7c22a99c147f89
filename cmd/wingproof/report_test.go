package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"
)

// smallShop is the scripts' folder with two short logs behind its flights: all kinds of pages, and nothing that takes long.
func smallShop(t *testing.T) string {
	t.Helper()
	sound, err := txtar.ParseFile(filepath.Join(scriptFolder, "folder", "sandreed.txtar"))
	require.NoError(t, err)
	dir := filepath.Join(t.TempDir(), "sandreed")
	require.NoError(t, layOut(sound, dir))
	for i, name := range []string{"f01", "f02"} {
		require.NoError(t, writeOver(filepath.Join(dir, "logs", name+".csv"), shortLog(float64(i))))
	}
	return dir
}

// shortLog is half a minute of slow ups and downs.
func shortLog(more float64) []byte {
	var b strings.Builder
	b.WriteString("t,tube,nose,elev\n")
	for i := range 600 {
		at := float64(i) / 20
		fmt.Fprintf(&b, "%.2f,%.2f,%.2f,%.2f\n", at, 20+more+math.Sin(at), 4+2*math.Cos(at), 3+math.Sin(2*at))
	}
	return []byte(b.String())
}

// A whole report is made with all its pages, which are worked out side by side; .ci/run looks here for races between them.
func TestWholeReportOfASmallFolder(t *testing.T) {
	dir := smallShop(t)
	got := wingproof("report", "--program", dir)
	require.Zero(t, got.status, got.err)
	for _, name := range []string{"index.html", "board.html", "methods.html", "choice-winglet.html", "choice-foreplane.html", "flight-f01.html", "flight-f02.html", "evidence.json",
		"figures/flight-f01.png", "figures/flight-f02.png"} {
		require.FileExists(t, filepath.Join(dir, "report", filepath.FromSlash(name)))
	}
	figures, err := os.ReadDir(filepath.Join(dir, "report", "figures"))
	require.NoError(t, err)
	require.Greater(t, len(figures), 10)
	again := wingproof("report", "--program", dir)
	require.Contains(t, again.stdout, "nothing has changed")
}
