package browser_test

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// stickingOut lists what reaches beyond the window or out of its own frame: elements that are shown, but for those that are
// hidden on purpose (for readers that hear the page, one pixel or far off to the left) and for what lies in a box that scrolls
// by itself; and texts of a figure that the figure cuts.
const stickingOut = `(() => {
	const name = e => e.tagName.toLowerCase() + (e.id ? "#" + e.id : "") + (e.className.baseVal === undefined && e.className ? "." + e.className : "")
	const scrolls = e => { for (e = e.parentElement; e && e !== document.body; e = e.parentElement) if (/auto|scroll/.test(getComputedStyle(e).overflowX)) return true; return false }
	const aside = e => { for (; e; e = e.parentElement) { const r = e.getBoundingClientRect(); if (r.right < 0 || getComputedStyle(e).clipPath === "inset(50%)") return true } return false }
	const out = []
	if (document.documentElement.scrollWidth > innerWidth) out.push("the page is " + document.documentElement.scrollWidth + " wide")
	for (const e of document.body.querySelectorAll("*")) {
		const r = e.getBoundingClientRect()
		if (r.width === 0 || r.height === 0 || e.ownerSVGElement || getComputedStyle(e).opacity === "0") continue
		if ((r.right > innerWidth + 1 || r.left < -1) && !aside(e) && !scrolls(e)) out.push(name(e) + " from " + r.left.toFixed() + " to " + r.right.toFixed() + ": " + e.textContent.trim().slice(0, 60))
	}
	for (const text of document.querySelectorAll("svg text")) {
		const r = text.getBoundingClientRect(), frame = text.ownerSVGElement.getBoundingClientRect()
		if (r.width > 0 && (r.right > frame.right + 1 || r.left < frame.left - 1 || r.bottom > frame.bottom + 1 || r.top < frame.top - 1)) out.push("figure cuts " + text.textContent)
	}
	return out
})()`

// Nothing sticks out at desk, tablet and phone width, and no page complains or asks for anything outside its folder.
func TestEveryPageFitsEveryWidth(t *testing.T) {
	for _, page := range openedPages(t) {
		t.Run(page, func(t *testing.T) {
			b := look(t, page)
			for _, width := range []int64{wide, middling, small} {
				b.resize(width)
				require.Empty(t, ask[[]string](b, stickingOut), "%d px", width)
			}
			b.quiet()
		})
	}
}

// Opening all that can be opened makes nothing stick out either.
func TestOpenedReasonsFit(t *testing.T) {
	for _, page := range kinds(t) {
		b := newTab(t, small)
		b.openFile(filepath.Join(reportFolder(t), page))
		ask[int](b, `[...document.querySelectorAll("details")].map(d => d.open = true).length`)
		require.Empty(t, ask[[]string](b, stickingOut), page)
		b.quiet()
	}
}

// Every page names itself: a title, one first heading that says something, a language, and a width for phones.
func TestEveryPageNamesItself(t *testing.T) {
	titles := map[string]string{}
	for _, page := range openedPages(t) {
		b := look(t, page)
		title := ask[string](b, "document.title")
		require.NotEmpty(t, title, page)
		require.Empty(t, titles[title], "%s has the title of another page: %s", page, title)
		titles[title] = page
		heads := ask[[]string](b, `[...document.querySelectorAll("h1")].map(h => h.textContent.trim())`)
		require.Len(t, heads, 1, page)
		require.NotEmpty(t, heads[0], page)
		require.Equal(t, "en", ask[string](b, "document.documentElement.lang.slice(0, 2)"), page)
		require.Equal(t, 1, ask[int](b, `document.querySelectorAll("meta[name=viewport]").length`), page)
	}
}

// luminances of the page's paper, its ink and of what lies behind each figure, from 0 (black) to 1 (white).
const luminances = `(() => {
	const light = colour => { const [r, g, b] = colour.match(/[\d.]+/g).map(v => v / 255).map(v => v <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4); return .2126 * r + .7152 * g + .0722 * b }
	const behind = e => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor; if (!/, 0\)$/.test(c)) return light(c) } return 1 }
	return { Paper: behind(document.body), Ink: light(getComputedStyle(document.body).color), Figures: [...document.querySelectorAll("figure svg")].filter(s => s.getBoundingClientRect().width > 0).map(behind) }
})()`

type lights struct {
	Paper, Ink float64
	Figures    []float64
}

// In the dark the paper is dark, the ink light, and figures stay on white; in the light it is the other way about.
func TestLightAndDark(t *testing.T) {
	for _, page := range kinds(t) {
		b := look(t, page)
		for _, dark := range []bool{false, true} {
			b.show(media{dark: dark})
			l := ask[lights](b, luminances)
			require.Equal(t, dark, l.Paper < 0.05, "%s, dark %v", page, dark)
			require.Equal(t, dark, l.Ink > 0.6, "%s, dark %v", page, dark)
			for _, figure := range l.Figures {
				require.InDelta(t, 1, figure, 1e-9, "%s: a figure off white, dark %v", page, dark)
			}
		}
		b.quiet()
	}
}

// Whoever asks for reduced motion sees none: no transition, no animation, no smooth scrolling.
func TestReducedMotion(t *testing.T) {
	const moving = `[document.documentElement, ...document.querySelectorAll("*")].filter(e => { const s = getComputedStyle(e); return s.scrollBehavior === "smooth" || s.animationName !== "none" || s.transitionDuration.split(", ").some(d => parseFloat(d) > 0) }).length`
	for _, page := range kinds(t) {
		b := look(t, page)
		b.show(media{steady: true})
		require.Zero(t, ask[int](b, moving), page)
	}
}
