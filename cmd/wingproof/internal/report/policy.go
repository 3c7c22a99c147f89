package report

import (
	"crypto/sha256"
	"encoding/base64"
	"html/template"
)

// pageScript and liveScript are the scripts that a page may carry: what makes a page easier to read, and what renews a page
// that is served.
const (
	pageScript = "page.js"
	liveScript = "live.js"
)

// policy is the content security policy of a page: nothing is fetched, and no script runs but those that the page carries, known by
// their digests. Only a page that is served may ask its own server whether there is a newer one.
func policy(scripts []string, live bool) (string, error) {
	words := "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
	if len(scripts) > 0 {
		words += "; script-src"
	}
	for _, name := range scripts {
		text, err := script(name)
		if err != nil {
			return "", err
		}
		sum := sha256.Sum256([]byte(text))
		words += " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	if live {
		words += "; connect-src 'self'"
	}
	return words, nil
}

// policyOf is the policy of the page that a template renders. Data tells by methods what the page has: Served whether it is served, Plain
// whether it does without the script that makes a page easier to read.
func policyOf(data any) (string, error) {
	var scripts []string
	if page, ok := data.(interface{ Plain() bool }); !ok || !page.Plain() {
		scripts = append(scripts, pageScript)
	}
	if served(data) {
		scripts = append(scripts, liveScript)
	}
	return policy(scripts, served(data))
}

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
