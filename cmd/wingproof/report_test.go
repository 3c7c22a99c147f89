package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
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
	for _, name := range []string{"index.html", "board.html", "methods.html", "choice-winglet.html", "choice-foreplane.html", "flight-f01.html", "flight-f02.html", "evidence.json"} {
		require.FileExists(t, filepath.Join(dir, "report", filepath.FromSlash(name)))
	}
	figures, err := os.ReadDir(filepath.Join(dir, "report", "figures"))
	require.NoError(t, err)
	require.Greater(t, len(figures), 10)
	for _, name := range []string{"flight-f01.html", "flight-f02.html"} {
		requireAlone(t, read(t, filepath.Join(dir, "report", name)))
	}
	again := wingproof("report", "--program", dir)
	require.Contains(t, again.stdout, "nothing has changed")
}

// requireAlone checks that the page of a flight lacks nothing when it is sent without its folder, and that no two of its parts share a name.
func requireAlone(t *testing.T, page string) {
	t.Helper()
	require.Equal(t, 1, strings.Count(page, "<svg "), "the strip chart stands in the page")
	for _, outside := range []string{" src=", "<img", "<script", "<link rel=\"stylesheet", "url("} {
		require.NotContains(t, page, outside)
	}
	seen := map[string]bool{}
	for _, label := range regexp.MustCompile(`role="region" aria-label="([^"]*)"|<h2[^>]*>([^<]*)</h2>`).FindAllStringSubmatch(page, -1) {
		name := label[1] + label[2]
		require.False(t, seen[name], "two parts are called %q", name)
		seen[name] = true
	}
	require.Greater(t, len(seen), 8)
}
