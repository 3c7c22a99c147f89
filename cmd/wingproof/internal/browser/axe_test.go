package browser_test

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// axeScript is the text of the accessibility checker, once.
var axeScript = sync.OnceValues(func() (string, error) {
	text, err := os.ReadFile(os.Getenv("WINGPROOF_AXE"))
	return string(text), err
})

// finding is one broken rule of accessibility with the places where it is broken.
type finding struct {
	ID     string   `json:"id"`
	Impact string   `json:"impact"` // minor, moderate, serious, critical
	Help   string   `json:"help"`
	Places []string `json:"places"`
}

func (f finding) String() string {
	return fmt.Sprintf("%s (%s): %s: %d places, first %s", f.ID, f.Impact, f.Help, len(f.Places), f.Places[0])
}

// runAxe asks for broken rules of the named kind.
const runAxe = `axe.run(document, { resultTypes: ["violations"], runOnly: %s }).then(r => r.violations.map(v => ({
	id: v.id, impact: v.impact || "minor", help: v.help, places: v.nodes.map(n => n.target.join(" ") + ": " + n.html.slice(0, 100)),
})))`

// allRules are those of WCAG 2.1 A and AA, contrast among them, and for information common good practice; rulesOfLooks are those
// of them that depend on colours and on the width.
const (
	allRules     = `["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"]`
	rulesOfLooks = `{ type: "rule", values: ["color-contrast", "link-in-text-block", "scrollable-region-focusable", "empty-table-header"] }`
)

// emptyFigures takes the drawing out of every figure, which is one picture to readers that hear the page and would keep the
// checker busy for minutes with its strokes; TestFigureTextsAreLegible looks at its texts.
const emptyFigures = `[...document.querySelectorAll("figure svg :is(path, text, rect, circle, line, polyline, polygon)")].map(e => e.remove()).length`

// findings asks the checker about the page as it is shown.
func (b *tab) findings(rules string) []finding {
	b.t.Helper()
	script, err := axeScript()
	require.NoError(b.t, err)
	ask[int](b, emptyFigures)
	ask[bool](b, script+"; true")
	return ask[[]finding](b, fmt.Sprintf(runAxe, rules))
}

// accessible fails for every finding that keeps somebody from reading the page, and logs the rest.
func (b *tab) accessible(what, rules string) {
	b.t.Helper()
	for _, f := range b.findings(rules) {
		if f.Impact == "serious" || f.Impact == "critical" {
			b.t.Errorf("%s: %s", what, f)
		} else {
			b.t.Logf("%s, for information: %s", what, f)
		}
	}
}

// axeNeeded ends a test where the checker is not at hand.
func axeNeeded(t *testing.T) {
	t.Helper()
	theBrowser(t)
	if os.Getenv("WINGPROOF_AXE") == "" {
		missing(t, "no axe.min.js named by WINGPROOF_AXE: rules of accessibility not checked")
	}
}

// Everybody can read every kind of page, in light and dark, at the desk and on a phone.
func TestPagesAreAccessible(t *testing.T) {
	axeNeeded(t)
	for _, page := range kinds(t) {
		t.Run(page, func(t *testing.T) {
			b := newTab(t, wide) // of its own: the checker has the drawings taken out
			b.openFile(filepath.Join(reportFolder(t), page))
			b.accessible("light", allRules)
			b.show(media{dark: true})
			b.resize(small)
			b.accessible("dark, phone", rulesOfLooks)
		})
	}
}

// faintTexts lists the texts of figures whose contrast with white, which figures stand on, is below 4.5 to 1 (WCAG 2.1, 1.4.3).
const faintTexts = `[...new Set([...document.querySelectorAll("figure svg text")].filter(e => e.getBoundingClientRect().width > 0).map(e => {
	const s = getComputedStyle(e), [r, g, b] = s.fill.match(/[\d.]+/g).map(v => v / 255).map(v => v <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4)
	const contrast = 1.05 / (.2126 * r + .7152 * g + .0722 * b + .05)
	return contrast < 4.5 ? e.textContent + ": " + contrast.toFixed(1) : ""
}))].filter(Boolean)`

// The texts of figures stand out from their white, in the dark too.
func TestFigureTextsAreLegible(t *testing.T) {
	for _, page := range kinds(t) {
		b := look(t, page)
		for _, dark := range []bool{false, true} {
			b.show(media{dark: dark})
			require.Empty(t, ask[[]string](b, faintTexts), "%s, dark %v", page, dark)
		}
	}
}

// The checker finds what is wrong: the test of the test.
func TestCheckerFinds(t *testing.T) {
	axeNeeded(t)
	path := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(path, []byte(`<!DOCTYPE html><html lang="en"><head><title>t</title></head><body><main><h1>Pale</h1><p style="color:#aaa">pale</p></main></body></html>`), 0o600))
	b := newTab(t, wide)
	b.openFile(path)
	found := b.findings(allRules)
	require.Len(t, found, 1)
	require.Equal(t, "color-contrast", found[0].ID)
	require.Equal(t, "serious", found[0].Impact)
}

// The time from opening the page to answering its reader, for the record: nothing is asserted about time.
func TestTimeUntilThePageAnswers(t *testing.T) {
	b := newTab(t, wide)
	for range 3 {
		b.openFile(filepath.Join(reportFolder(t), "index.html"))
		const told = `(() => { const n = performance.getEntriesByType("navigation")[0]; return [n.domInteractive, n.domComplete] })()`
		b.await("the page is complete", told+"[1] > 0")
		times := ask[[]float64](b, told)
		require.Positive(t, times[0])
		t.Logf("index.html answers after %.0f ms, complete after %.0f ms", times[0], times[1])
	}
}
