package browser_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/report"
)

// paper is a size of paper in inches, with its name.
type paper struct {
	name string
	size chromedp.PaperSize
}

// papers are the two that a shop's printer holds.
func papers() []paper {
	return []paper{{"A4", chromedp.PaperA4}, {"Letter", chromedp.PaperLetter}}
}

// pageObject is the beginning of one page in a PDF; /Pages is the list of them.
var pageObject = regexp.MustCompile(`/Type\s*/Page[^s]`)

// printed prints the page, with its own margins and without backgrounds, as a print dialogue does if nobody touches it.
func (b *tab) printed(p paper) []byte {
	b.t.Helper()
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(p.size)))
	require.NoError(b.t, err)
	return pdf
}

func sheetsOfPaper(pdf []byte) int { return len(pageObject.FindAll(pdf, -1)) }

// The wall sheet is one sheet of paper, the newest and the one that was issued, whatever paper the printer holds and whether
// or not the reader's screen is dark.
func TestWallSheetIsOneSheet(t *testing.T) {
	for _, page := range []string{"board.html", "sheet-1.html"} {
		b := look(t, page)
		for _, p := range papers() {
			for _, dark := range []bool{false, true} {
				b.show(media{dark: dark})
				require.Equal(t, 1, sheetsOfPaper(b.printed(p)), "%s on %s", page, p.name)
			}
		}
		b.quiet()
	}
}

// longBoard is a wall sheet of so many rows.
func longBoard(t *testing.T, rows int) string {
	t.Helper()
	c := report.Content{Program: "Sandreed (invented)", Date: "2026-04-03"}
	for i := range rows {
		row := decide.Row{Part: fmt.Sprintf("wing skin number %02d", i), Stage: "drawn", Action: decide.Wait, Clears: "decide on the winglet", Reasons: []string{"waits for the winglet: mid and small are both still possible"},
			NeededBy: "2026-06-19", Responsible: "T.O.", HoursLeft: 10}
		if i%3 == 0 {
			row.Action, row.Next, row.Clears, row.Reasons = decide.Start, "mill the plug", "", []string{"no undecided question touches this part"}
		}
		c.Verdict.Board = append(c.Verdict.Board, row)
	}
	page, err := report.BoardPage(c)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "board.html")
	require.NoError(t, os.WriteFile(path, page, 0o644))
	return path
}

// A board takes as many sheets as it says, one where it says nothing, and so breaks where it says: were a page too full, there would be one
// more.
func TestLongBoardTakesThePagesThatItSays(t *testing.T) {
	for _, rows := range []int{30, 38, 45, 70} {
		b := newTab(t, wide)
		b.openFile(longBoard(t, rows))
		says := ask[int](b, `Number((document.querySelector(".pages")?.textContent.match(/takes (\d+) pages/) ?? [0, 1])[1])`)
		for _, p := range papers() {
			require.Equal(t, says, sheetsOfPaper(b.printed(p)), "%d rows on %s", rows, p.name)
		}
	}
}

// All other pages print on some sheets, and no whim of the window matters to the paper.
func TestOtherPagesPrint(t *testing.T) {
	for _, page := range kinds(t) {
		b := look(t, page)
		for _, p := range papers() {
			sheets := sheetsOfPaper(b.printed(p))
			require.Positive(t, sheets, "%s on %s", page, p.name)
			t.Logf("%s on %s: %d sheets", page, p.name, sheets)
			if p.name != "A4" {
				continue
			}
			b.resize(small)
			b.show(media{dark: true})
			require.Equal(t, sheets, sheetsOfPaper(b.printed(p)), "%s on %s from a narrow dark window", page, p.name)
			b.resize(wide)
			b.show(media{})
		}
		b.quiet()
	}
}

// onPaper measures what must not be cut by the edge of a sheet: figures and rows that are printed, each with its height in CSS
// pixels and whether the style sheet keeps it whole.
const onPaper = `[...document.querySelectorAll("figure, tbody tr, .alarms")].filter(e => e.getBoundingClientRect().height > 0).map(e => ({
	Name: e.tagName + " " + e.textContent.trim().slice(0, 40),
	Figure: e.tagName === "FIGURE",
	Height: e.getBoundingClientRect().height,
	Whole: getComputedStyle(e).breakInside.startsWith("avoid"),
}))`

// hiddenInBoxes lists the boxes that scroll sideways on a screen and are wider than what they show.
const hiddenInBoxes = `[...document.querySelectorAll("*")].filter(e => !e.ownerSVGElement && getComputedStyle(e).overflowX !== "visible" && e.clientWidth > 1 && e.scrollWidth > e.clientWidth + 1).map(e => e.tagName + "." + e.className + ": " + e.textContent.trim().slice(0, 60))`

type block struct {
	Name   string
	Figure bool
	Height float64
	Whole  bool
}

// No figure and no row is cut by the edge of the paper: the style keeps each whole, and each figure is lower than the sheet
// inside its margins, laid out at the width of the paper.
func TestNothingIsCutOnPaper(t *testing.T) {
	const inch = 96 // CSS pixels
	for _, page := range kinds(t) {
		b := look(t, page)
		b.show(media{kind: "print"})
		for _, p := range papers() {
			margin := printMargin(b)
			b.resize(int64(p.size.Width*inch - 2*margin))
			for _, block := range ask[[]block](b, onPaper) {
				require.True(t, block.Whole, "%s: %s may be cut", page, block.Name)
				if block.Figure {
					require.Less(t, block.Height, p.size.Height*inch-2*margin, "%s on %s: %s", page, p.name, block.Name)
				}
			}
			require.Empty(t, ask[[]string](b, stickingOut), "%s on %s", page, p.name)
			require.Empty(t, ask[[]string](b, hiddenInBoxes), "%s on %s: nobody can scroll paper", page, p.name)
		}
	}
}

// printMargin is the greatest margin that the page asks for on paper, in CSS pixels; 1 cm where it asks for none.
func printMargin(b *tab) float64 {
	b.t.Helper()
	return ask[float64](b, `(() => {
		const to = { mm: 96 / 25.4, cm: 96 / 2.54, in: 96, pt: 96 / 72, px: 1 }
		const rules = [...document.styleSheets].flatMap(s => [...s.cssRules]).flatMap(r => r.cssRules ? [r, ...r.cssRules] : [r])
		const margins = rules.filter(r => r.constructor.name === "CSSPageRule").flatMap(r => (r.style.margin.match(/[\d.]+[a-z]+/g) || []).map(m => parseFloat(m) * to[m.replace(/[\d.]+/, "")]))
		return margins.length ? Math.max(...margins) : 96 / 2.54
	})()`)
}

// Paper is white and its ink dark, also when the screen is dark; what only a screen can use is not printed.
func TestPaperIsWhite(t *testing.T) {
	for _, page := range kinds(t) {
		b := look(t, page)
		b.show(media{kind: "print", dark: true})
		l := ask[lights](b, luminances)
		require.InDelta(t, 1, l.Paper, 1e-9, page)
		require.Less(t, l.Ink, 0.03, page)
		for _, figure := range l.Figures {
			require.InDelta(t, 1, figure, 1e-9, page)
		}
		controls := ask[[]string](b, `[...document.querySelectorAll("nav, button, select, input")].filter(e => e.getClientRects().length > 0).map(e => e.outerHTML.slice(0, 80))`)
		require.Empty(t, controls, page)
	}
}
