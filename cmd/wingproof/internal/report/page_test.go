package report

import (
	"bytes"
	"encoding/xml"
	"errors"
	"html"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/plots"
)

func render(t *testing.T, c Content) string {
	var b bytes.Buffer
	require.NoError(t, Render(&b, c))
	return b.String()
}

// element is one start tag of the page with its attributes.
type element struct {
	name       string
	attributes map[string]string
}

// elements reads the page with a parser that insists on closed and matching tags.
func elements(t *testing.T, page string) []element {
	d := xml.NewDecoder(strings.NewReader(page))
	d.AutoClose, d.Entity = xml.HTMLAutoClose, xml.HTMLEntity
	d.Strict = true
	var out []element
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		require.NoError(t, err)
		if s, ok := token.(xml.StartElement); ok {
			e := element{s.Name.Local, map[string]string{}}
			for _, a := range s.Attr {
				e.attributes[a.Name.Local] = a.Value
			}
			out = append(out, e)
		}
	}
}

// closed makes void elements readable for the strict parser.
func closed(page string) string {
	page = strings.Replace(plainOf(page), "<!DOCTYPE html>\n", "", 1)
	return regexp.MustCompile(`<(meta|link)([^>]*)>`).ReplaceAllString(page, "<$1$2/>")
}

// plainOf is the page without the one script that belongs to it; any other stays.
func plainOf(page string) string {
	own, err := script(pageScript)
	if err != nil {
		panic(err)
	}
	return strings.Replace(page, "<script>"+string(own)+"</script>", "", 1)
}

func TestPageIsWellFormedAndAccessible(t *testing.T) {
	all := elements(t, closed(render(t, sample(t))))
	count := map[string]int{}
	ids := map[string]bool{}
	for _, e := range all {
		count[e.name]++
		if id := e.attributes["id"]; id != "" {
			require.False(t, ids[id], "id %q twice", id)
			ids[id] = true
		}
		switch e.name {
		case "th":
			require.Contains(t, []string{"col", "row", "rowgroup"}, e.attributes["scope"])
		case "html":
			require.Equal(t, "en", e.attributes["lang"])
		case "svg":
			require.True(t, e.attributes["aria-hidden"] == "true" || len(e.attributes["aria-label"]) > 40, "a figure needs its finding in words")
		}
	}
	for name, want := range map[string]int{"main": 1, "nav": 1, "h1": 1, "header": 1, "footer": 1} {
		require.Equal(t, want, count[name], name)
	}
	require.Equal(t, count["table"], count["caption"], "every table has a caption")
	require.Equal(t, count["table"], count["thead"])
	require.Equal(t, 3, count["figure"])
	for _, e := range all {
		if target, inside := strings.CutPrefix(e.attributes["href"], "#"); inside {
			require.True(t, ids[target], "link to #%s leads nowhere", target)
		}
		if target := e.attributes["aria-labelledby"]; target != "" {
			require.True(t, ids[target], target)
		}
	}
}

func TestSectionsStandInTheOrderOfTheShop(t *testing.T) {
	page := render(t, sample(t))
	at := -1
	for _, want := range []string{
		"Sandreed two-seater (invented)", "Sheet 7 of 3 April 2026, issued by R. Holm", "flight 14 of 2 April 2026", "void when a sheet with a higher number hangs",
		"Alarms", "laid up for winglet tall", "stop and ask: 2 parts", `class="stop-and-ask"`, `class="start"`, `class="carry-on"`, `class="wait"`, `class="done"`,
		"Changed since sheet 6", "main spar, left: carry on → stop and ask, mould → laid up", "strake tank skin, right: wait → start", "Not judged here:", "What is open, and what would clear it", "Static margin of each configuration",
		"Lift curves</h2>", "Sizes compared", "What built parts carry", "Scaling sheet", "Flights</h2>", "Decisions</h2>",
		"Cautions</h2>", "Methods and sources", "Words</h2>", "Not judged here</h2>",
	} {
		next := strings.Index(page[at+1:], want)
		require.GreaterOrEqual(t, next, 0, "%q is missing or stands too early", want)
		at += 1 + next
	}
}

