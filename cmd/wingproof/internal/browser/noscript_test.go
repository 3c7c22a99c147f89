package browser_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// told is what a page says without a hand on it: all its text, opened or not, and the rows of its tables.
const told = `({ Rows: document.querySelectorAll("tbody tr").length, Shown: [...document.querySelectorAll("tbody tr")].filter(r => r.getClientRects().length > 0 || r.closest("details:not([open])")).length,
	Controls: [...document.querySelectorAll("button, input, select, textarea, [role=button], [data-points][tabindex]")].filter(e => e.getClientRects().length > 0 && !e.disabled).map(e => e.outerHTML.slice(0, 80)) })`

type telling struct {
	Rows, Shown int
	Controls    []string
}

// Without scripts every page is whole: the same rows as with them, all shown, and no control that does nothing.
func TestPagesAreWholeWithoutScripts(t *testing.T) {
	for _, page := range kinds(t) {
		rows := ask[telling](look(t, page), told).Rows

		without := newTab(t, wide)
		without.withoutScripts()
		without.openFile(filepath.Join(reportFolder(t), page))
		whole := ask[telling](without, told)
		require.Equal(t, rows, whole.Rows, page)
		require.Equal(t, rows, whole.Shown, page)
		require.Empty(t, whole.Controls, page)
		without.quietButScripts()
	}
}

// quietButScripts is quiet for a page whose scripts are forbidden, which browsers note.
func (b *tab) quietButScripts() {
	b.t.Helper()
	faults, _ := b.heard()
	for _, fault := range faults {
		require.True(b.t, strings.Contains(fault, "Blocked script execution"), fault)
	}
}
