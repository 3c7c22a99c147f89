package live

import (
	"time"

	"wingproof/cmd/wingproof/internal/report"
)

// moment writes a time as people read it from a wall: the time of day first, and the day, since a page may hang for days.
func moment(t time.Time) string { return t.Format("15:04:05, 2 January 2006") }

// asOf is when the folder was read for the report that is shown; empty: there is none yet.
func (s state) asOf() string {
	if s.pages == nil {
		return ""
	}
	return moment(s.pages.asOf)
}

// status is one line about the page.
func (s state) status() string {
	switch {
	case s.pages == nil && s.kind == kindMistake:
		return "Live: no page can be made yet"
	case s.pages == nil:
		return "Live: the first page is being worked out"
	case s.kind == kindWorking:
		return "Live: something in the folder changed, a new page is being worked out. This one is as of " + s.asOf() + "."
	case s.kind == kindMistake:
		return "Live, but no new page can be made. This one is as of " + s.asOf() + "."
	}
	return "Live: this page renews itself. As of " + s.asOf() + "."
}

// notes are what the reader must not overlook: why there is no newer page, and, where the page does not show them, alarms.
func (s state) notes(alarms bool) []report.LiveNote {
	notes := []report.LiveNote{}
	if len(s.mistakes) > 0 {
		n := report.LiveNote{Head: "No page can be made yet:", Lines: s.mistakes, Tail: "The page comes by itself as soon as that is mended."}
		if s.pages != nil {
			n.Head = "This page is old. It shows the folder as it was at " + s.asOf() + "; since then no new page could be made:"
			n.Tail = "It renews itself as soon as that is mended."
		}
		notes = append(notes, n)
	}
	if alarms && s.pages != nil && len(s.pages.alarms) > 0 {
		notes = append(notes, report.LiveNote{Head: "Alarms on the board:", Lines: s.pages.alarms})
	}
	return notes
}

// prepared renders the boxes that head the pages in this state.
func (s *state) prepare() error {
	var err error
	if s.alert, err = report.LiveAlert(report.Live{Notes: s.notes(true)}); err != nil {
		return err
	}
	s.quiet, err = report.LiveAlert(report.Live{Notes: s.notes(false)})
	return err
}
