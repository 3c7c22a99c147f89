package report

import (
	"crypto/sha256"
	"encoding/base64"
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// policyOfPage is the policy that a page states for itself.
func policyOfPage(t *testing.T, page string) string {
	t.Helper()
	found := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(page)
	require.Len(t, found, 2)
	return html.UnescapeString(found[1])
}

// pagesOfEveryKind renders one page of every kind.
func pagesOfEveryKind(t *testing.T, live bool) map[string]string {
	t.Helper()
	c := sample(t)
	c.Live = live
	out := map[string]string{"index": render(t, c)}
	for name, make := range map[string]func() ([]byte, error){
		"board":   func() ([]byte, error) { return BoardPage(c) },
		"methods": func() ([]byte, error) { return MethodsPage(c) },
		"flight":  FlightPage{Flight: "F01", Strip: &StripDrawing{SVG: []byte("<svg></svg>"), Title: "over time"}, Live: live}.Render,
		"no log":  FlightPage{Flight: "F02", Live: live}.Render,
		"choice":  ChoicePage{Verdict: decide.ChoiceVerdict{Choice: "winglet", State: decide.Open, Live: []string{"mid", "small"}}, Live: live}.Render,
	} {
		page, err := make()
		require.NoError(t, err, name)
		out[name] = string(page)
	}
	if live {
		page, err := Waiting("Sandreed")
		require.NoError(t, err)
		out["waiting"] = string(page)
	}
	return out
}

// Every script of a page is allowed by the digest of its text as it stands there, and the policy lets nothing else in: no script that the page does not
// have, and nothing that lies beside it.
func TestPolicyAllowsWhatThePageCarriesOnly(t *testing.T) {
	for _, live := range []bool{false, true} {
		for name, page := range pagesOfEveryKind(t, live) {
			words := policyOfPage(t, page)
			scripts := regexp.MustCompile(`(?s)<script>(.*?)</script>`).FindAllStringSubmatch(page, -1)
			for _, s := range scripts {
				sum := sha256.Sum256([]byte(s[1]))
				require.Contains(t, words, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'", name)
			}
			require.Equal(t, len(scripts), strings.Count(words, "sha256-"), name)
			require.Equal(t, len(scripts) > 0, strings.Contains(words, "script-src"), name)
			require.NotContains(t, page, "<img", name)
			require.NotContains(t, words, "file:", name)
			require.Contains(t, words, "default-src 'none'", name)
			require.Equal(t, live, strings.Contains(words, "connect-src 'self'"), name)
			require.NotContains(t, words, "unsafe-eval", name)
			require.NotContains(t, words, "script-src 'unsafe-inline'", name)
		}
	}
	page := render(t, sample(t))
	require.Equal(t, 1, strings.Count(page, "<script>"), "the board's page has its script")
}

// The script stays small enough to be read, and reaches for nothing outside the page.
func TestPageScriptIsSmallAndKeepsToThePage(t *testing.T) {
	text, err := script(pageScript)
	require.NoError(t, err)
	require.Less(t, strings.Count(string(text), "\n"), 200)
	for _, never := range []string{"fetch(", "XMLHttpRequest", "import(", "eval(", "innerHTML", "localStorage", "sessionStorage", "document.cookie", "http:", "https:"} {
		require.NotContains(t, string(text), never)
	}
}
