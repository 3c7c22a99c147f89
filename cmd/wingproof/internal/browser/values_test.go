package browser_test

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// figure is a drawing that says its values: the first one that is shown of a section.
func figure(section string) string {
	return fmt.Sprintf(`[...document.querySelectorAll("#%s [data-points]")].find(e => e.getClientRects().length > 0)`, section)
}

// valueShown is what the box beside pointer or focus says; empty: it is not shown.
const valueShown = `[...document.querySelectorAll(".value.shown")].map(e => e.textContent).join()`

// place is a point of a drawing in the window, with what it says.
type place struct {
	X, Y float64
	Text string
}

// placeOf scrolls to the middle point of a drawing, and tells where it is.
func (b *tab) placeOf(figure string) place {
	b.t.Helper()
	return ask[place](b, `(() => {
		const f = `+figure+`, lines = f.dataset.points.split("\n"), [x, y, ...text] = lines[Math.floor(lines.length / 2)].split(" ")
		f.scrollIntoView({ block: "center", behavior: "instant" })
		const svg = f.querySelector("svg"), r = svg.getBoundingClientRect(), scale = r.width / svg.viewBox.baseVal.width
		return { X: r.left + x * scale, Y: r.top + y * scale, Text: text.join(" ") }
	})()`)
}

// value is what every point says: in words what it is, and a number.
var value = regexp.MustCompile(`[a-zA-Z]{2}.*\d`)

// Every point of every figure says what it is and a number, and lies inside its drawing. The board's page and those of the choices have
// such figures.
func TestEveryPointSaysAValue(t *testing.T) {
	for _, page := range kinds(t) {
		b := look(t, page)
		points := ask[[]place](b, `[...document.querySelectorAll("[data-points]")].flatMap(f => { const box = f.querySelector("svg").viewBox.baseVal; return f.dataset.points.split("\n").map(l => { const [x, y, ...text] = l.split(" "); return { X: x / box.width, Y: y / box.height, Text: text.join(" ") } }) })`)
		if page == "index.html" || strings.HasPrefix(page, "choice-") {
			require.Greater(t, len(points), 10, page)
		}
		for _, p := range points {
			require.Regexp(t, value, p.Text, page)
			require.True(t, p.X >= 0 && p.X <= 1 && p.Y >= 0 && p.Y <= 1, "%s: %q lies outside its drawing", page, p.Text)
		}
		t.Logf("%s: %d points", page, len(points))
	}
}

// The pointer over a point reads its value, inside the window; away from it, nothing is said. At the desk and on a phone.
func TestPointerReadsValues(t *testing.T) {
	for _, width := range []int64{wide, small} {
		b := openIndex(t, width)
		p := b.placeOf(figure("margin"))
		b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, p.X, p.Y))
		b.await("the value", fmt.Sprintf("%s === %q", valueShown, p.Text))
		require.Contains(t, p.Text, "%", "a static margin has its unit")
		require.Empty(t, ask[[]string](b, stickingOut), "the box sticks out")
		b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, 1, 1))
		b.await("nothing is said", valueShown+` === ""`)
		b.quiet()
	}
}

// Keys step through the points of a figure from the first to the last; Escape closes the value.
func TestKeysStepThroughValues(t *testing.T) {
	b := openIndex(t, wide)
	f := figure("margin")
	texts := ask[[]string](b, f+`.dataset.points.split("\n").map(l => l.split(" ").slice(2).join(" "))`)
	require.Greater(t, len(texts), 2)
	last := len(texts) - 1
	require.Equal(t, 0, ask[int](b, f+".tabIndex"), "reached by the Tab key")
	ask[bool](b, f+".focus(); true")
	for _, step := range []struct {
		key  string
		says string
	}{
		{kb.ArrowRight, texts[0]}, {kb.ArrowRight, texts[1]}, {kb.ArrowDown, texts[2]}, {kb.ArrowLeft, texts[1]},
		{kb.End, texts[last]}, {kb.ArrowRight, texts[last]}, {kb.Home, texts[0]}, {kb.ArrowUp, texts[0]}, {kb.Escape, ""},
	} {
		b.do(chromedp.KeyEvent(step.key))
		require.Equal(t, step.says, ask[string](b, valueShown))
	}
	b.quiet()
}

// A finger on a point reads its value too.
func TestFingerReadsValues(t *testing.T) {
	b := newTab(t, small)
	b.do(chromedp.EmulateViewport(small, tall, chromedp.EmulateMobile, chromedp.EmulateTouch))
	b.openFile(filepath.Join(reportFolder(t), "index.html"))
	p := b.placeOf(figure("margin"))
	b.do(chromedp.TapXY(p.X, p.Y))
	b.await("the value", fmt.Sprintf("%s === %q", valueShown, p.Text))
	b.quiet()
}
