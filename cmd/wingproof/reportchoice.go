package main

import (
	"context"
	"slices"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// choicePages are the designer's pages, one a choice, in the order of program.toml, with the figures that no other page shows.
func choicePages(ctx context.Context, st *study.Study, head boardHead, figures report.Figures, live bool) ([]report.ChoicePage, []namedPicture, error) {
	choices := st.Program.Choices
	pages, pictures := make([]report.ChoicePage, len(choices)), make([][]namedPicture, len(choices))
	links := choiceLinks(st)
	err := study.Each(ctx, len(choices), func(i int) error {
		page := choicePageOf(st, head, choices[i].Name)
		page.Sheet, page.Live = head.sheet.Head(), live
		page.Others = slices.Delete(slices.Clone(links), i, i+1)
		page.Contrasts = figures.Contrasts[choices[i].Name]
		if i < len(figures.Levels) {
			page.Sizes = figures.Levels[i : i+1]
		}
		page.Flown = tellingFigures(st, choices[i], figures)
		var err error
		page.Theory, page.Views = titled(figures.SpanLoad, "Load along the span, by "+choices[i].Name), viewsOf(st, choices[i].Name, figures.Geometry)
		pictures[i], err = addComparison(&page, st, choices[i])
		for k := range pictures[i] {
			pictures[i][k].name = trimEnding(links[i].Name) + "-" + pictures[i][k].name
		}
		pages[i] = page
		return err
	})
	return pages, slices.Concat(pictures...), err
}

// choiceLinks name the pages of the choices.
func choiceLinks(st *study.Study) []report.PageLink {
	names := choiceNames(st.Program)
	var out []report.PageLink
	for i, short := range report.FileNames(names) {
		out = append(out, report.PageLink{Kind: "choice", Title: names[i], Name: "choice-" + short + ".html"})
	}
	return out
}

// choicePageOf is what the verdict and the record say of a choice.
func choicePageOf(st *study.Study, head boardHead, choice string) report.ChoicePage {
	page := report.ChoicePage{Program: st.Program.Name, Alarms: st.Verdict.Alarms, Verdict: decide.ChoiceVerdict{Choice: choice}}
	for _, v := range st.Verdict.Choices {
		if v.Choice == choice {
			page.Verdict = v
		}
	}
	for _, part := range st.Program.Parts {
		if !slices.Contains(part.ShapedBy, choice) {
			continue
		}
		for _, row := range st.Verdict.Board {
			if row.Part == part.Name && row.Side == part.Side && row.Status == decide.Pending {
				page.Waiting = append(page.Waiting, row)
			}
		}
	}
	for _, d := range head.decided {
		if d.Choice == choice {
			page.Decided = append(page.Decided, d)
		}
	}
	return page
}

// comparedSizes is a comparison of the levels of a choice by the lattice: plain data that is kept.
type comparedSizes struct {
	Head    report.LatticeHead
	Table   report.Comparison // without what flights, limits and verdict say
	Figures []keptFigure
}

// keptFigure is a figure as plain data.
type keptFigure struct {
	Name, Title, Alt     string
	SVG, Narrow, Picture []byte
	Points, NarrowPoints []plots.Point
}

func (f keptFigure) figure() plots.Figure {
	return plots.Figure{SVG: f.SVG, Narrow: f.Narrow, Title: f.Title, Alt: f.Alt, Points: f.Points, NarrowPoints: f.NarrowPoints}
}

// compareInputs are all that the comparison of the levels of a choice reads beside the airframes.
type compareInputs struct {
	Program   string
	Choice    program.Choice
	Others    map[string]string // the level of each choice: the settled one, else the baseline
	Condition condition
}

// addComparison compares the levels of a choice on its page. Levels that the lattice cannot solve leave the page without, and say why.
func addComparison(page *report.ChoicePage, st *study.Study, choice program.Choice) ([]namedPicture, error) {
	var m mistakes
	c := conditionOptions{}.condition(st.Program, &m)
	if err := m.err(); err != nil {
		page.NoTable = err.Error()
		return nil, nil
	}
	if err := c.momentPoint(st.Program); err != nil {
		page.NoTable = err.Error()
		return nil, nil
	}
	in := compareInputs{st.Program.Name, choice, settledLevels(st), c}
	sizes, err := study.OfTheory(st, study.TheoryWork[comparedSizes]{Kind: "sizes", Inputs: in, Make: in.compare})
	if err != nil {
		page.NoTable = err.Error()
		return nil, nil
	}
	contrasts, err := st.Contrasts(choice.Name, in.Others)
	if err != nil {
		return nil, err
	}
	table := sizes.Table
	table.Levels = slices.Clone(table.Levels)
	for i := range table.Levels {
		table.Levels[i].Estimates = estimatesOf(st, table.Levels[i].Configuration)
	}
	table.Verdicts = report.LevelVerdicts{Contrasts: contrasts, Baseline: choice.Baseline, Levels: levelVerdicts(st, choice.Name)}
	page.Compared, page.Head = &table, sizes.Head
	var pictures []namedPicture
	for _, f := range sizes.Figures {
		page.Theory = append([]plots.Figure{f.figure()}, page.Theory...)
		pictures = append(pictures, namedPicture{f.Name, f.Title, f.SVG, f.Picture})
	}
	return pictures, nil
}

// compare solves the levels and draws what they differ by.
func (in compareInputs) compare(p *program.Program) (comparedSizes, error) {
	p.Name = in.Program
	r := &comparison{study: &study.Study{Program: p}, condition: in.Condition, choice: in.Choice, others: in.Others}
	if err := r.solveLevels(); err != nil {
		return comparedSizes{}, err
	}
	out := comparedSizes{Head: r.condition.head(p, r.solvedLevels()), Table: r.table()}
	figures, err := differenceFigures(r)
	if err != nil {
		return out, err
	}
	for _, f := range figures {
		picture, err := f.Picture()
		if err != nil {
			return out, err
		}
		out.Figures = append(out.Figures, keptFigure{f.Name, f.Title, f.Alt, f.SVG, f.Narrow, picture, f.Points, f.NarrowPoints})
	}
	return out, nil
}

// estimatesOf are the study's numbers of a configuration.
func estimatesOf(st *study.Study, configuration string) []evidence.Estimate {
	out := []evidence.Estimate{}
	for _, e := range st.Estimates {
		if e.Configuration == configuration {
			out = append(out, e)
		}
	}
	return out
}

func levelVerdicts(st *study.Study, choice string) []decide.LevelVerdict {
	var out []decide.LevelVerdict
	for _, l := range st.Verdict.Levels {
		if l.Choice == choice {
			out = append(out, l)
		}
	}
	return out
}

// tellingFigures are the lift curves and the drag polars where what was measured of them tells two sizes of a choice apart: their
// 95 % intervals do not meet.
func tellingFigures(st *study.Study, choice program.Choice, f report.Figures) []plots.Figure {
	var out []plots.Figure
	if apart(st, choice, evidence.TrimmedLiftSlope) || apart(st, choice, evidence.LiftCurveSlope) || apart(st, choice, evidence.MaxLift) {
		out = append(out, f.Lift...)
	}
	if apart(st, choice, evidence.ZeroLiftDrag) || apart(st, choice, "drag_due_to_lift") {
		out = append(out, f.Drag...)
	}
	return out
}

func apart(st *study.Study, choice program.Choice, quantity string) bool {
	var measured []evidence.Estimate
	for _, level := range choice.Levels {
		for _, e := range estimatesOf(st, configurationWith(st, choice.Name, level.Name)) {
			if e.Quantity == quantity && e.Origin == evidence.Measured && e.Low != nil && e.High != nil {
				measured = append(measured, e)
				break
			}
		}
	}
	for i, a := range measured {
		for _, b := range measured[i+1:] {
			if *a.High < *b.Low || *b.High < *a.Low {
				return true
			}
		}
	}
	return false
}

// titled are the figures of that title.
func titled(list []plots.Figure, title string) []plots.Figure {
	var out []plots.Figure
	for _, f := range list {
		if f.Title == title {
			out = append(out, f)
		}
	}
	return out
}

// viewsOf are the three views of the levels of a choice over the baseline: behind that of the baseline they come choice by choice.
func viewsOf(st *study.Study, choice string, geometry []plots.Figure) []plots.Figure {
	at := 1
	for _, c := range st.Program.Choices {
		end := at + len(c.Levels) - 1
		if c.Name == choice && end <= len(geometry) {
			return geometry[at:end]
		}
		at = end
	}
	return nil
}
