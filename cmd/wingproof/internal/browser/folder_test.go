package browser_test

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pagesOf lists the pages of a report folder by name.
func pagesOf(t *testing.T, report string) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(report, "*.html"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for i, path := range paths {
		paths[i] = filepath.Base(path)
	}
	return paths
}

// reportFolder is the demo's report, to be read only.
func reportFolder(t *testing.T) string {
	t.Helper()
	return filepath.Join(shopFolder(t), "report")
}

// openedPages is the pages that every test of looks opens: all of them, but of the flights, which are made alike, the first,
// the middle and the last.
func openedPages(t *testing.T) []string {
	t.Helper()
	var pages, flights []string
	for _, name := range pagesOf(t, reportFolder(t)) {
		if strings.HasPrefix(name, "flight-") {
			flights = append(flights, name)
		} else {
			pages = append(pages, name)
		}
	}
	if n := len(flights); n > 3 {
		flights = []string{flights[0], flights[n/2], flights[n-1]}
	}
	return append(pages, flights...)
}

// kinds is one page of every kind, for the tests that take long.
func kinds(t *testing.T) []string {
	t.Helper()
	pages := openedPages(t)
	var out []string
	for _, kind := range []string{"index", "board", "methods", "choice-", "flight-", "sheet-1.html"} {
		if i := slices.IndexFunc(pages, func(name string) bool { return strings.HasPrefix(name, kind) }); i >= 0 {
			out = append(out, pages[i])
		}
	}
	return out
}

// The report folder holds the pages that readers are sent to.
func TestFolderHasItsPages(t *testing.T) {
	pages := pagesOf(t, reportFolder(t))
	for _, name := range []string{"index.html", "board.html", "methods.html", "choice-winglet.html", "choice-foreplane.html", "sheet-1.html", "sheet-1-evidence.html"} {
		require.Contains(t, pages, name)
	}
	for _, row := range rowsOfTable(t, filepath.Join(shopFolder(t), "flights.csv")) {
		require.Contains(t, pages, "flight-"+row[0]+".html")
	}
}

// rowsOfTable reads the rows of a table of the folder, without its heads.
func rowsOfTable(t *testing.T, path string) [][]string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

// Every link of every page leads somewhere: to a file of the folder, and to a place in it that exists.
func TestLinksLeadSomewhere(t *testing.T) {
	report := reportFolder(t)
	b := newTab(t, wide)
	places := map[string][]string{}
	links := map[string][]string{}
	for _, page := range pagesOf(t, report) {
		b.openFile(filepath.Join(report, page))
		places[page] = ask[[]string](b, `[...document.querySelectorAll("[id]")].map(e => e.id)`)
		links[page] = ask[[]string](b, `[...document.querySelectorAll("a[href]")].map(a => a.getAttribute("href"))`)
	}
	for page, list := range links {
		for _, link := range list {
			target, place, has := strings.Cut(link, "#")
			if target == "" {
				target = page
			}
			info, err := os.Stat(filepath.Join(report, filepath.FromSlash(target)))
			require.NoError(t, err, "%s links to %s", page, link)
			require.False(t, info.IsDir(), "%s links to the folder %s", page, link)
			if has {
				require.Contains(t, places[target], place, "%s links to %s", page, link)
			}
		}
	}
}
