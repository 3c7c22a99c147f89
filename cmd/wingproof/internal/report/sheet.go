package report

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// Sheet is what heads a board: an issued sheet with its number, or a draft, and what changed since the sheet that hangs.
type Sheet struct {
	Number       int    `json:"number"` // 0: a draft, not issued
	Date         string `json:"date"`   // ISO
	IssuedBy     string `json:"issued_by"`
	NewestFlight string `json:"newest_flight"` // such as "flight 14 of 2 April 2026"; empty: none

	Last    *Issued  `json:"last_sheet"` // the newest sheet issued before; null: none
	Changed []Change `json:"changed"`    // since that sheet
}

// Issued names a sheet that was issued.
type Issued struct {
	Number       int    `json:"number"`
	Date         string `json:"date"`
	IssuedBy     string `json:"issued_by"`
	NewestFlight string `json:"newest_flight"`
	InputsSHA256 string `json:"inputs_sha256"`
}

// Words names the sheet: "sheet 4 of 28 March 2026, issued by R. Holm".
func (i Issued) Words() string {
	return fmt.Sprintf("sheet %d of %s, issued by %s", i.Number, DateWords(i.Date), i.IssuedBy)
}

// Change is what became of one part since the last sheet. Was or Is is empty for a part that is new or gone.
type Change struct {
	Part      string `json:"part"` // with its side
	Was       string `json:"was"`
	Is        string `json:"is"`
	StageWas  string `json:"stage_was"`
	StageIs   string `json:"stage_is"`
	Withdrawn bool   `json:"withdrawn"` // the sheet lets the shop work on it, the board does not any more
}

// Words says the change as the shop does: "strake tank skin, left: wait → start".
func (c Change) Words() string {
	stage := ""
	if c.StageWas != c.StageIs && c.StageWas != "" && c.StageIs != "" {
		stage = ", " + stageWords(c.StageWas) + " → " + stageWords(c.StageIs)
	}
	switch {
	case c.Was == "":
		return c.Part + ": new on the board, " + c.Is
	case c.Is == "":
		return c.Part + ": not on the board any more, was " + c.Was
	case c.Was == c.Is:
		return c.Part + ": still " + c.Is + stage
	}
	return c.Part + ": " + c.Was + " → " + c.Is + stage
}

// Head is the line that names the board: its number or that it is a draft, its date, the newest flight, and when it is void.
func (s Sheet) Head() string {
	newest := "; newest flight used: " + s.NewestFlight
	if s.NewestFlight == "" {
		newest = "; no flight used"
	}
	if s.Number > 0 {
		return fmt.Sprintf("Sheet %d of %s, issued by %s%s; void when a sheet with a higher number hangs", s.Number, DateWords(s.Date), s.IssuedBy, newest)
	}
	date := "without a date"
	if s.Date != "" {
		date = "of " + DateWords(s.Date)
	}
	last := "; no sheet has been issued yet"
	if s.Last != nil {
		last = "; on the wall: " + s.Last.Words()
	}
	return "Draft " + date + ", not issued, do not work from it" + newest + last
}

// ChangesHead heads the list of changes; empty when no sheet was issued before.
func (s Sheet) ChangesHead() string {
	switch {
	case s.Last == nil:
		return ""
	case len(s.Changed) == 0:
		return fmt.Sprintf("Nothing has changed since sheet %d", s.Last.Number)
	}
	return fmt.Sprintf("Changed since sheet %d", s.Last.Number)
}

// ChangeLines are the changes in words, those first that the shop must hear of first.
func (s Sheet) ChangeLines() []string {
	sorted := slices.Clone(s.Changed)
	slices.SortStableFunc(sorted, func(a, b Change) int { return urgency(a) - urgency(b) })
	var lines []string
	for _, c := range sorted {
		lines = append(lines, c.Words())
	}
	return lines
}

func urgency(c Change) int {
	if c.Withdrawn {
		return 0
	}
	return 1
}

// Alarm warns of a sheet on the wall that still lets the shop work where the board says no; empty when there is none, or
// when this board is the sheet that takes its place.
func (s Sheet) Alarm() string {
	var parts []string
	for _, action := range []string{decide.StopAndAsk, decide.Wait} {
		for _, c := range s.Changed {
			if c.Withdrawn && c.Is == action {
				parts = append(parts, fmt.Sprintf("%s (now: %s)", c.Part, c.Is))
			}
		}
	}
	if s.Number > 0 || s.Last == nil || len(parts) == 0 {
		return ""
	}
	const most = 5
	if n := len(parts) - most; n > 1 {
		parts = append(parts[:most], counted(n, "more part"))
	}
	return fmt.Sprintf("sheet %d on the wall still lets work go on with %s. Tell the crew, and issue a new sheet (report --issue WHO)", s.Last.Number, strings.Join(parts, "; "))
}

// mark is what stands beside a row that changed: "was wait"; empty where the word is the same.
func (s Sheet) mark(r decide.Row) string {
	for _, c := range s.Changed {
		switch {
		case c.Part != PartWords(r) || c.Was == c.Is:
		case c.Was == "":
			return "new"
		default:
			return "was " + c.Was
		}
	}
	return ""
}
