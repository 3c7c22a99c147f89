package report

import (
	"html"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// Each row of the record in the shop's words, by hand.
func TestDecidedInWords(t *testing.T) {
	rows := sampleDecided()
	for i, want := range []struct{ what, became, basis, holds string }{
		{"foreplane settled at large", "taken back by row 2", "the row does not say on which evidence", ""},
		{"row 1 taken back", "stands", "on which files cannot be told any more (evidence/01234567….txt is missing or was changed); flown after that day: 13 and 14", ""},
		{"foreplane settled at small", "stands", "on 2 flights (10 left out today); since then 2 more flights (13 and 14); changed: program.toml and shape/winglet.csv",
			"the evidence bears it out: small passes every limit in every combination still possible"},
		{"flutter and mass balance signed off", "lapsed for the parts shaped by the winglet (row 5): they wait for a new one", "on no flight; nothing has changed since", ""},
		{"winglet reopened", "stands", "on 1 flight; nothing has changed since", ""},
	} {
		require.Equal(t, want.what, rows[i].What())
		require.Equal(t, want.became, rows[i].Became())
		require.Equal(t, want.basis, rows[i].Basis())
		require.Equal(t, want.holds, rows[i].Holds())
	}
	one := Decided{Event: "signoff", Choice: "flutter_and_mass_balance", Level: "winglet, left"}
	require.Equal(t, "flutter and mass balance signed off for the winglet, left only", one.What())
	ended := Decided{Standing: Ended, By: 3}
	require.Equal(t, "ended by row 3", ended.Became())
	many := Decided{Evidence: ChangedEvidence, FlightsThen: []string{"1"}, FlightsSince: strings.Split("2 3 4 5 6 7 8", " ")}
	require.Equal(t, "on 1 flight; since then 7 more flights (2, 3, 4, 5, 6 and 2 more flights)", many.Basis())
}

// What the evidence says of a settled level now, whatever it said then.
func TestWhetherTheEvidenceStillHolds(t *testing.T) {
	d := Decided{Level: "tall", Why: "because", StateWhy: "aft margin fails"}
	for state, want := range map[string]string{
		decide.Unproven: "the evidence does not prove tall: aft margin fails", decide.Out: "THE EVIDENCE NOW RULES TALL OUT: aft margin fails", "": "",
	} {
		d.State = state
		require.Equal(t, want, d.Holds())
	}
	d.State, d.Why = decide.Out, "against the evidence (out): because"
	require.Equal(t, "the evidence rules tall out, as it did then: aft margin fails", d.Holds())
}

func TestSheetInWords(t *testing.T) {
	s := sampleIssue()
	require.Equal(t, "Sheet 7 of 3 April 2026, issued by R. Holm; newest flight used: flight 14 of 2 April 2026; void when a sheet with a higher number hangs", s.Head())
	require.Equal(t, []string{
		"main spar, left: carry on → stop and ask, mould → laid up",
		"strake tank skin, right: wait → start",
		"canopy frame: still done, laid up → fitted",
		"rudder: new on the board, wait",
		"hatch: not on the board any more, was start",
	}, s.ChangeLines())
	require.Empty(t, s.Alarm(), "the new sheet takes the place of the old one")
	s.Number = 0
	require.Equal(t, "Draft of 3 April 2026, not issued, do not work from it; newest flight used: flight 14 of 2 April 2026; on the wall: sheet 6 of 27 March 2026, issued by A. Berg", s.Head())
	require.Equal(t, "sheet 6 on the wall still lets work go on with main spar, left (now: stop and ask). Tell the crew, and issue a new sheet (report --issue WHO)", s.Alarm())
	for _, part := range strings.Split("a b c d e f", " ") {
		s.Changed = append(s.Changed, Change{Part: part, Was: "start", Is: "wait", Withdrawn: true})
	}
	require.Contains(t, s.Alarm(), "go on with main spar, left (now: stop and ask); a (now: wait); b (now: wait); c (now: wait); d (now: wait); 2 more parts. Tell")
	s.Changed = nil
	require.Equal(t, "Nothing has changed since sheet 6", s.ChangesHead())
	require.Equal(t, "Draft of 3 April 2026, not issued, do not work from it; no flight used; no sheet has been issued yet", Sheet{Date: "2026-04-03"}.Head())
	require.Empty(t, Sheet{}.ChangesHead())
}

func TestBoardWithItsSheet(t *testing.T) {
	c := sample(t)
	text := printed(t, func(w io.Writer) error {
		return Board{Verdict: c.Verdict, Sheet: &c.Sheet, Decided: c.Decisions}.Write(w, 100)
	})
	requireWidth(t, text, 100)
	at := -1
	text = strings.Join(strings.Fields(text), " ")
	for _, want := range []string{
		"Sheet 7 of 3 April 2026", "ALARM: main spar", "Changed since sheet 6: - main spar, left: carry on → stop and ask", "stop and ask: do not cut", "start: mill the plug", "carry on: take the mould",
		"Decided so far: 3. foreplane settled at small, 30 March 2026, A. Berg: “large one fails the aft margin”. Decided on 2",
		"The evidence bears it out", "4. flutter and mass balance signed off", "Lapsed for the parts shaped by the winglet (row 5)", "Not in force any more, or taking something back: 3 rows of decisions.csv", "Not judged here: flutter",
	} {
		next := strings.Index(text[at+1:], want)
		require.GreaterOrEqual(t, next, 0, "%q is missing or stands too early in\n%s", want, text)
		at += 1 + next
	}
	require.Equal(t, 3, strings.Count(text, "(was ")+strings.Count(text, "(new)"), "only rows whose word changed are marked")
}

func TestPageMarksRowsAndTellsTheRecord(t *testing.T) {
	text := html.UnescapeString(render(t, sample(t)))
	for _, want := range []string{
		`<span class="was">was wait</span>`, `<span class="was">was carry on</span>`, `<span class="was">new</span>`, "sheet 7, board of 3 April 2026</title>",
		"Foreplane settled at small", "On 2 flights (10 left out today); since then 2 more flights (13 and 14)", "The evidence bears it out: small passes", "Taken back by row 2",
	} {
		require.Contains(t, text, want)
	}
	c := sample(t)
	c.Sheet.Number = 0
	text = html.UnescapeString(render(t, c))
	require.Contains(t, text, `<p class="sheet draft">Draft of 3 April 2026, not issued, do not work from it`)
	require.NotContains(t, text, "void when")
}
