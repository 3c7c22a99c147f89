package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// TestFlightPageSaysWhatCounts renders a flight that counts, one that the shop left out, and one without a log.
func TestFlightPageSaysWhatCounts(t *testing.T) {
	page := FlightPage{Program: "Sandreed", Flight: "<F 03/b>", Date: "2026-04-04", Used: true, Sentence: "good: 24 test points kept", Strip: &StripDrawing{SVG: []byte("<svg><path/></svg>"), Title: "over time", Log: "logs/f 3.csv"},
		Sections: []PageSection{{Title: "Test points", Tables: []Section{{Heads: []string{"time, s", "why"}, Rows: [][]string{{"1–2", "kept & used"}}}}},
			{Title: "Found", Tables: []Section{{Heads: []string{"time, s", "what"}, Rows: [][]string{{"3–4", "a gap"}}}, {Title: "stalls", Heads: []string{"time, s"}, Rows: [][]string{{"5"}}}}}, {Title: "Cards", None: "No card was planned."}}}
	body, err := page.Render()
	require.NoError(t, err)
	text := string(body)
	for _, want := range []string{"<strong>Used</strong>", "Flight &lt;F 03/b&gt;", "4 April 2026", "good: 24 test points kept", `aria-label="Test points: table by time, s"`, `aria-label="Found: table by time, s"`, `aria-label="Stalls"`, `aria-label="over time"><svg><path/></svg></div>`, `wingproof look &#34;logs/f 3.csv&#34; <span style="white-space:nowrap">--figure strip.png</span>`, "kept &amp; used", "No card was planned."} {
		require.Contains(t, text, want)
	}
	for _, never := range []string{"<script", " src=", "figures/"} {
		require.NotContains(t, text, never, "the page lacks nothing when it is sent alone")
	}
	page.Used, page.WhyNot, page.Why, page.Strip, page.NoLog = false, "sand in the tube", "sand in the tube", nil, "the log logs/x.csv is not there"
	body, err = page.Render()
	require.NoError(t, err)
	require.Contains(t, string(body), "<strong>Left out by the shop: sand in the tube</strong>")
	require.Contains(t, string(body), "Nothing can be shown of the log: the log logs/x.csv is not there.")
	page.WhyNot = ""
	body, err = page.Render()
	require.NoError(t, err)
	require.Contains(t, string(body), "<strong>Left out: sand in the tube</strong>")
}

// TestChoicePageGathersWhatWaits puts parts that one thing clears into one row.
func TestChoicePageGathersWhatWaits(t *testing.T) {
	row := func(part, clears string, hours float64) decide.Row {
		return decide.Row{Part: part, Side: "both", Status: decide.Pending, Action: decide.Wait, Clears: clears, HoursLeft: hours}
	}
	page := ChoicePage{Program: "Sandreed", Verdict: decide.ChoiceVerdict{Choice: "winglet", State: decide.Open, Live: []string{"mid", "small"}, Why: "both pass"}, NoTable: "no polar",
		Waiting: []decide.Row{row("fairing", "a proof load", 5), row("mould", "two glides", 40), row("plug", "two glides", 20)}}
	s := page.clears()
	require.Equal(t, [][]string{{"Two glides", "mould; plug", "60 h"}, {"A proof load", "fairing", "5.0 h"}}, s.Tables[0].Rows)
	require.Contains(t, s.Lead, "3 parts wait for this choice")
	body, err := page.Render()
	require.NoError(t, err)
	for _, want := range []string{"Not decided: mid or small.", "Both pass.", "The sizes cannot be compared: no polar.", "Nothing has been decided"} {
		require.Contains(t, string(body), want)
	}
}
