package report

import (
	"fmt"
	"html"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

func boardPageOf(t *testing.T, c Content) string {
	t.Helper()
	page, err := BoardPage(c)
	require.NoError(t, err)
	elements(t, strings.ReplaceAll(closed(string(page)), "&nbsp;", " "))
	return html.UnescapeString(string(page))
}

func TestWallSheetCarriesWhatAShopMustSee(t *testing.T) {
	page := boardPageOf(t, sample(t))
	at := -1
	for _, want := range []string{
		"Sandreed two-seater (invented)", "Sheet 7", "Sheet 7 of 3 April 2026, issued by R. Holm", "newest flight used: flight 14 of 2 April 2026", "void when a sheet with a higher number hangs",
		"ALARM", "laid up for winglet tall", "Changed since sheet 6", "NOT DECIDED: winglet", "OUT: winglet tall", "How sure:",
		"winglet mould, left", "stop and ask", "main spar, left", "CHANGED, was carry on", "strake tank skin, right", "start:", "mill the plug", "needed by 10 April", "rudder", "wait", "canopy frame", "done",
		"To clear:", "Decided:", "foreplane settled at small, A. Berg, 30 March 2026", "large one fails the aft margin",
		"Not judged here: flutter and mass balance", "it never says that an aircraft is safe to fly",
	} {
		next := strings.Index(page[at+1:], want)
		require.GreaterOrEqual(t, next, 0, "%q is missing or stands too early", want)
		at += 1 + next
	}
	require.NotContains(t, page, "“slip”", "a decision that was taken back is history")
}

func TestDraftSaysThatItIsOne(t *testing.T) {
	c := sample(t)
	c.Sheet = Sheet{Date: "2026-04-03"}
	page := boardPageOf(t, c)
	require.Contains(t, page, "<strong>DRAFT</strong>")
	require.Contains(t, page, "not issued, do not work from it")
}

// Every row names what would clear it by a letter, and the letter stands below with the whole text.
func TestLettersLeadToWhatClears(t *testing.T) {
	w := newWallSheet(sample(t))
	letters := map[string]string{}
	for _, way := range w.Ways {
		letters[way.Letter] = way.Clears
	}
	byPart := map[string]wallRow{}
	for _, r := range w.Rows {
		byPart[r.Part] = r
	}
	require.Equal(t, "ask the designer", letters[byPart["main spar, left"].Way])
	require.Equal(t, "settle the winglet", letters[byPart["rudder"].Way])
	require.Empty(t, byPart["canopy frame"].Way)
	require.Equal(t, "winglet mould, left", w.Ways[0].Parts[0], "most waiting hours first")
	require.Equal(t, "A", w.Ways[0].Letter)
}

// rowsOf is a board of so many rows of about the demo's length.
func rowsOf(n int) Content {
	c := Content{Program: "Sandreed", Date: "2026-04-03"}
	for i := range n {
		row := decide.Row{Part: fmt.Sprintf("wing skin number %02d", i), Stage: "drawn", Action: decide.Wait, Clears: "decide on the winglet", Reasons: []string{"waits for the winglet: mid and small are both still possible"}, NeededBy: "2026-06-19", Responsible: "T.O.", HoursLeft: 10}
		if i%3 == 0 {
			row.Action, row.Next, row.Clears, row.Reasons = decide.Start, "mill the plug", "", []string{"no undecided question touches this part"}
		}
		c.Verdict.Board = append(c.Verdict.Board, row)
	}
	return c
}

func sizesOf(t *testing.T, page string) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	for _, pair := range regexp.MustCompile(`--(\w+):([0-9.]+)mm`).FindAllStringSubmatch(page, -1) {
		v, err := strconv.ParseFloat(pair[2], 64)
		require.NoError(t, err)
		out[pair[1]] = v
	}
	return out
}

