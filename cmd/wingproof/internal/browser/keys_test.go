package browser_test

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// stop is what the Tab key has reached: whether the window shows it, and whether it is marked as reached.
type stop struct {
	Name          string
	Shown, Marked bool
}

const reached = `(() => {
	const e = document.activeElement, r = e.getBoundingClientRect(), s = getComputedStyle(e)
	return { Name: e.tagName + " " + e.className + " " + (e.ariaLabel || e.textContent).trim().slice(0, 40),
		Shown: r.width > 1 && r.bottom > 0 && r.top < innerHeight && r.left >= -1 && r.right <= innerWidth + 1, Marked: s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2 }
})()`

// Somebody without a mouse comes everywhere: the first stop leads past the head of the page, every stop is in the window and
// marked, and the lists, the buttons, the reasons and the figures are among them.
func TestKeysReachEverything(t *testing.T) {
	b := openIndex(t, wide)
	b.show(media{steady: true}) // else the page is still on its way when it is asked
	b.do(chromedp.KeyEvent(kb.Tab))
	require.Equal(t, "skip", ask[string](b, "document.activeElement.className"))
	require.True(t, ask[stop](b, reached).Shown, "the way past the head is shown when it is reached")
	b.do(chromedp.KeyEvent(kb.Enter))
	b.await("past the head", `document.activeElement.tagName === "MAIN"`)

	stops := map[string]bool{}
	const most = 400
	for range most {
		b.do(chromedp.KeyEvent(kb.Tab))
		s := ask[stop](b, reached)
		require.True(t, s.Shown, "the Tab key went out of sight: %s", s.Name)
		require.True(t, s.Marked, "reached, but not marked: %s", s.Name)
		stops[ask[string](b, `document.activeElement.matches("[data-points]") ? "figure" : document.activeElement.tagName`)] = true
		if stops["figure"] && stops["SELECT"] && stops["BUTTON"] && stops["SUMMARY"] && stops["A"] {
			b.quiet()
			return
		}
	}
	t.Fatalf("reached in %d steps only: %v", most, stops)
}