func TestBoardSaysPartActionReasonAndWhatClears(t *testing.T) {
	text := html.UnescapeString(render(t, sample(t)))
	for _, want := range []string{
		"winglet mould, left", "built to winglet mid", "do not cut", "the winglet choice is open: small and mid are both possible",
		"settle the winglet, or two flights of the small winglet", "needed by 20 April 2026, K. Lind", "Cn_β 0.047 (0.038 to 0.056) per rad at mid",
		"mill the plug", "left out", "airspeed froze at 212 s", "3.620 m (model 905 mm)", "one CG only; two more, 60 mm apart, would do",
		"9.1 (7.8 to 10.6) %", "−1.50 (−1.78 to −1.20) °", "holds with 98.1 %", "large one fails the aft margin", "+5.2 %",
	} {
		requireSays(t, text, want)
	}
}

// requireSays fails without printing the whole page.
func requireSays(t *testing.T, page, want string) {
	t.Helper()
	require.True(t, strings.Contains(page, want), "the page does not say %q", want)
}

func requireNever(t *testing.T, page, never string) {
	t.Helper()
	require.False(t, strings.Contains(page, never), "the page holds %q", never)
}

// The five words differ in mark, word and place; no colour is tied to any of them.
func TestWordsOnTheWallDoNotLeanOnColour(t *testing.T) {
	marks := map[string]bool{}
	for _, a := range actions() {
		m := markOf(a.action)
		require.False(t, marks[m], a.action)
		marks[m] = true
	}
	css, err := assets.ReadFile("assets/page.css")
	require.NoError(t, err)
	for _, a := range actions() {
		require.NotContains(t, string(css), "."+strings.ReplaceAll(a.action, " ", "-")+"{")
	}
}

func TestPageNeedsNoNetworkAndNoOtherScript(t *testing.T) {
	page := plainOf(render(t, sample(t)))
	for _, never := range []string{"<script", "src=", "url(", "@import", "javascript:", "onload"} {
		requireNever(t, page, never)
	}
	for _, address := range regexp.MustCompile(`https?://[^"'\s<]+`).FindAllString(page, -1) {
		require.Equal(t, "http://www.w3.org/2000/svg", address, "only the name of the SVG language may look like an address")
	}
	requireSays(t, html.UnescapeString(page), "default-src 'none'")
}

func TestHostileNamesStayText(t *testing.T) {
	bad := `<script>alert("x")</script>&<img src=x onerror=y>`
	c := sample(t)
	c.Program, c.Sheet.IssuedBy, c.Sheet.NewestFlight, c.Date = bad, bad, bad, bad
	c.Sheet.Changed[0].Part, c.Sheet.Changed[0].Was = bad, bad
	c.Warnings, c.Verdict.Alarms, c.Verdict.NotJudged = []string{bad}, []string{bad}, []string{bad}
	c.Verdict.Board[0].Part, c.Verdict.Board[1].Reasons[0], c.Verdict.Board[1].Clears, c.Verdict.Board[1].Action = bad, bad, bad, bad
	c.Flights[0].Flight, c.Flights[1].Findings[0].What, c.Decisions[2].Why, c.Margins[0].Configuration = bad, bad, bad, bad
	page := plainOf(render(t, c))
	requireNever(t, page, "<script")
	requireNever(t, page, "<img")
	elements(t, closed(page))
}

func TestFiguresThatAreNotPlainDrawingsAreRefused(t *testing.T) {
	for _, svg := range []string{"", "<p>no</p>", "<svg ><script>alert(1)</script></svg>", "<svg viewBox='0 0 1 1'>"} {
		c := Content{Figures: Figures{Lift: []plots.Figure{{Title: "odd", SVG: []byte(svg), Narrow: []byte(svg)}}}}
		require.ErrorContains(t, Render(io.Discard, c), `figure "odd" is not one plain svg element`)
	}
}

func TestEmptyContentSaysWhatIsMissing(t *testing.T) {
	page := render(t, Content{})
	elements(t, closed(page))
	for _, want := range []string{"No parts to judge", "Draft without a date, not issued, do not work from it; no flight used; no sheet has been issued yet", "No choice is recorded", "No flight is recorded yet",
		"Nothing has been settled yet", "no static margin was computed or measured", "program.toml states no full-size mass", "flutter and mass balance"} {
		requireSays(t, page, want)
	}
}

func TestEqualContentGivesEqualBytes(t *testing.T) {
	require.Equal(t, render(t, sample(t)), render(t, sample(t)))
}

func TestCautionsCoverTheDangersAndDefer(t *testing.T) {
	page := render(t, Content{})
	for _, want := range []string{"Flying the model", "airspace", "Moving the centre of gravity", "Stalls", "Loading tests", "Flutter", "Local codes", "licensed", "never says that an aircraft"} {
		requireSays(t, page, want)
	}
}

