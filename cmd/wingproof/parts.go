package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

type partsOptions struct {
	folderOptions
	why string
}

func newPartsCommand(s streams) *cobra.Command {
	var o partsOptions
	c := &cobra.Command{
		Use:   "parts",
		Short: "the board: which parts to start, which to carry on with, which must wait, and why",
		Long: `parts judges every part of parts.csv on the flights and the predictions of the program folder.

A part's shape is final (frozen) when no open choice shapes it and all its limits hold, with at least 95 %
probability, in every combination of sizes that is still possible. Otherwise its shape may change (pending).

The head says what changed since the last sheet that was issued to the wall (report --issue); below the parts stands what
was decided, on which flights, and what came in since.`,
		Example: "  wingproof parts\n  wingproof parts --why \"strake tank skin\"\n  wingproof parts --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runParts(c.Context(), s, o) },
	}
	o.addFlags(c)
	o.addDate(c)
	c.Flags().StringVar(&o.why, "why", "", "show the whole chain of reasons for one part")
	return c
}

// partsDocument is what parts --json prints.
type partsDocument struct {
	Program   string                 `json:"program"`
	Date      string                 `json:"date"`
	Sheet     report.Sheet           `json:"sheet"`
	Alarms    []string               `json:"alarms"`
	Choices   []decide.ChoiceVerdict `json:"choices"`
	Levels    []decide.LevelVerdict  `json:"levels"`
	Parts     []decide.Row           `json:"parts"`
	Decisions []report.Decided       `json:"decisions"`
	LeftOut   []leftOut              `json:"left_out"`
	NotJudged []string               `json:"not_judged_here"`
}

func partsDocumentOf(st *study.Study, head boardHead) partsDocument {
	v := st.Verdict
	return partsDocument{st.Program.Name, v.Date, head.sheet, v.Alarms, v.Choices, v.Levels, v.Board, head.decided, flightsLeftOut(st), v.NotJudged}
}

func runParts(ctx context.Context, s streams, o partsOptions) error {
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return err
	}
	if len(st.Verdict.Board) == 0 {
		return noParts()
	}
	head, err := boardHeadOf(st)
	if err != nil {
		return err
	}
	if o.why != "" {
		rows, err := rowsNamed(st.Verdict.Board, o.why)
		if err != nil {
			return err
		}
		st.Verdict.Board = rows
	}
	if o.json {
		return printJSON(s.Out, partsDocumentOf(st, head))
	}
	if o.why != "" {
		tellLeftOut(s, st)
		return printWhy(s, st.Verdict.Board)
	}
	return report.Board{Verdict: st.Verdict, Sheet: &head.sheet, Decided: head.decided}.Write(s.Out, tableWidth)
}

// noParts is what is said of a list without parts.
func noParts() error {
	return usagef("parts.csv: no parts to judge; list the shop's parts there, one a row ('wingproof new' writes an example)")
}

// rowsNamed picks the rows of a part: both sides of its name, or the one that the board calls so.
func rowsNamed(board []decide.Row, name string) ([]decide.Row, error) {
	name = strings.TrimSpace(name)
	var rows []decide.Row
	var names []string
	for _, row := range board {
		if !slices.Contains(names, row.Part) {
			names = append(names, row.Part)
		}
		if strings.EqualFold(row.Part, name) || strings.EqualFold(report.PartWords(row), name) {
			rows = append(rows, row)
		}
	}
	if len(rows) == 0 {
		return nil, usagef("no part %q in parts.csv; it lists %s", name, strings.Join(names, ", "))
	}
	return rows, nil
}

func printWhy(s streams, rows []decide.Row) error {
	for _, row := range rows {
		word := strings.ToUpper(row.Action)
		if row.Action == decide.StopAndAsk {
			word = report.Alarm(s.Out, word)
		} else {
			word = report.Bold(s.Out, word)
		}
		fmt.Fprintf(s.Out, "%s, %s: %s\n", row.Part, row.Side, word)
		for _, line := range row.Reasons {
			_ = report.Tell(s.Out, "  because "+line)
		}
		if row.Clears != "" {
			_ = report.Tell(s.Out, "  what would clear it: "+row.Clears)
		}
		for _, line := range row.Chain {
			_ = report.Tell(s.Out, "    · "+line)
		}
		fmt.Fprintln(s.Out)
	}
	return nil
}
