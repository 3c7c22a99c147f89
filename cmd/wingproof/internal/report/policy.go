package report

import (
	"crypto/sha256"
	"encoding/base64"
	"html/template"
	"strings"
)

// pageScript and liveScript are the scripts that a page may carry: what makes a page easier to read, and what renews a page
// that is served.
const (
	pageScript = "page.js"
	liveScript = "live.js"
)

// policy is the content security policy of a page: nothing is fetched, and no script runs but those of this program, known by
// their digests. Only a page that is served may ask its own server whether there is a newer one.
func policy(live bool) (string, error) {
	names := []string{pageScript}
	if live {
		names = append(names, liveScript)
	}
	var digests []string
	for _, name := range names {
		text, err := script(name)
		if err != nil {
			return "", err
		}
		sum := sha256.Sum256([]byte(text))
		digests = append(digests, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	words := "default-src 'none'; style-src 'unsafe-inline'; img-src data:; script-src " + strings.Join(digests, " ")
	if live {
		words += "; connect-src 'self'"
	}
	return words, nil
}

// policyOf is the policy of the page that a template renders: data tells by a method Served whether the page is served.
func policyOf(data any) (string, error) { return policy(served(data)) }

func served(data any) bool {
	page, ok := data.(interface{ Served() bool })
	return ok && page.Served()
}

// Served tells whether the page is served and renews itself.
func (c Content) Served() bool { return c.Live }

// script is the text of a script as it stands in a page, and as its digest is taken.
func script(name string) (template.JS, error) {
	text, err := assets.ReadFile("assets/" + name)
	return template.JS(text), err
}
