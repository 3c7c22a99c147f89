package main

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/demo"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
)

// fewFlights are flights of two sizes, enough for every kind of fit.
func fewFlights() []string { return []string{"F01", "F02", "F03", "F06"} }

// answers is what a folder says: the test points, the board, the fits and the page, as bytes.
type answers struct{ points, table, parts, fit, page string }

func answersOf(t *testing.T, dir string) answers {
	t.Helper()
	var a answers
	for _, ask := range []struct {
		into *string
		args []string
	}{{&a.points, []string{"reduce", "--json"}}, {&a.table, []string{"reduce"}}, {&a.parts, []string{"parts", "--json"}}, {&a.fit, []string{"fit", "--json"}}, {new(string), []string{"report"}}} {
		got := wingproof(append(ask.args, "--program", dir)...)
		require.Zero(t, got.status, got.err)
		*ask.into = got.stdout
	}
	a.page = read(t, filepath.Join(dir, "report", "index.html"))
	return a
}

// requireSame compares documents and names the first line that differs.
func requireSame(t *testing.T, want, got, what string) {
	t.Helper()
	if want == got {
		return
	}
	a, b := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(a), len(b)) {
		require.Equal(t, a[i], b[i], "%s, line %d", what, i+1)
	}
	require.Len(t, b, len(a), what)
}

func (a answers) requireSame(t *testing.T, b answers, what string) {
	t.Helper()
	requireSame(t, a.points, b.points, what+": reduce --json")
	requireSame(t, a.table, b.table, what+": reduce")
	requireSame(t, a.parts, b.parts, what+": parts --json")
	requireSame(t, a.fit, b.fit, what+": fit --json")
	requireSame(t, a.page, b.page, what+": report/index.html")
}

// The same folder gives the same bytes however many processors share the work, and when it is asked again: with nothing kept of
// earlier runs, and with what a run on another number of processors kept.
func TestSameBytesOnAnyNumberOfProcessors(t *testing.T) {
	dir := t.TempDir()
	shortSeason(t, dir, fewFlights()...)
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	processors := []int{1, 2, 7}
	var first answers
	for i, n := range processors {
		require.NoError(t, os.RemoveAll(filepath.Join(dir, keep.Folder)))
		runtime.GOMAXPROCS(n)
		got := answersOf(t, dir)
		if i == 0 {
			first = got
		}
		first.requireSame(t, got, fmt.Sprintf("nothing kept, GOMAXPROCS 1 against %d", n))
		runtime.GOMAXPROCS(processors[(i+1)%len(processors)])
		kept := listKept(t, dir)
		first.requireSame(t, answersOf(t, dir), fmt.Sprintf("GOMAXPROCS 1 against %d, as kept by %d", runtime.GOMAXPROCS(0), n))
		require.Equal(t, kept, listKept(t, dir), "asked again, nothing was computed that is kept")
	}
	again := wingproof("parts", "--json", "--program", dir)
	requireSame(t, first.parts, again.stdout, "asked once more: parts --json")
}

// listKept lists the entries of the cache with their digests and when they were written.
func listKept(t *testing.T, dir string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, keep.Folder, "results", "*"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var out []string
	for _, file := range files {
		info, err := os.Stat(file)
		require.NoError(t, err)
		out = append(out, fmt.Sprintf("%s %x %s", filepath.Base(file), sha256.Sum256([]byte(read(t, file))), info.ModTime()))
	}
	return out
}

// What is kept is no part of the program: neither the fingerprint that decisions rest on nor any file of the folder
// changes when it is written or deleted, and a damaged entry changes no answer.
func TestWhatIsKeptIsNoPartOfTheProgram(t *testing.T) {
	dir := t.TempDir()
	shortSeason(t, dir, "F01", "F02")
	fingerprint := func() string {
		sum, err := program.Fingerprint(dir)
		require.NoError(t, err)
		return sum
	}
	files, err := listing(dir)
	require.NoError(t, err)
	sum := fingerprint()
	cold := wingproof("reduce", "--json", "--program", dir)
	require.Zero(t, cold.status, cold.err)
	entries := listKept(t, dir)
	require.Len(t, entries, 2)
	require.Equal(t, sum, fingerprint())
	for _, entry := range entries {
		name, _, _ := strings.Cut(entry, " ")
		path := filepath.Join(dir, keep.Folder, "results", name)
		require.NoError(t, os.WriteFile(path, []byte(read(t, path)[:100]), 0o644))
	}
	require.Equal(t, cold, wingproof("reduce", "--json", "--program", dir))
	for i, entry := range listKept(t, dir) {
		require.Equal(t, strings.Fields(entries[i])[:2], strings.Fields(entry)[:2], "the entry is sound again")
	}
	require.NoError(t, os.RemoveAll(filepath.Join(dir, keep.Folder)))
	require.Equal(t, cold, wingproof("reduce", "--json", "--program", dir))
	now, err := listing(dir)
	require.NoError(t, err)
	require.Equal(t, files, now)
}

// The order of rows in a table is the shop's own matter: no number rests on it. The rows of the board follow
// parts.csv, so those are compared sorted.
func TestSameBytesWithShuffledTables(t *testing.T) {
	dir, mixed := t.TempDir(), t.TempDir()
	warmSeason(t, dir, fewFlights()...)
	shortSeason(t, mixed, fewFlights()...) // cold
	want := answersOf(t, dir)
	random := rand.New(rand.NewPCG(3, 14))
	shuffle := func(rows [][]string) [][]string {
		before := slices.Clone(rows)
		for slices.EqualFunc(before, rows, slices.Equal) {
			random.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
		}
		return rows
	}
	editTable(t, filepath.Join(mixed, "flights.csv"), shuffle)
	editTable(t, filepath.Join(mixed, "weighings.csv"), shuffle)
	want.requireSame(t, answersOf(t, mixed), "shuffled flights and weighings")

	editTable(t, filepath.Join(mixed, "parts.csv"), shuffle)
	got := answersOf(t, mixed)
	requireSame(t, want.fit, got.fit, "shuffled parts: fit --json")
	require.NotEqual(t, want.parts, got.parts, "the board follows parts.csv")
	requireSame(t, sortedBoard(t, want.parts), sortedBoard(t, got.parts), "shuffled parts, sorted: parts --json")
}

// sortedBoard is a document of parts with its rows in the order of part and side.
func sortedBoard(t *testing.T, text string) string {
	t.Helper()
	var doc partsDocument
	require.NoError(t, json.Unmarshal([]byte(text), &doc))
	board := doc.Parts
	slices.SortFunc(board, func(a, b decide.Row) int {
		return strings.Compare(a.Part+"\x00"+a.Side, b.Part+"\x00"+b.Side)
	})
	out, err := json.MarshalIndent(doc, "", "  ")
	require.NoError(t, err)
	return string(out)
}

// requireFlown checks the demo that these tests share against one that is flown again: two demos with one seed are one and the same,
// and the seed is the usual one when none is given.
func requireFlown(t *testing.T) {
	t.Helper()
	first, err := flown()
	require.NoError(t, err)
	require.NotEmpty(t, first.outcome.stdout)
	require.True(t, first.reported, "the page is there")
	again := filepath.Join(t.TempDir(), "again")
	require.NoError(t, demo.Write(context.Background(), again, again+"-truth.json", demoSeed, nil))
	want, err := listing(first.dir)
	require.NoError(t, err)
	have, err := listing(again)
	require.NoError(t, err)
	requireSame(t, want, have, "two demos with one seed")
	requireSame(t, read(t, first.dir+"-truth.json"), read(t, again+"-truth.json"), "their truth")
}
