package main

import (
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
)

// fewFlights are flights of two sizes, enough for every kind of fit.
func fewFlights() []string { return []string{"F01", "F02", "F03", "F06"} }

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
	shortSeason(t, dir, fewFlights()...)
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	var first answers
	for i, processors := range []int{1, 2, 7} {
		runtime.GOMAXPROCS(processors)
		got := answersOf(t, dir)
		if i == 0 {
			first = got
			continue
		}
		first.requireSame(t, got, fmt.Sprintf("GOMAXPROCS 1 against %d", processors))
	}
	again := wingproof("parts", "--json", "--program", dir)
	requireSame(t, first.parts, again.stdout, "asked once more: parts --json")
}

// The order of rows in a table is the shop's own matter: no number rests on it. The rows of the board follow
// parts.csv, so those are compared sorted.
func TestSameBytesWithShuffledTables(t *testing.T) {
	dir, mixed := t.TempDir(), t.TempDir()
	shortSeason(t, dir, fewFlights()...)
	shortSeason(t, mixed, fewFlights()...)
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

// requireFlownAgain checks a demo of the usual seed against the one that these tests share: two demos with one seed
// are one and the same.
func requireFlownAgain(t *testing.T, again string) {
	t.Helper()
	require.NoError(t, os.RemoveAll(filepath.Join(again, "report")))
	want, err := listing(demoFolder(t))
	require.NoError(t, err)
	have, err := listing(again)
	require.NoError(t, err)
	requireSame(t, want, have, "two demos with one seed")
	requireSame(t, read(t, demoFolder(t)+"-truth.json"), read(t, again+"-truth.json"), "their truth")
}
