package report

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/plots"
)

// ChoicePage is everything that the designer's page of one choice shows.
type ChoicePage struct {
	Program string
	Sheet   string // the line that names the board that this page belongs to
	Verdict decide.ChoiceVerdict
	Levels  []string // all of the choice, the baseline first
	Waiting []decide.Row
	Decided []Decided // about this choice, oldest first
	Alarms  []string

	Compared *Comparison // nil: the levels could not be compared, and NoCompare says why
	Head     LatticeHead
	NoTable  string

	Contrasts, Sizes, Theory, Flown, Views []plots.Figure // differences at full size; side by side; by the lattice; lift and drag of the flights; geometry

	Others []PageLink // the pages of the other choices
	Live   bool       // the page is served and renews itself
}

// Served tells whether the page is served and renews itself.
func (c ChoicePage) Served() bool { return c.Live }

// choiceView is the page as its template wants it.
type choiceView struct {
	ChoicePage
	Style                                      template.CSS
	What                                       string   // the state of the choice
	Said                                       []string // of each size in a sentence
	Full, Evidence, Differences, Clears, Drags PageSection
	Cautions                                   []caution
}

// Render writes the page.
//
// It returns an error when a figure is not one plain svg element.
func (c ChoicePage) Render() ([]byte, error) {
	for _, list := range [][]plots.Figure{c.Contrasts, c.Sizes, c.Theory, c.Flown, c.Views} {
		if err := checkFigures(list); err != nil {
			return nil, err
		}
	}
	style, err := pageStyle()
	if err != nil {
		return nil, err
	}
	v := choiceView{ChoicePage: c, Style: style, What: c.state(), Clears: c.clears(), Cautions: cautionsNamed("What this page is not", "Stalls", "Flutter", "Loading tests")}
	if c.Compared != nil {
		v.fill(*c.Compared, c.Head)
	}
	var b bytes.Buffer
	err = execute(&b, "choice.gohtml", v)
	return b.Bytes(), err
}

// Figs are figures as the templates take them.
func (v choiceView) Figs(list []plots.Figure) figureSection { return figureSection{list, ""} }

// state says where the choice stands, in the words of the board.
func (c ChoicePage) state() string {
	switch v := c.Verdict; v.State {
	case decide.Settled:
		return "Decided: " + v.Level
	case decide.Elimination:
		return "Not decided: only " + v.Level + " is left, and somebody must confirm it"
	case decide.Contradiction:
		return "No combination of sizes passes"
	}
	return "Not decided: " + strings.Join(c.Verdict.Live, " or ")
}

// fill turns the comparison into sections.
func (v *choiceView) fill(c Comparison, head LatticeHead) {
	v.Full = PageSection{ID: "full", Title: "What decides, at full size",
		Lead: "Anchored on the flights, with the errors of the step to full size that no model flight shrinks. Differences are known better than either number: errors that both sizes share drop out. 95 % in brackets.",
		None: "Nothing to judge: no limit and no built part is stated.", Tables: []Section{c.Verdicts.table().section("")}}
	v.Said = c.Verdicts.lines()
	v.Evidence = PageSection{ID: "evidence", Title: "Measured, predicted, anchored", Lead: "What the model's flights say of each size, what the lattice says, and what both together come to at full size.",
		None: upperFirst(latticeAlone) + ".", Tables: []Section{c.evidence().section("")}}
	v.Differences = PageSection{ID: "theory", Title: "What the lattice says", Folded: true, Lead: head.conditionLine() + ".",
		Tables: []Section{{Lines: head.lines()}, c.differences(head).section("Each size, and what it differs by from " + c.Baseline)}}
	v.Drags = PageSection{ID: "drag", Title: "Net drag", Lead: "What a size gains in drag due to lift against what its surface costs in friction.", None: "Not worked out: section data or speeds are missing."}
	for _, d := range c.Drags {
		v.Drags.Tables = append(v.Drags.Tables, d.table().section(d.title()))
	}
	v.Drags.Tables = append(v.Drags.Tables, Section{Lines: compareWarnings(c)})
}

// compareWarnings are the doubts about the computation, each once.
func compareWarnings(c Comparison) []string {
	var out []string
	for _, list := range append([][]string{c.Warnings}, levelWarnings(c)...) {
		for _, w := range list {
			if line := plain(w); !slices.Contains(out, line) {
				out = append(out, line)
			}
		}
	}
	return out
}

func levelWarnings(c Comparison) (out [][]string) {
	for _, l := range c.Levels {
		out = append(out, l.Warnings)
	}
	return out
}

// clears lists the parts that wait for this choice, with what would clear each; parts that one thing clears stand together.
func (c ChoicePage) clears() PageSection {
	s := PageSection{ID: "next", Title: "What would tell the sizes apart next, and which parts wait for it", None: "No part waits for this choice."}
	if len(c.Waiting) == 0 {
		return s
	}
	t := Section{Heads: []string{"what would clear it", "parts that it would clear", "work waiting"}}
	for _, way := range clearings(c.Waiting) {
		t.Rows = append(t.Rows, []string{upperFirst(sizesWords(way.Clears)), strings.Join(way.Parts, "; "), hoursWords(way.Hours)})
	}
	s.Lead = fmt.Sprintf("%s for this choice. Most waiting work first. 'wingproof next' forecasts what each flight or measurement would clear.", waits(len(c.Waiting)))
	s.Tables = []Section{t}
	return s
}

func waits(n int) string {
	if n == 1 {
		return "1 part waits"
	}
	return fmt.Sprintf("%d parts wait", n)
}

// section is a table as a part of a page.
func (t textTable) section(title string) Section {
	return Section{Title: title, Heads: t.heads, Rows: t.rows}
}
