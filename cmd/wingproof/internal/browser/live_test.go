package browser_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// boardRow is the text of a part's row of the board, in one line; empty: it has none.
func boardRow(part string) string {
	return fmt.Sprintf(`(([...document.querySelectorAll("#board tbody tr")].find(r => r.querySelector("th")?.textContent.includes(%q)) || {}).textContent || "").replace(/\s+/g, " ")`, part)
}

// listens tells that a page has heard its server say that it is the newest.
const listens = `document.getElementById("live-status")?.textContent.startsWith("Live")`

// served holds a served page to its word: no complaint, and nobody asked but its own server.
func (b *tab) served(s *server) {
	b.t.Helper()
	faults, requests := b.heard()
	require.Empty(b.t, faults)
	for _, address := range requests {
		require.True(b.t, strings.HasPrefix(address, s.address) || strings.HasPrefix(address, "data:"), "asks %s", address)
	}
}

// The live page of one season: every page listens, the board renews itself, a mistake is told and mended, and at last the server
// ends. One server serves them all, in this order.
func TestLivePage(t *testing.T) {
	s := serve(t)
	t.Run("every page listens", s.pagesListen)
	t.Run("renews itself", s.renews)
	t.Run("tells a mistake", s.tellsMistake)
	t.Run("everybody can read it", s.accessible)
	t.Run("tells the lost connection", s.tellsLoss)
}

// A part that moves on in parts.csv moves on upon the wall, without a hand on the browser; the reader keeps place, opened
// reasons and filter. How long that took is logged for the record.
func (s *server) renews(t *testing.T) {
	b := newTab(t, wide)
	b.open(s.address)
	b.await("the page listens", listens)
	require.Contains(t, ask[string](b, boardRow("seat tub")), "start")

	const filter = `document.querySelector("form.pick").elements.stage`
	ask[bool](b, filter+`.value = "drawn"; `+filter+`.dispatchEvent(new Event("change", { bubbles: true }))`)
	shown := ask[int](b, rowsShown)

	const details = `[...document.querySelectorAll("#board tbody details")].at(-1)`
	ask[bool](b, details+".open = true")
	const place = `document.getElementById("open").getBoundingClientRect().top`
	ask[bool](b, `document.getElementById("open").scrollIntoView({behavior: "instant"}); scrollBy({top: -10, behavior: "instant"}); true`)
	before := ask[float64](b, place)

	begin := time.Now()
	s.edit(t, "parts.csv", "seat tub,front,moulded,drawn", "seat tub,front,moulded,plug")
	b.await("the new word", boardRow("seat tub")+`.includes("carry on")`)
	t.Logf("parts.csv saved to new word shown: %d ms", time.Since(begin).Milliseconds())

	b.await("the page is complete", `document.readyState === "complete" && performance.getEntriesByType("navigation")[0].loadEventEnd > 0`)
	require.InDelta(t, before, ask[float64](b, place), 2, "the reader's place")
	require.True(t, ask[bool](b, details+".open"), "opened reasons")
	require.Equal(t, "drawn", ask[string](b, filter+".value"), "filter")
	require.Equal(t, shown-1, ask[int](b, rowsShown), "the filter holds, and the part has left its stage")
	b.served(s)
}

// A mistake in the folder is told on the page with its place; the last good page stays, and the mistake goes when it is mended.
func (s *server) tellsMistake(t *testing.T) {
	b := newTab(t, small)
	b.open(s.address)
	rows := ask[int](b, `document.querySelectorAll("#board tbody tr").length`)
	s.edit(t, "program.toml", "seed = 2", `seed = "two"`)
	b.await("the mistake with its place", `/program\.toml:6:\d+: /.test(document.getElementById("live-alert").textContent)`)
	require.Equal(t, rows, ask[int](b, `document.querySelectorAll("#board tbody tr").length`), "the last good board")
	require.Equal(t, "alert", ask[string](b, `document.getElementById("live-alert").getAttribute("role")`))
	require.Empty(t, ask[[]string](b, stickingOut))

	s.edit(t, "program.toml", `seed = "two"`, "seed = 2")
	b.await("the mistake is gone", `!document.getElementById("live-alert").textContent.includes("program.toml")`)
	b.served(s)
}

// Whoever reads a page whose server has ended is told that it may be old.
func (s *server) tellsLoss(t *testing.T) {
	b := newTab(t, wide)
	b.open(s.address)
	b.await("the page listens", listens)
	b.served(s)
	s.stop()
	b.await("the loss is told", `/connection lost/i.test(document.getElementById("live-alert").textContent)`)
	faults, _ := b.heard()
	for _, fault := range faults {
		require.Contains(t, fault, "ERR_", "another fault than the lost connection")
	}
}

// Every kind of page is served as it is written, and renews itself; the wall sheet that is served is one sheet of paper too.
func (s *server) pagesListen(t *testing.T) {
	for _, page := range kinds(t) {
		if strings.HasPrefix(page, "sheet-") {
			continue // stays as it was issued
		}
		b := newTab(t, small)
		b.open(s.address + page)
		b.await(page+" listens", listens)
		require.Empty(t, ask[[]string](b, stickingOut), page)
		require.Equal(t, ask[string](look(t, page), "document.querySelector('h1').textContent"), ask[string](b, "document.querySelector('h1').textContent"))
		if page == "board.html" {
			require.Equal(t, 1, sheetsOfPaper(b.printed(papers()[0])))
		}
		b.served(s)
	}
}

// Everybody can read the live page, also while it tells of a mistake.
func (s *server) accessible(t *testing.T) {
	axeNeeded(t)
	s.edit(t, "program.toml", "seed = 2", `seed = "two"`)
	b := newTab(t, wide)
	b.open(s.address)
	b.await("the mistake", `document.getElementById("live-alert").textContent.includes("program.toml")`)
	b.accessible("light", allRules)
	b.show(media{dark: true})
	b.resize(small)
	b.accessible("dark, phone", rulesOfLooks)
}
