package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// Comparison is the levels of one choice side by side.
type Comparison struct {
	Choice   string
	Baseline string
	Others   string // the levels of the other choices, in words; empty without others
	Levels   []ComparedLevel
	Verdicts LevelVerdicts
	Drags    []DragComparison // net drag by flight condition; may be empty
	Warnings []string
}

// ComparedLevel is one level with what was measured, predicted and anchored of its configuration.
type ComparedLevel struct {
	Level         string
	Configuration string
	Estimates     []evidence.Estimate // measured and anchored ones, and the predictions beside them
	Predicted     []ComparedRow       // the same quantities in the same order for every level
	Warnings      []string
}

// ComparedRow is one predicted quantity of a level with its difference to the baseline.
type ComparedRow struct {
	PredictedRow
	Difference Difference
}

// Difference of a quantity to the baseline; all NaN for the baseline itself.
type Difference struct {
	Value     float64
	Grid      float64 // error of the grid in the difference; what both grids get wrong alike has dropped out
	Low, High float64 // 95 % with the errors of theory that the two levels do not share; NaN where none is stated
}

// CompareTable writes a comparison as text no wider than width columns (100 when width is 0).
func CompareTable(w io.Writer, head LatticeHead, c Comparison, width int) error {
	title := fmt.Sprintf("%s, against %s", plain(c.Choice), plain(c.Baseline))
	if c.Others != "" {
		title += "; " + plain(c.Others)
	}
	if err := paragraph(w, title, width); err != nil {
		return err
	}
	if err := c.Verdicts.write(w, width); err != nil {
		return err
	}
	if err := evidenceTable(w, c, width); err != nil {
		return err
	}
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	if err := head.write(w, width); err != nil {
		return err
	}
	if err := differenceTable(w, head, c, width); err != nil {
		return err
	}
	for _, d := range c.Drags {
		if err := dragTable(w, d, width); err != nil {
			return err
		}
	}
	var groups []PredictedGroup
	for _, l := range c.Levels {
		groups = append(groups, PredictedGroup{Name: l.Level, Warnings: append(slices.Clone(c.Warnings), l.Warnings...)})
	}
	return warnOnce(w, groups, width)
}

// evidenceTable sets the roads to one number side by side, for the quantities that were measured or anchored.
func evidenceTable(w io.Writer, c Comparison, width int) error {
	t := c.evidence()
	if len(t.rows) == 0 {
		return paragraph(w, latticeAlone, width)
	}
	return t.write(w, width)
}

const latticeAlone = "no flight of these levels is fitted and nothing is anchored: the lattice alone speaks"

// evidence is the same as a table, empty where nothing stands beside predictions.
func (c Comparison) evidence() textTable {
	origins := c.origins()
	if len(origins) == 0 {
		return textTable{}
	}
	t := textTable{heads: []string{"quantity", "level"}, most: []int{30, 14}}
	for _, origin := range origins {
		t.heads, t.most = append(t.heads, originHead(origin)), append(t.most, 0)
	}
	for _, quantity := range c.known() {
		name := quantityWords(quantity)
		for _, l := range c.Levels {
			cells := []string{plain(name), plain(l.Level)}
			for _, origin := range origins {
				cells = append(cells, l.words(quantity, origin))
			}
			t.add(cells...)
			name = ""
		}
	}
	return t
}

func originHead(origin string) string {
	switch origin {
	case evidence.Measured:
		return "measured, model"
	case evidence.Predicted:
		return "lattice"
	}
	return "anchored, full size"
}

// origins are the roads on which some level has a number, in their order; none when there is nothing beside predictions.
func (c Comparison) origins() []string {
	var out []string
	for _, origin := range []string{evidence.Measured, evidence.Predicted, evidence.Anchored} {
		if slices.ContainsFunc(c.Levels, func(l ComparedLevel) bool {
			return slices.ContainsFunc(l.Estimates, func(e evidence.Estimate) bool { return e.Origin == origin && shownHere(e) })
		}) {
			out = append(out, origin)
		}
	}
	if !slices.Contains(out, evidence.Measured) && !slices.Contains(out, evidence.Anchored) {
		return nil
	}
	return out
}

// shownHere keeps anchored numbers at full size only, which is what a level is chosen for.
func shownHere(e evidence.Estimate) bool {
	return e.Origin != evidence.Anchored || e.Scale == evidence.FullSize
}

// known are the quantities that were measured or anchored, in order of appearance; trim slopes at single CGs are no
// matter of levels.
func (c Comparison) known() []string {
	var out []string
	for _, l := range c.Levels {
		for _, e := range l.Estimates {
			if e.Origin != evidence.Predicted && shownHere(e) && e.Quantity != "elevator_per_lift" && !slices.Contains(out, e.Quantity) {
				out = append(out, e.Quantity)
			}
		}
	}
	return out
}

func (l ComparedLevel) words(quantity, origin string) string {
	var out []string
	for _, e := range l.Estimates {
		if e.Quantity == quantity && e.Origin == origin && shownHere(e) {
			out = append(out, plain(estimateWords(e)))
		}
	}
	return strings.Join(out, "\n")
}

// differenceTable writes every predicted quantity level by level.
func differenceTable(w io.Writer, head LatticeHead, c Comparison, width int) error {
	if len(c.Levels) == 0 {
		return nil
	}
	t := c.differences(head)
	return t.write(w, width)
}

// differences is the same as a table.
func (c Comparison) differences(head LatticeHead) textTable {
	t := textTable{heads: []string{"quantity", "level", head.valueHead("value"), head.valueHead("difference"), "difference, 95 % with theory"}, most: []int{31, 14, 20, 20, 0}}
	if len(c.Levels) == 0 {
		return t
	}
	for i, first := range c.Levels[0].Predicted {
		unit, k := shown(first.Unit)
		name := latticeWords(first.Quantity) + noted(first.Note)
		if unit != "" {
			name += ", " + unit
		}
		for _, l := range c.Levels {
			r := l.Predicted[i]
			if math.IsNaN(r.Value) {
				continue
			}
			difference, theory := "baseline", ""
			if d := r.Difference; !math.IsNaN(d.Value) {
				difference, theory = signedGrid(d.Value, d.Grid, k), theoryWords(d.Low, d.High, k)
			}
			t.add(plain(name), plain(l.Level), gridNumber(r.Value, r.Grid, k), difference, theory)
			name = ""
		}
	}
	return t
}
