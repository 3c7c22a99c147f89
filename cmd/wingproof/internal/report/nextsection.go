package report

import (
	"fmt"

	"wingproof/cmd/wingproof/internal/decide"
)

// Next is the forecast of what could be done next, as far as it goes.
type Next struct {
	State   string         // one of the words below; empty is NextPending
	Outlook decide.Outlook // of NextKnown
	Failed  string         // of NextFailed: why there is none
}

// Where the forecast stands.
const (
	NextPending = "pending" // it is being worked out
	NextKnown   = "known"
	NextFailed  = "failed"
)

// Known is the forecast, nil while there is none.
func (n Next) Known() *decide.Outlook {
	if n.State != NextKnown {
		return nil
	}
	return &n.Outlook
}

// nextSection is what the page says of it.
type nextSection struct {
	Missing string // why there are no words; empty where there are
	Waiting string // what waits, while it is being worked out
	outlookWords
	Settle []string // the parts that a decision alone would clear
}

// nextSectionOf writes the section. A board without parts needs no forecast.
func nextSectionOf(c Content) nextSection {
	switch {
	case len(c.Verdict.Board) == 0:
		return nextSection{Missing: "Nothing to rank: parts.csv lists no parts, so no hours wait."}
	case c.Next.State == NextFailed:
		return nextSection{Missing: "No forecast could be made: " + c.Next.Failed + ". The rest of this page does not rest on it."}
	case c.Next.State != NextKnown:
		return nextSection{Missing: "The forecast is being worked out.", Waiting: pendingWords(c.Verdict.Board)}
	}
	return nextSection{outlookWords: outlookWordsOf(c.Next.Outlook, "the board above"), Settle: clearedBy(c.Next.Outlook.Settle)}
}

// pendingWords say how much of the board waits for whatever it is.
func pendingWords(board []decide.Row) string {
	parts, hours := 0, 0.0
	for _, r := range board {
		if r.Status == decide.Pending {
			parts, hours = parts+1, hours+r.HoursLeft
		}
	}
	if parts == 0 {
		return "No part waits."
	}
	words := counted(parts, "part")
	if parts == 1 {
		words += " waits"
	} else {
		words += " wait"
	}
	if hours > 0 {
		words += fmt.Sprintf(", with %s hours of work left", number(hours, 0))
	}
	return words + "; which steps would clear how many of them follows here in a few seconds."
}

// clearedBy names the parts of a decision, which leaves nothing to chance.
func clearedBy(p decide.Prospect) []string {
	var names []string
	for _, part := range p.Parts {
		names = append(names, PartName(part.Part, part.Side))
	}
	return names
}

// First are the parts that a line names; the others are More.
func (s outlookStep) First() []string { return s.Clears[:min(len(s.Clears), mostCleared)] }

// More are the parts beyond those of First.
func (s outlookStep) More() []string { return s.Clears[min(len(s.Clears), mostCleared):] }
