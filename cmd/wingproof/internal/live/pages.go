package live

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"html"
	"path"
	"regexp"
	"strings"
	"time"

	"wingproof/cmd/wingproof/internal/report"
)

// first is the page that an address without a name means.
const first = "index.html"

// pages are the files of one report, by name. They do not change.
type pages struct {
	files  map[string]*file
	asOf   time.Time
	alarms []string
}

// file is one file as it is handed out.
type file struct {
	body    []byte
	version string // digest of the body
	kind    string // content type
	policy  string // content security policy
	page    *page  // nil: no page that tells its state
}

// page is a file in three pieces: around its head, where the box of alerts goes, and its foot, where the strip goes.
type page struct {
	top, middle, bottom []byte
	strip               []byte
	alarmed             bool // it shows alarms by itself
}

// pagesOf prepares a report for handing out.
func pagesOf(r Report, asOf time.Time) (*pages, error) {
	out := &pages{files: map[string]*file{}, asOf: asOf, alarms: r.Alarms}
	for _, f := range r.Files {
		made, err := fileOf(f, moment(asOf))
		if err != nil {
			return nil, fmt.Errorf("serve %s: %w", f.Name, err)
		}
		out.files[f.Name] = made
	}
	if out.files[first] == nil {
		return nil, fmt.Errorf("serve: the report has no %s", first)
	}
	return out, nil
}

func fileOf(f report.File, asOf string) (*file, error) {
	sum := sha256.Sum256(f.Body)
	made := &file{body: f.Body, version: hex.EncodeToString(sum[:8]), kind: contentType(f.Name)}
	made.policy = policyOf(made.kind, f.Body)
	if !strings.HasPrefix(made.kind, "text/html") {
		return made, nil
	}
	head, foot := bodyTag.FindIndex(f.Body), bytes.LastIndex(f.Body, []byte(report.LivePlace))
	if head == nil || foot < head[1] {
		return made, nil // a page as it was issued
	}
	strip, err := report.LiveStrip(report.Live{Page: made.version, AsOf: asOf})
	if err != nil {
		return nil, err
	}
	made.page = &page{
		top: f.Body[:head[1]], middle: f.Body[head[1]:foot], bottom: f.Body[foot+len(report.LivePlace):],
		strip: strip, alarmed: bytes.Contains(f.Body, []byte(`aria-label="Alarms"`)),
	}
	return made, nil
}

var bodyTag = regexp.MustCompile(`<body[^>]*>`)

// told is the page with the box of alerts of the present state.
func (p *page) told(s state) []byte {
	box := s.alert
	if p.alarmed {
		box = s.quiet
	}
	return bytes.Join([][]byte{p.top, box, p.middle, p.strip, p.bottom}, nil)
}

// contentType is fixed by the extension: the system's own table is not asked, so that it is the same everywhere.
func contentType(name string) string {
	switch path.Ext(name) {
	case ".html":
		return "text/html; charset=utf-8"
	case ".svg":
		return "image/svg+xml; charset=utf-8"
	case ".png":
		return "image/png"
	case ".csv":
		return "text/csv; charset=utf-8"
	case ".json":
		return "application/json; charset=utf-8"
	case ".txt", ".md":
		return "text/plain; charset=utf-8"
	}
	return "application/octet-stream"
}

// Policies of what is no page: a picture may style itself, and nothing else does anything.
const (
	policyOfPictures = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox"
	policyOfFiles    = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
	policyOfPages    = "; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)

var statedPolicy = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy" content="([^"]*)">`)

// policyOf is the policy that a file states of itself, made stricter by what only a header can say.
func policyOf(kind string, body []byte) string {
	switch {
	case strings.HasPrefix(kind, "image/svg"):
		return policyOfPictures
	case !strings.HasPrefix(kind, "text/html"):
		return policyOfFiles
	}
	own := "default-src 'none'; style-src 'unsafe-inline'"
	if found := statedPolicy.FindSubmatch(body[:min(len(body), 8192)]); found != nil {
		stated := html.UnescapeString(string(found[1]))
		if !strings.ContainsFunc(stated, func(r rune) bool { return r < ' ' || r > '~' }) {
			own = strings.TrimRight(stated, "; ")
		}
	}
	return own + policyOfPages
}
