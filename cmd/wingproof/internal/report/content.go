package report

import (
	"wingproof/aero/similitude"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog"
	"wingproof/plots"
)

// Content is everything that the page shows. Empty fields are said to be missing, in words.
type Content struct {
	Program     string
	Date        string // of the board, ISO
	Sheet       Sheet
	Verdict     decide.Verdict
	Margins     []evidence.Estimate // static margin per configuration and CG
	Estimates   []evidence.Estimate // every other number: measured, predicted, anchored
	Dangers     []Danger            // decelerations in which the wing let go first
	Figures     Figures
	Scaling     *similitude.Sheet // nil: not worked out
	LengthRatio float64           // model over full size; 0 leaves model positions out
	Flights     []FlightRow
	Decisions   []Decided  // oldest first
	Next        Next       // what could be done next: a forecast
	Warnings    []string   // about the program folder
	Methods     []Method   // of this program, after the fixed ones
	Pages       []PageLink // the other pages of the report folder, in the order in which they are named
	Live        bool       // the page is served and renews itself; false: a file that needs no server
}

// Figures by the section that they belong to.
type Figures struct {
	Geometry, Margin, Trim, Lift, Drag, Motions, Levels, SpanLoad, Stall, Spar []plots.Figure

	Timeline   []plots.Figure            // how sure each limit became, flight by flight
	Envelope   []plots.Figure            // mass against CG at full size: loadings and the limits that hold them in
	ModesPlane []plots.Figure            // natural motions at full size against the levels of flying qualities
	Contrasts  map[string][]plots.Figure // full-size differences of the sizes of a choice, by choice
	NotDrawn   map[string]string         // why a section that has data has no figure, by section
}

// FlightRow is one flight of the program.
type FlightRow struct {
	Flight        string
	Date          string // ISO
	Configuration string
	CG            float64 // full-size m aft of datum; 0: not stated
	Used          bool
	Why           string // why it is left out, or what it was used for
	Points        int    // test points kept
	Findings      []flightlog.Finding
}

// Method is one way of working with its source.
type Method struct {
	Name   string
	Text   string
	Source string // publication, or "common practice, no source"
}

// PageLink is one other page of the report folder.
type PageLink struct {
	Kind  string // choice, flight, board, methods, sheet, table, figure, data
	Title string // what it shows, in the shop's words
	Name  string // of its file, relative to index.html: "choice-winglet.html"
}
