package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// answers is what a folder says: the board, the fits and the page, as bytes.
type answers struct{ parts, fit, page string }

func answersOf(t *testing.T, dir string) answers {
	t.Helper()
	var a answers
	for _, ask := range []struct {
		into *string
		args []string
	}{{&a.parts, []string{"parts", "--json"}}, {&a.fit, []string{"fit", "--json"}}, {new(string), []string{"report"}}} {
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
	requireSame(t, a.parts, b.parts, what+": parts --json")
	requireSame(t, a.fit, b.fit, what+": fit --json")
	requireSame(t, a.page, b.page, what+": report/index.html")
}

// The same folder gives the same bytes however many processors share the work, and when it is asked again.
func TestSameBytesOnAnyNumberOfProcessors(t *testing.T) {
	dir := t.TempDir()
	shortSeason(t, dir)
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	var first answers
	for i, processors := range []int{1, 2, 7, 7} {
		runtime.GOMAXPROCS(processors)
		got := answersOf(t, dir)
		if i == 0 {
			first = got
			continue
		}
		first.requireSame(t, got, fmt.Sprintf("GOMAXPROCS 1 against %d", processors))
	}
}

// The order of rows in a table is the shop's own matter: no number rests on it. The rows of the board follow
// parts.csv, so those are compared sorted.
func TestSameBytesWithShuffledTables(t *testing.T) {
	dir, mixed := t.TempDir(), t.TempDir()
	shortSeason(t, dir)
	shortSeason(t, mixed)
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

// Two demos with one seed are one and the same, and the board that demo prints is that of parts.
func TestDemosWithOneSeedAreEqual(t *testing.T) {
	again := filepath.Join(t.TempDir(), "again")
	got := wingproof("demo", "--dir", again, "--seed", strconv.Itoa(demoSeed), "--json")
	require.Zero(t, got.status, got.err)
	requireSame(t, wingproof("parts", "--program", demoFolder(t), "--json").stdout, got.stdout, "the demo's board against parts --json")
	want, err := listing(demoFolder(t))
	require.NoError(t, err)
	have, err := listing(again)
	require.NoError(t, err)
	requireSame(t, withoutReport(want), withoutReport(have), "two demos with one seed")
	requireSame(t, read(t, demoFolder(t)+"-truth.json"), read(t, again+"-truth.json"), "their truth")
}

// withoutReport leaves the pages out of a listing: other tests may have written theirs into the shared folder.
func withoutReport(listing string) string {
	return strings.Join(slices.DeleteFunc(strings.Split(listing, "\n"), func(line string) bool {
		return strings.HasPrefix(line, "report/")
	}), "\n")
}
