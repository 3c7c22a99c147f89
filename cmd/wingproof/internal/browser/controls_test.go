package browser_test

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// rowsShown counts the parts of the board that are shown.
const rowsShown = `[...document.querySelectorAll("#parts tr[data-word]")].filter(r => r.getClientRects().length > 0).length`

// openIndex opens the first page of the report.
func openIndex(t *testing.T, width int64) *tab {
	t.Helper()
	b := newTab(t, width)
	b.openFile(filepath.Join(reportFolder(t), "index.html"))
	return b
}

// choose picks an option of a list by its value, as somebody does who opens the list.
func (b *tab) choose(list, value string) {
	b.t.Helper()
	const pick = `(() => { const s = document.querySelector("form.pick").elements[%q]; s.value = %q; s.dispatchEvent(new Event("change", { bubbles: true })); return s.value })()`
	require.Equal(b.t, value, ask[string](b, fmt.Sprintf(pick, list, value)))
}

// option is one line of a list: the value that it picks and the number of rows that it promises in brackets.
type option struct{ Value, Text string }

var inBrackets = regexp.MustCompile(`\((\d+)\)$`)

// Each word and each stage shows as many rows as it promises and no other; both together show what has both; the reset shows all.
func TestRowsByWordAndByStage(t *testing.T) {
	b := openIndex(t, wide)
	all := ask[int](b, rowsShown)
	require.Equal(t, len(rowsOfTable(t, filepath.Join(shopFolder(t), "parts.csv"))), all)
	for _, list := range []string{"word", "stage"} {
		options := ask[[]option](b, fmt.Sprintf(`[...document.querySelector("form.pick").elements[%q].options].map(o => ({ Value: o.value, Text: o.text }))`, list))
		require.Greater(t, len(options), 2)
		sum := 0
		for _, o := range options[1:] {
			b.choose(list, o.Value)
			promised, err := strconv.Atoi(inBrackets.FindStringSubmatch(o.Text)[1])
			require.NoError(t, err)
			require.Equal(t, promised, ask[int](b, rowsShown), "%s %s", list, o.Value)
			other := fmt.Sprintf(`[...document.querySelectorAll("#parts tr[data-word]")].filter(r => r.getClientRects().length > 0 && r.dataset[%q] !== %q).length`, list, o.Value)
			require.Zero(t, ask[int](b, other))
			sum += promised
		}
		require.Equal(t, all, sum, list)
		b.choose(list, "")
	}
	b.choose("word", "wait")
	b.choose("stage", "drawn")
	both := ask[int](b, `document.querySelectorAll("#parts tr[data-word=wait][data-stage=drawn]").length`)
	require.Equal(t, both, ask[int](b, rowsShown))
	require.Contains(t, ask[string](b, `document.querySelector("form.pick output").textContent`), fmt.Sprintf("%d of %d", both, all))
	b.show(media{kind: "print"})
	require.Equal(t, all, ask[int](b, rowsShown), "paper shows every row")
	b.show(media{})
	b.do(chromedp.Click("form.pick button[type=reset]"))
	b.await("all rows again", fmt.Sprintf("%s === %d", rowsShown, all))
	b.quiet()
}

// A word above which no row is left is not shown either.
func TestEmptyGroupsHide(t *testing.T) {
	b := openIndex(t, small)
	b.choose("word", "start")
	groups := ask[[]string](b, `[...document.querySelectorAll("#parts tr.group")].filter(r => r.getClientRects().length > 0).map(r => r.textContent.trim().toLowerCase())`)
	require.Len(t, groups, 1)
	require.Contains(t, groups[0], "start")
	require.Empty(t, ask[[]string](b, stickingOut))
}

// Reasons open one by one and all at once, and close again.
func TestReasonsOpen(t *testing.T) {
	b := openIndex(t, wide)
	const open = `document.querySelectorAll("#parts details[open]").length`
	all := ask[int](b, `document.querySelectorAll("#parts details").length`)
	require.Positive(t, all)
	require.Zero(t, ask[int](b, open))
	b.do(chromedp.Click("#parts details summary"))
	require.Equal(t, 1, ask[int](b, open))
	b.do(chromedp.Click("form.pick button[name=reasons]"))
	require.Equal(t, all, ask[int](b, open))
	b.await("the button offers to close", `/close/.test(document.querySelector("form.pick button[name=reasons]").textContent)`)
	b.do(chromedp.Click("form.pick button[name=reasons]"))
	require.Zero(t, ask[int](b, open))
	b.quiet()
}