// Capitals are 0.688 of the size high: 8.0 mm of size give 5.5 mm, 6.4 mm give the 4.4 mm that five minutes of arc are at three metres.
func TestLettersFollowTheNumberOfRows(t *testing.T) {
	const capital = 0.688
	before := 100.0
	for _, n := range []int{3, 10, 22, 25, 26, 40} {
		size := sizesOf(t, boardPageOf(t, rowsOf(n)))
		require.LessOrEqual(t, size["tall"], before)
		require.GreaterOrEqual(t, capital*size["tall"], 4.4-0.01, "%d rows: never smaller than can be read", n)
		before = size["tall"]
	}
	short := rowsOf(3)
	for i := range short.Verdict.Board {
		short.Verdict.Board[i].Part = "spar"
	}
	require.InDelta(t, mostLetters, sizesOf(t, boardPageOf(t, short))["tall"], letterStep)
	w := newWallSheet(rowsOf(1))
	m, fits := w.fit(sheetBoxes()[0])
	require.True(t, fits)
	require.Equal(t, 1, m.bold.lines(w.Rows[0].Part, m.size, m.partWidth), "a name does not break for being large")
	require.GreaterOrEqual(t, capital*sizesOf(t, boardPageOf(t, rowsOf(22)))["tall"], 5.5)
	size := sizesOf(t, boardPageOf(t, rowsOf(40)))
	require.InDelta(t, leastLetters, size["portrait"], 1e-9)
	require.Greater(t, size["great"], 1.4*leastLetters/1.1, "A3 has room for larger ones")
}

// A board that is too long for a sheet says so, breaks between rows, and loses none.
func TestTooManyRowsTakeMorePagesAndLoseNone(t *testing.T) {
	short, long := boardPageOf(t, rowsOf(20)), boardPageOf(t, rowsOf(70))
	require.NotContains(t, short, "this board takes")
	require.NotContains(t, short, `class="turn"`)
	require.Contains(t, long, "On A4 or Letter this board takes 3 pages: hang all of them side by side.")
	require.Contains(t, long, "page 2 of 3")
	require.Contains(t, long, "page 3 of 3")
	for i := range 70 {
		require.Equal(t, 1, strings.Count(long, fmt.Sprintf("wing skin number %02d<", i)))
	}
	w := newWallSheet(rowsOf(70))
	w.lay()
	m, _ := w.fit(sheetBoxes()[0])
	height := w.above(m)
	for i, r := range w.Rows {
		if r.Turn > 0 {
			require.LessOrEqual(t, height, m.box.Height)
			height = 0
		}
		height += w.rowHeight(m, i)
	}
	require.LessOrEqual(t, height, m.box.Height)
}

// What a long board says of its pages takes room on the first of them.
func TestWordsAboutPagesTakeRoom(t *testing.T) {
	w := newWallSheet(rowsOf(45))
	w.lay()
	m, _ := w.fit(sheetBoxes()[0])
	require.NotEmpty(t, w.PagesWords())
	with, line := w.above(m), m.note()*leading
	w.Leaves = 1
	require.GreaterOrEqual(t, with-w.above(m), line-1e-9)
	broad := measure{bold: w.bold, plain: w.plain, box: sheetBoxes()[3], size: leastLetters}
	require.Equal(t, "broad", broad.box.Name)
	require.NotEmpty(t, w.UprightWords())
	with = w.above(broad)
	w.Upright = false
	require.InDelta(t, broad.small()*leading, with-w.above(broad), 1e-9)
}

// However many rows there are, the first page has room for its head with the words about pages, and for the rows on it.
func TestFirstPageOverflowsForNoNumberOfRows(t *testing.T) {
	for n := 20; n < 80; n++ {
		w := newWallSheet(rowsOf(n))
		w.lay()
		m, _ := w.fit(sheetBoxes()[0])
		height := w.above(m)
		for i, r := range w.Rows {
			if r.Turn > 0 {
				break
			}
			height += w.rowHeight(m, i)
		}
		require.LessOrEqual(t, spare*height, m.box.Height+1e-9, "%d rows", n)
	}
}

func TestAnEmptyBoardIsSaid(t *testing.T) {
	require.Contains(t, boardPageOf(t, Content{}), "No parts to judge")
}

func TestLinesBreakBetweenWords(t *testing.T) {
	l := newLettering(false)
	em := l.width("n n n", 10)
	require.Equal(t, 1, l.lines("n n n", 10, em+0.01))
	require.Equal(t, 3, l.lines("n n n", 10, l.width("n", 10)+0.01))
	require.Equal(t, 2, l.lines("n n n", 10, l.width("n n", 10)+0.01))
	require.Equal(t, 4, l.lines("nnnnnnnn", 10, 2.2*l.width("n", 10)), "a word that is wider than the room breaks")
	require.Equal(t, 1, l.lines("", 10, 1))
	require.InDelta(t, 2, l.width("m", 20)/l.width("m", 10), 1e-9)
	require.Greater(t, newLettering(true).width("shell", 10), l.width("shell", 10))
}
