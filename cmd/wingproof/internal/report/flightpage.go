package report

import (
	"bytes"
	"html/template"
	"slices"
)

// FlightPage is everything that the page of one flight shows.
type FlightPage struct {
	Program string
	Sheet   string // the line that names the board that this page belongs to
	Flight  string
	Date    string // ISO
	Facts   []Fact // how it was flown
	Used    bool
	Why     string // why it is left out; empty when it counts
	WhyNot  string // what flights.csv says of why it is left out
	Notes   string // as written in flights.csv

	Sentence string // whether the log is good, as look says it; empty: it could not be read
	Again    bool   // it must be flown again
	NoLog    string // why nothing is shown of the log; empty when it was read
	Dangers  []Danger
	Strip    *StripDrawing // nil: none could be drawn, and NoStrip says why
	NoStrip  string

	Sections []PageSection // what was found, in the order of the page

	Before, After *PageLink // the flights beside it; nil: none
	Live          bool      // the page is served and renews itself
}

// Fact is one line of what a flight was flown with.
type Fact struct{ Head, Text string }

// StripDrawing is the recording over time, which stands in the page itself, so that the page can be sent alone. On a phone it is moved
// sideways: half a thousand seconds have no room there.
type StripDrawing struct {
	SVG        []byte
	Title, Alt string
	Log        string // that it was drawn from, as flights.csv names it
}

// Typed is the log as it is typed in a command.
func (s StripDrawing) Typed() string { return Typed(s.Log) }

// Served tells whether the page is served and renews itself.
func (f FlightPage) Served() bool { return f.Live }

// Plain tells that nothing on the page needs a script to be read.
func (FlightPage) Plain() bool { return true }

// Verdict is what heads the page: the word and what follows.
func (f FlightPage) Verdict() string {
	switch {
	case f.Used:
		return "Used"
	case f.WhyNot != "":
		return "Left out by the shop"
	}
	return "Left out"
}

// Render writes the page. Everything is in it, its chart too.
func (f FlightPage) Render() ([]byte, error) {
	style, err := pageStyle()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = execute(&b, "flight.gohtml", struct {
		FlightPage
		Style    template.CSS
		Cautions []caution
	}{f, style, cautionsNamed("What this page is not", "Flying the model", "Moving the centre of gravity", "Stalls")})
	return b.Bytes(), err
}

// pageStyle is the style sheet of the pages behind the board.
func pageStyle() (template.CSS, error) {
	style, err := styleSheet()
	if err != nil {
		return "", err
	}
	more, err := assets.ReadFile("assets/more.css")
	return style + template.CSS(more), err
}

// cautionsNamed are the cautions of those heads.
func cautionsNamed(heads ...string) []caution {
	var out []caution
	for _, c := range cautions() {
		if slices.Contains(heads, c.Head) {
			out = append(out, c)
		}
	}
	return out
}