// Text and links keep a contrast of 4.5 against their ground, in light and in dark.
// Source of formula and threshold: W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.3.
func TestContrast(t *testing.T) {
	for sheet, grounds := range map[string][]string{"page": {"paper", "wash"}, "wall": {"paper"}} {
		css, err := assets.ReadFile("assets/" + sheet + ".css")
		require.NoError(t, err)
		schemes := regexp.MustCompile(`:root\{([^}]*)\}`).FindAllStringSubmatch(string(css), -1)
		require.Len(t, schemes, 3, "light, dark, print")
		for _, scheme := range schemes {
			colour := map[string]string{}
			for _, pair := range regexp.MustCompile(`--(\w+):(#\w+)`).FindAllStringSubmatch(scheme[1], -1) {
				colour[pair[1]] = pair[2]
			}
			for _, text := range []string{"ink", "soft", "alarm", "link"} {
				for _, ground := range grounds {
					require.Greater(t, contrast(t, colour[text], colour[ground]), 4.5, "%s on %s, %s.css", text, ground, sheet)
				}
			}
		}
	}
}

func contrast(t *testing.T, a, b string) float64 {
	la, lb := luminance(t, a), luminance(t, b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func luminance(t *testing.T, hex string) float64 {
	hex = strings.TrimPrefix(hex, "#")
	if len(hex) == 3 {
		hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		require.NoError(t, err)
		c := float64(v) / 255
		if c <= 0.03928 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

func TestWriteFiguresMakesAPageOfFigures(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "check.html")
	require.NoError(t, WriteFigures(path, "Sandreed <geometry>", sampleFigures(t).Margin))
	page, err := os.ReadFile(path)
	require.NoError(t, err)
	all := elements(t, closed(string(page)))
	require.NotEmpty(t, all)
	require.Contains(t, string(page), "Sandreed &lt;geometry&gt;")
	require.Equal(t, 1, strings.Count(string(page), "<figure>"))
	require.Error(t, WriteFigures(path, "x", []plots.Figure{{}}))
	kept, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, page, kept, "an error leaves the old page")
	files, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, files, 1, "nothing is left beside the page")
}

func TestPartsAreGroupedByWhatWouldClearThem(t *testing.T) {
	got := clearings([]decide.Row{
		{Part: "rudder", Action: decide.Wait, Clears: "settle the winglet", HoursLeft: 40},
		{Part: "spar", Action: decide.StopAndAsk, Clears: "ask the designer", HoursLeft: 12},
		{Part: "winglet", Side: "left", Action: decide.Wait, Clears: "settle the winglet", HoursLeft: 5},
		{Part: "canopy", Action: decide.Done},
	})
	require.Equal(t, []clearing{{"settle the winglet", []string{"rudder", "winglet, left"}, 45}, {"ask the designer", []string{"spar"}, 12}}, got)
}

func TestALongTextOfWhatClearsIsCutOnTheBoardAndWholeBelow(t *testing.T) {
	long := "fly the small winglet with steady sideslips and rudder steps; or settle the middle one, which passes everything; and a sign-off for flutter by whoever is competent"
	g := groups([]decide.Row{{Part: "rib", Action: decide.Wait, Clears: long}, {Part: "a", Action: decide.Wait, Clears: "settle it", HoursLeft: 3}}, Sheet{})
	require.Equal(t, "fly the small winglet with steady sideslips and rudder steps; or settle the middle one, which passes everything …", g[0].Rows[0].Short)
	require.True(t, g[0].Rows[0].Cut)
	require.Equal(t, 2, g[0].Rows[0].Way)
	require.Equal(t, "settle it", g[0].Rows[1].Short)
	require.False(t, g[0].Rows[1].Cut)
	c := sample(t)
	c.Verdict.Board[1].Clears = long
	page := render(t, c)
	requireSays(t, page, `which passes everything … <a href="#way-1">in full: number 1</a>`)
	requireSays(t, page, `<li id="way-1"><strong>winglet mould, left</strong> (64 h of work waiting): `+long)
	elements(t, closed(page))
}

func TestShortKeepsWholeRunes(t *testing.T) {
	text, cut := short(strings.Repeat("ä", 300))
	require.True(t, cut)
	require.True(t, utf8.ValidString(text))
}

func TestUnknownWordComesFirstAndUnexplained(t *testing.T) {
	g := groups([]decide.Row{{Part: "a", Action: decide.Done}, {Part: "b", Action: "odd"}}, Sheet{})
	require.Equal(t, "odd", g[0].Action)
	require.Empty(t, g[0].Means)
}
