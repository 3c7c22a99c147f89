package report

import (
	"bytes"
	"html/template"
	"sync"
)

// LivePlace is where a page that is served says whether it is the newest: the server puts LiveStrip in its stead.
const LivePlace = `<div id="live"></div>`

// LiveNote is something that the reader of a served page must not overlook.
type LiveNote struct {
	Head  string   `json:"head"`
	Lines []string `json:"lines"` // mistakes with their places, alarms
	Tail  string   `json:"tail"`  // what happens next; may be empty
}

// Live is what a served page says of itself before its script speaks, and all that a reader without script learns.
type Live struct {
	Page  string // digest of the page, by which its script tells whether another is newer
	AsOf  string // when the folder was read for this page; empty: there is no page yet
	Notes []LiveNote
}

// LiveAlert is the box at the head of a served page, empty when nothing is wrong.
func LiveAlert(l Live) ([]byte, error) { return live("live_alert", l) }

// LiveStrip is what takes the place of LivePlace: one line at the foot of the window.
func LiveStrip(l Live) ([]byte, error) { return live("live_strip", l) }

func live(name string, l Live) ([]byte, error) {
	t, err := liveTemplates()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = t.ExecuteTemplate(&b, name, l)
	return b.Bytes(), err
}

// liveTemplates are parsed once: a server renders them with every page that it hands out.
var liveTemplates = sync.OnceValues(func() (*template.Template, error) {
	return template.New("live").Funcs(helpers()).ParseFS(assets, "assets/live.gohtml")
})

// waiting is the page that stands in while there is none yet.
type waiting struct {
	Program string
	Style   template.CSS
}

// Served tells that the page renews itself.
func (waiting) Served() bool { return true }

// Plain tells that nothing on the page needs a script to be read.
func (waiting) Plain() bool { return true }

// Waiting renders the page that a server shows until the first one is worked out, with LivePlace in it.
func Waiting(program string) ([]byte, error) {
	style, err := styleSheet()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = execute(&b, "waiting.gohtml", waiting{program, style})
	return b.Bytes(), err
}
