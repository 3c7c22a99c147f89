package report

import (
	"html"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// sampleOutlook has a step that clears six parts, one that narrows, one that does nothing, and a pair.
func sampleOutlook() decide.Outlook {
	part := func(name string, hours, chance float64) decide.PartProspect {
		return decide.PartProspect{Part: name, Side: "left", HoursLeft: hours, Chance: chance}
	}
	scales := decide.Prospect{Candidate: decide.Candidate{Say: "put it on scales", Why: "weights are estimated"}, Hours: 61.4,
		Parts: []decide.PartProspect{part("skin", 40, 1), part("rib", 20, 0.7), part("well", 20, 0.5), part("flap", 9, 0.1), part("tab", 1, 0.1), part("lid", 1, 0.1)}}
	return decide.Outlook{Parts: 6, Waiting: 91, Endless: decide.Prospect{Hours: 20},
		Prospects: []decide.Prospect{scales,
			{Candidate: decide.Candidate{Say: "fly winglet=mid twice", Why: "as so far", Flights: 2}, Narrows: decide.Narrowing{Limit: "aft margin", Configuration: "winglet=mid", Now: 4, After: 3}},
			{Candidate: decide.Candidate{Say: "film the servos"}}},
		Together: []decide.Prospect{{Candidate: decide.Candidate{Say: "put it on scales, and fly winglet=mid twice"}, Hours: 80}},
		Settle:   decide.Prospect{Candidate: decide.Candidate{Say: "settle winglet mid", Why: "together they pass every limit"}, Hours: 40, Parts: []decide.PartProspect{part("skin", 40, 1)}}}
}

// nextOf is the section as text.
func nextOf(t *testing.T, c Content) string {
	t.Helper()
	page := render(t, c)
	require.Less(t, strings.Index(page, `id="open"`), strings.Index(page, `id="next"`))
	require.Less(t, strings.Index(page, `id="next"`), strings.Index(page, `id="margin"`))
	require.Contains(t, page, `<a href="#next">What next</a>`)
	_, section, found := strings.Cut(page, `<section id="next"`)
	require.True(t, found)
	section, _, _ = strings.Cut(section, "</section>")
	return html.UnescapeString(section)
}

// The page says what the terminal says, and that it is a forecast.
func TestThePageSaysWhatToDoNext(t *testing.T) {
	c := sample(t)
	c.Next = Next{State: NextKnown, Outlook: sampleOutlook()}
	section := nextOf(t, c)
	at := 0
	for _, want := range []string{"FORECAST, nothing here was measured yet", "Parts with 91 shop hours wait", "Without any measurement: settle winglet mid, since together they pass every limit: 40 hours",
		"The decision alone would clear: skin, left.", "<caption>Forecast", `scope="row">Put it on scales`, ">61<", "<li>skin, left (nearly sure)</li><li>rib, left (likely)</li><li>well, left (even)</li><li>flap, left (unlikely)</li></ul>",
		"and 2 more", "tab, left", "lid, left", "Fly winglet mid twice", ">–<", "nothing by itself", "aft margin with winglet mid: the 95 % range shrinks to 75 % of what it is now",
		"hardly narrow what is open: film the servos.", "Two together: put it on scales, and fly winglet mid twice: 80 hours.", "Any number of flights would clear about 20 of these 91 hours", "Fly within local rules"} {
		i := strings.Index(section[at:], want)
		require.GreaterOrEqual(t, i, 0, "%q is missing or stands too early:\n%s", want, section)
		at += i
	}
	require.NotContains(t, section, "being worked out")
	elements(t, closed(render(t, c))) // well formed
}

// A page without a forecast says why, and what waits.
func TestThePageSaysWhyThereIsNoForecast(t *testing.T) {
	c := sample(t)
	section := nextOf(t, c)
	require.Contains(t, section, "The forecast is being worked out.")
	require.Contains(t, section, "3 parts wait, with 116 hours of work left", "64 + 12 + 40")
	require.NotContains(t, section, "<table")

	c.Next = Next{State: NextFailed, Failed: "motions cannot be computed"}
	section = nextOf(t, c)
	require.Contains(t, section, "No forecast could be made: motions cannot be computed. The rest of this page does not rest on it.")
	require.NotContains(t, section, "being worked out")

	c.Next = Next{State: NextKnown}
	require.Contains(t, nextOf(t, c), "No part waits for a flight or a measurement: what is left are decisions, sign-offs and gaps in parts.csv. The board above names them.")

	c.Verdict.Board = nil
	require.Contains(t, nextOf(t, c), "parts.csv lists no parts")
}
