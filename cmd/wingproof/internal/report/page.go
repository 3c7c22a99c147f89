package report

import (
	"bytes"
	"cmp"
	"embed"
	"fmt"
	"html/template"
	"io"
	"maps"
	"slices"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/plots"
)

//go:embed assets
var assets embed.FS

// page is the content as the template wants it.
type page struct {
	Content
	Style         template.CSS
	Groups        []boardGroup
	Words         []pickable // of the board, for picking rows
	Stages        []pickable
	Questions     []string // undecided, out, proven
	NotJudged     []string
	LeftOut       string // flights that the board does not rest on; empty: none
	Choices       []choiceRow
	Clearing      []clearing
	NextSteps     nextSection
	MarginTable   []pivotRow
	EstimateTable []pivotRow
	Motions       []motionTable
	Sections      map[string]figureSection
	Cautions      []caution
	FixedMethods  []Method
	Glossary      []termGroup
}

// boardGroup is the rows of one word on the wall.
type boardGroup struct {
	Action, Means string
	Rows          []boardRow
}

// boardRow is a row with its clearing text cut to what a wall can carry; Way is the number of the whole
// text in the list of what would clear the pending parts.
type boardRow struct {
	decide.Row
	Mark  string // what the last sheet said, where that was another word
	Short string
	Cut   bool
	Way   int
}

// choiceRow is one choice with where its levels stand.
type choiceRow struct {
	decide.ChoiceVerdict
	Levels []decide.LevelVerdict
}

// figureSection is what a section shows: figures, or a sentence that says why there are none.
type figureSection struct {
	Figures []plots.Figure
	None    string
}

// Render writes the page.
//
// It returns an error when a figure is not one plain svg element.
func Render(w io.Writer, c Content) error {
	p, err := newPage(c)
	if err != nil {
		return err
	}
	return execute(w, "page.gohtml", p)
}

func newPage(c Content) (page, error) {
	style, err := styleSheet()
	if err != nil {
		return page{}, err
	}
	p := page{
		Content: c, Style: style, Groups: groups(c.Verdict.Board, c.Sheet), Questions: QuestionLines(c.Verdict), NotJudged: c.Verdict.NotJudged, LeftOut: leftOutWords(c.Verdict.LeftOut),
		MarginTable: pivot(c.Margins, c.LengthRatio), EstimateTable: pivot(c.Estimates, c.LengthRatio), Motions: motionTables(c.Estimates),
		Cautions: cautions(), FixedMethods: methods(), Glossary: glossary(),
	}
	if len(p.NotJudged) == 0 {
		p.NotJudged = notJudged()
	}
	for _, v := range c.Verdict.Choices {
		row := choiceRow{ChoiceVerdict: v}
		for _, l := range c.Verdict.Levels {
			if l.Choice == v.Choice {
				row.Levels = append(row.Levels, l)
			}
		}
		p.Choices = append(p.Choices, row)
	}
	p.Words, p.Stages = pickLists(c.Verdict.Board)
	p.Clearing, p.NextSteps = clearings(c.Verdict.Board), nextSectionOf(c)
	p.Sections, err = sections(c.Figures)
	return p, err
}

func styleSheet() (template.CSS, error) {
	css, err := assets.ReadFile("assets/page.css")
	return template.CSS(css), err
}

func sections(f Figures) (map[string]figureSection, error) {
	out := map[string]figureSection{
		"geometry": {f.Geometry, ""},
		"margin":   {f.Margin, "No figure: no static margin was computed or measured."},
		"trim":     {f.Trim, ""},
		"lift":     {f.Lift, "No figure: no lift curve was measured or computed."},
		"drag":     {f.Drag, ""},
		"motions":  {f.Motions, ""},
		"levels":   {f.Levels, "No figure: there is no choice with two or more levels to compare."},
		"spanload": {f.SpanLoad, ""},
		"stall":    {f.Stall, "No figure: the stall order needs section data (polar) of foreplane and wing, and an elevator with its travel."},
		"spar":     {f.Spar, "No figure: no built part with a stated allowable bending moment."},
		"timeline": {f.Timeline, ""},
		"envelope": {f.Envelope, ""},
		"modes":    {f.ModesPlane, ""},
	}
	for _, choice := range slices.Sorted(maps.Keys(f.Contrasts)) {
		contrasts := out["contrasts"]
		contrasts.Figures = append(contrasts.Figures, f.Contrasts[choice]...)
		out["contrasts"] = contrasts
	}
	for name, why := range f.NotDrawn {
		if section := out[name]; len(section.Figures) == 0 {
			out[name] = figureSection{None: "Not drawn: " + why + "."}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(out)) {
		if err := checkFigures(out[name].Figures); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// checkFigures refuses anything but one svg element a layout; figures go into the page unescaped.
func checkFigures(list []plots.Figure) error {
	for _, f := range list {
		for _, svg := range [][]byte{f.SVG, f.Narrow} {
			lower := bytes.ToLower(bytes.TrimSpace(svg))
			if !bytes.HasPrefix(lower, []byte("<svg ")) || !bytes.HasSuffix(lower, []byte("</svg>")) || bytes.Contains(lower, []byte("<script")) {
				return fmt.Errorf("report: figure %q is not one plain svg element", f.Title)
			}
		}
	}
	return nil
}

// groups puts the rows under their words, in the order of the wall.
func groups(board []decide.Row, sheet Sheet) []boardGroup {
	ways := clearings(board)
	var out []boardGroup
	for _, r := range ordered(board) {
		if len(out) == 0 || out[len(out)-1].Action != r.Action {
			g := boardGroup{Action: r.Action}
			if i := rank(r.Action); i > 0 {
				g.Means = actions()[i-1].means
			}
			out = append(out, g)
		}
		row := boardRow{Row: r, Mark: sheet.mark(r)}
		row.Short, row.Cut = short(r.Clears)
		row.Way = 1 + slices.IndexFunc(ways, func(c clearing) bool { return c.Clears == r.Clears })
		out[len(out)-1].Rows = append(out[len(out)-1].Rows, row)
	}
	return out
}

// clearing is one thing to do with the parts that it would clear and the hours that wait for it.
type clearing struct {
	Clears string
	Parts  []string
	Hours  float64
}

// clearings groups pending parts by what would clear them, most waiting hours first.
func clearings(board []decide.Row) []clearing {
	var out []clearing
	for _, r := range ordered(board) {
		if r.Clears == "" {
			continue
		}
		i := slices.IndexFunc(out, func(c clearing) bool { return c.Clears == r.Clears })
		if i < 0 {
			i = len(out)
			out = append(out, clearing{Clears: r.Clears})
		}
		out[i].Parts = append(out[i].Parts, PartWords(r))
		out[i].Hours += r.HoursLeft
	}
	slices.SortStableFunc(out, func(a, b clearing) int { return cmp.Compare(b.Hours, a.Hours) })
	return out
}

// pivotTable is what the template of a table of estimates needs.
type pivotTable struct {
	Caption, Head string
	Quantities    bool // rows name their quantity
	Rows          []pivotRow
}
