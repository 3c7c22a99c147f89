package report

import (
	"crypto/sha256"
	"encoding/base64"
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// policyOfPage is the policy that a page states for itself.
func policyOfPage(t *testing.T, page string) string {
	t.Helper()
	found := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(page)
	require.Len(t, found, 2)
	return html.UnescapeString(found[1])
}

// Every script of a page is allowed by the digest of its text as it stands there, and the policy lets nothing else in.
func TestPolicyAllowsTheScriptsOfThePageOnly(t *testing.T) {
	for _, live := range []bool{false, true} {
		c := sample(t)
		c.Live = live
		page := render(t, c)
		words := policyOfPage(t, page)
		scripts := regexp.MustCompile(`(?s)<script>(.*?)</script>`).FindAllStringSubmatch(page, -1)
		require.Len(t, scripts, map[bool]int{false: 1, true: 2}[live])
		for _, s := range scripts {
			sum := sha256.Sum256([]byte(s[1]))
			require.Contains(t, words, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
		}
		require.Equal(t, len(scripts), strings.Count(words, "sha256-"))
		require.Contains(t, words, "default-src 'none'")
		require.Equal(t, live, strings.Contains(words, "connect-src 'self'"))
		require.NotContains(t, words, "unsafe-eval")
		require.NotContains(t, words, "script-src 'unsafe-inline'")
	}
}

func TestEveryPageStatesAPolicy(t *testing.T) {
	for name, make := range map[string]func(Content) ([]byte, error){"index": Laid, "board": BoardPage, "methods": MethodsPage} {
		page, err := make(sample(t))
		require.NoError(t, err, name)
		require.Contains(t, policyOfPage(t, string(page)), "default-src 'none'", name)
	}
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
