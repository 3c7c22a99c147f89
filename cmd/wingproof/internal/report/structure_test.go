package report

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pagesOfSample are the pages of the sample, with links to all kinds of others.
func pagesOfSample(t *testing.T) map[string]string {
	t.Helper()
	c := sample(t)
	c.Pages = []PageLink{{"board", "wall sheet", "board.html"}, {"choice", "winglet", "choice-winglet.html"}, {"flight", "13", "flight-13.html"}, {"methods", "methods", "methods.html"},
		{"table", "estimates", "tables/estimates.csv"}, {"figure", "static margin", "figures/static-margin.svg"}}
	out := map[string]string{}
	for name, make := range map[string]func(Content) ([]byte, error){"index.html": Laid, "board.html": BoardPage, "methods.html": MethodsPage} {
		page, err := make(c)
		require.NoError(t, err, name)
		out[name] = string(page)
	}
	return out
}

func TestPagesHaveOneHeadAndHeadingsInOrder(t *testing.T) {
	for name, page := range pagesOfSample(t) {
		level, ones := 0, 0
		for _, found := range regexp.MustCompile(`<h([1-6])[ >]`).FindAllStringSubmatch(plainOf(page), -1) {
			n := int(found[1][0] - '0')
			require.LessOrEqual(t, n, level+1, "%s: a heading of level %d follows one of level %d", name, n, level)
			level = n
			if n == 1 {
				ones++
			}
		}
		require.Equal(t, 1, ones, name)
	}
}

func TestPagesHaveNamedLandmarks(t *testing.T) {
	for name, page := range pagesOfSample(t) {
		count := map[string]int{}
		for _, e := range elements(t, closed(strings.ReplaceAll(page, "&nbsp;", " "))) {
			count[e.name]++
			switch e.name {
			case "nav", "form":
				require.NotEmpty(t, e.attributes["aria-label"], "%s: a %s without a name", name, e.name)
			case "section":
				require.NotEmpty(t, e.attributes["aria-labelledby"], name)
			}
			require.NotRegexp(t, `^[1-9]`, e.attributes["tabindex"], "nobody jumps the order of the page")
		}
		for _, landmark := range []string{"header", "main", "footer"} {
			require.Equal(t, 1, count[landmark], "%s: %s", name, landmark)
		}
		require.GreaterOrEqual(t, count["nav"], 1, name)
	}
}

// Without script the form that picks rows is not shown, and every row is.
func TestTheBoardIsWholeWithoutScript(t *testing.T) {
	page := pagesOfSample(t)["index.html"]
	rows := 0
	for _, e := range elements(t, closed(page)) {
		switch {
		case e.name == "form":
			require.Contains(t, e.attributes, "hidden")
		case e.attributes["data-word"] != "":
			rows++
			require.NotContains(t, e.attributes, "hidden")
			require.NotEmpty(t, e.attributes["data-stage"])
		}
	}
	require.Equal(t, len(sampleVerdict().Board), rows)
	require.Contains(t, page, `<option value="stop and ask">stop and ask (2)</option>`)
	require.Contains(t, page, `<option value="laid_up">laid up (1)</option>`)
	require.Less(t, strings.Index(page, `value="drawn"`), strings.Index(page, `value="fitted"`), "stages in the order of the work")
}

// What is picked on the screen does not shorten what is printed and hung.
func TestPrintedBoardIsNeverPicked(t *testing.T) {
	css, err := assets.ReadFile("assets/page.css")
	require.NoError(t, err)
	_, print, found := strings.Cut(string(css), "@media print{")
	require.True(t, found)
	require.Contains(t, print, ".board tr[hidden]{display:table-row!important}")
	require.Contains(t, print, ".board tbody[hidden]{display:table-row-group!important}")
}

// A figure carries its values, a line each, for the layout that is shown.
func TestFiguresCarryTheirValues(t *testing.T) {
	figure := sampleFigures(t).Margin[0]
	require.NotEmpty(t, figure.Points)
	page := html.UnescapeString(pagesOfSample(t)["index.html"])
	for _, lines := range []string{pointLines(figure.Points), pointLines(figure.NarrowPoints)} {
		require.Contains(t, page, `data-points="`+lines+`"`)
		for _, line := range strings.Split(lines, "\n") {
			require.Regexp(t, `^[0-9.]+ [0-9.]+ \S.*$`, line)
		}
	}
}

func TestOtherPagesAreLinkedWhereTheyAreLookedFor(t *testing.T) {
	page := pagesOfSample(t)["index.html"]
	for _, want := range []string{`<a href="board.html">Wall sheet</a>`, `<a href="choice-winglet.html">Winglet</a>`, `<a href="methods.html">Methods</a>`, `<a href="flight-13.html">13</a>`,
		`<a href="tables/estimates.csv">estimates</a>`, `<a href="figures/static-margin.svg">static margin</a>`} {
		requireSays(t, page, want)
	}
	alone := render(t, sample(t))
	for _, link := range regexp.MustCompile(`href="([^"]*)"`).FindAllStringSubmatch(alone, -1) {
		require.True(t, strings.HasPrefix(link[1], "#") || link[1] == "data:,", "a page without a folder links to %s", link[1])
	}
}

// A folder in which nothing carries a date yet has pages whose titles say so.
func TestTitlesWithoutADate(t *testing.T) {
	c := sample(t)
	c.Date = ""
	require.Contains(t, render(t, c), "board without a date</title>")
	wall, err := BoardPage(c)
	require.NoError(t, err)
	require.Contains(t, string(wall), "board without a date</title>")
}
