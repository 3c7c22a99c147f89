package main

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// compareOptions are the flags of compare.
type compareOptions struct {
	folderOptions
	conditionOptions
	csv     bool
	figures string
}

func newCompareCommand(s streams) *cobra.Command {
	var o compareOptions
	c := &cobra.Command{
		Use:   "compare CHOICE",
		Short: "the levels of one choice side by side: measured, predicted, anchored, and what changes against the baseline",
		Long: `compare sets the levels of one choice side by side, the other choices at their settled level, else at their baseline.

First comes what was measured on the model, beside the prediction and the belief that both together give at full size.
Then what the lattice says of each level, with its difference to the baseline. The error of the grid in a difference is
that of the difference itself: what both grids get wrong alike drops out of it. So do errors of the theory that both
levels share; what is left of them stands apart, where one is stated.

Last comes the net drag at full size, in cruise and in the best climb: what a level gains in induced drag against what its
surface costs in profile drag.`,
		Example: `  wingproof compare winglet
  wingproof compare winglet --figures report/winglet
  wingproof compare winglet --lift 0.9 --csv
  wingproof compare winglet --program ../sandreed --json`,
		Args: exactly(1, "one word: a choice of program.toml"),
		RunE: func(c *cobra.Command, args []string) error { return runCompare(c.Context(), s, o, args[0]) },
	}
	o.folderOptions.addFlags(c)
	o.addState(c)
	c.Flags().BoolVar(&o.csv, "csv", false, "print CSV (SI units, radians)")
	c.Flags().StringVar(&o.figures, "figures", "", "write figures and a page that shows them to this `FOLDER`")
	return c
}

func runCompare(ctx context.Context, s streams, o compareOptions, name string) error {
	p, err := o.load(s)
	if err != nil {
		return err
	}
	var m mistakes
	c := o.condition(p, &m)
	choice, ok := choiceOf(p, name)
	switch {
	case len(p.Choices) == 0:
		m.add("compare: program.toml has no choice, so there is nothing to compare")
	case !ok:
		m.add("compare: no choice %q in program.toml; it has %s", name, strings.Join(choiceNames(p), ", "))
	}
	if o.csv && o.json {
		m.add("--csv and --json together: ask for one of them")
	}
	if err := m.err(); err != nil {
		return err
	}
	if err := c.momentPoint(p); err != nil {
		return err
	}
	st, err := study.Run(ctx, p, study.Options{Until: study.Judged, Progress: s.progress(false), Keep: keptIn(p)})
	if err != nil {
		return err
	}
	r, err := compareLevels(st, c, choice)
	if err != nil {
		return err
	}
	return r.print(s, o)
}

// comparison is the levels of a choice, solved on like grids.
type comparison struct {
	study     *study.Study
	condition condition
	choice    program.Choice
	others    map[string]string // the level of each other choice
	levels    []comparedLevel   // the baseline first
	net       []dragOf          // by flight condition
	missing   []string          // what the net drag wants and does not find, and its doubts
	contrasts []decide.Contrast // of what decides, at full size
}

// comparedLevel is one level.
type comparedLevel struct {
	level string
	solved
	numbers     []predictedNumber
	differences []levelDifference // to the baseline, one for each number; nil for the baseline itself
}

// levelDifference is a difference to the baseline: with the error of the grid in it, and 95 % by the errors of theory that
// the two levels do not share, NaN where none is stated.
type levelDifference struct{ value, grid, low, high float64 }

// settledLevels are the settled level of each choice, else its baseline.
func settledLevels(st *study.Study) map[string]string {
	levels := map[string]string{}
	for _, c := range st.Program.Choices {
		levels[c.Name] = c.Baseline
	}
	for _, c := range st.Verdict.Choices {
		if c.Level != "" {
			levels[c.Choice] = c.Level
		}
	}
	return levels
}

// comparedQuantityNames are the rows of the table and of the figure.
func comparedQuantityNames() []string {
	return []string{prediction.TrimElevator, evidence.NeutralPoint, evidence.StaticMargin, evidence.LiftCurveSlope, prediction.InducedDrag, prediction.SpanEfficiency,
		prediction.BestSpanEfficiency, evidence.DirectionalStiffness, prediction.DihedralEffect, evidence.RootBendingMoment}
}

// table is the comparison as text.
func (r *comparison) table() report.Comparison {
	out := report.Comparison{Choice: r.choice.Name, Baseline: r.choice.Baseline}
	if len(r.others) > 0 {
		out.Others = "with " + evidence.Name(r.others)
	}
	p := r.study.Program
	for i := range r.levels {
		l := &r.levels[i]
		one := report.ComparedLevel{Level: l.level, Configuration: l.name, Estimates: r.estimatesOf(l.name), Warnings: l.notes}
		rows := r.condition.rows(p, &l.solved, comparedQuantityNames())
		k := 0
		for j, n := range l.numbers {
			if !slices.Contains(comparedQuantityNames(), n.Quantity) {
				continue
			}
			nan := math.NaN()
			d := levelDifference{nan, nan, nan, nan}
			if l.differences != nil {
				d = l.differences[j]
			}
			one.Predicted = append(one.Predicted, report.ComparedRow{PredictedRow: rows[k], Difference: report.Difference{Value: d.value, Grid: d.grid, Low: d.low, High: d.high}})
			k++
		}
		out.Levels = append(out.Levels, one)
	}
	out.Drags, out.Warnings = r.dragTables(r.net), r.missing
	out.Verdicts = report.LevelVerdicts{Contrasts: r.contrasts, Baseline: r.choice.Baseline}
	for _, l := range r.study.Verdict.Levels {
		if l.Choice == r.choice.Name {
			out.Verdicts.Levels = append(out.Verdicts.Levels, l)
		}
	}
	return out
}

// estimatesOf are the study's numbers of a configuration.
func (r *comparison) estimatesOf(configuration string) []evidence.Estimate {
	out := []evidence.Estimate{}
	for _, e := range r.study.Estimates {
		if e.Configuration == configuration {
			out = append(out, e)
		}
	}
	return out
}

func (r *comparison) solvedLevels() []solved {
	var out []solved
	for i := range r.levels {
		out = append(out, r.levels[i].solved)
	}
	return out
}

// print writes the comparison in the form asked for, figures first.
func (r *comparison) print(s streams, o compareOptions) error {
	p := r.study.Program
	page := ""
	if o.figures != "" {
		figures, err := compareFigures(r)
		if err != nil {
			return err
		}
		if page, err = report.WriteFigureFiles(o.figures, "compare-"+report.FileName(r.choice.Name), p.Name+": "+r.choice.Name, figures); err != nil {
			return err
		}
	}
	var err error
	switch {
	case o.json:
		err = printJSON(s.Out, r.document())
	case o.csv:
		err = r.csv(s)
	default:
		err = report.CompareTable(s.Out, r.condition.head(p, r.solvedLevels()), r.table(), tableWidth)
	}
	if err == nil && page != "" {
		fmt.Fprintln(s.Err, "figures:", page)
	}
	return err
}
