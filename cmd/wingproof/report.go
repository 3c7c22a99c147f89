package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

type reportOptions struct {
	folderOptions
	issue   string
	issuing bool // --issue was given, with or without a name
}

func newReportCommand(s streams) *cobra.Command {
	var o reportOptions
	c := &cobra.Command{
		Use:   "report",
		Short: "write report/index.html: the board first, then the evidence behind it",
		Long: `report writes one self-contained page, report/index.html, into the program folder: it needs no network and prints on A4 and Letter.

Without --issue the page is a draft and says so. --issue WHO makes it a numbered sheet for the wall: it adds one row to sheets.csv (number,
date, who, newest flight, evidence, and the word for every part) and keeps the page as report/sheet-NUMBER.html too. A sheet is void
when one with a higher number hangs; each says what changed since the one before. The date is that of --date, else the newest in
the folder.`,
		Example: "  wingproof report\n  wingproof report --program ../sandreed\n  wingproof report --issue \"S. I.\"",
		Args:    noArguments,
		RunE: func(c *cobra.Command, _ []string) error {
			o.issuing = c.Flags().Changed("issue")
			return runReport(c.Context(), s, o)
		},
	}
	o.addFlags(c)
	o.addDate(c)
	c.Flags().StringVar(&o.issue, "issue", "", "number the board as a sheet for the wall, issued by this name")
	return c
}

// reportDocument is what report --json prints.
type reportDocument struct {
	Program string       `json:"program"`
	Date    string       `json:"date"`
	Page    string       `json:"page"`
	Sheet   report.Sheet `json:"sheet"`
}

func runReport(ctx context.Context, s streams, o reportOptions) error {
	if o.issuing {
		return untilRecorded(func() error { return o.issueSheet(ctx, s) })
	}
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return err
	}
	head, err := boardHeadOf(st)
	if err != nil {
		return err
	}
	page, err := writeReport(ctx, st, head)
	if err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, reportDocument{st.Program.Name, st.Verdict.Date, page, head.sheet})
	}
	fmt.Fprintf(s.Out, "wrote %s\n%s\n", page, head.sheet.Head())
	tellChanges(s, head.sheet)
	return nil
}

// issueSheet judges the folder, numbers the board and writes both pages. The page is laid out before the number is given, so
// that a number always has its page.
func (o reportOptions) issueSheet(ctx context.Context, s streams) error {
	if strings.TrimSpace(o.issue) == "" {
		return usagef("report: a sheet needs the name of who issues it; write --issue \"name\"")
	}
	inputs, st, err := o.judgedOn(ctx, s)
	if err != nil {
		return err
	}
	sheet, head, err := o.sheetOf(st)
	if err != nil {
		return err
	}
	content, err := reportContent(ctx, st, head)
	if err != nil {
		return err
	}
	page, err := report.Laid(content)
	if err != nil {
		return err
	}
	if _, err := program.Issue(st.Program.Dir, sheet, basisOf(st.Program, inputs)); err != nil {
		return err
	}
	return o.hang(s, st, head.sheet, page)
}

// sheetOf is the row for sheets.csv and the head of the page for the next number.
func (o reportOptions) sheetOf(st *study.Study) (program.Sheet, boardHead, error) {
	if len(st.Verdict.Board) == 0 {
		return program.Sheet{}, boardHead{}, noParts()
	}
	if st.Verdict.Date == "" {
		return program.Sheet{}, boardHead{}, usagef("report: nothing in the folder carries a date yet; add --date with the day of the sheet, such as 2026-03-14")
	}
	decided, err := recordOf(st)
	if err != nil {
		return program.Sheet{}, boardHead{}, err
	}
	head := boardHead{draftOf(st), decided}
	head.sheet.Number, head.sheet.IssuedBy = 1, strings.Join(strings.Fields(o.issue), " ")
	if head.sheet.Last != nil {
		head.sheet.Number = head.sheet.Last.Number + 1
	}
	row := program.Sheet{Date: st.Verdict.Date, IssuedBy: o.issue, Board: sheetRows(st)}
	if name, date := newestUsed(st); name != "" {
		row.NewestFlight = "flight " + name + " of " + date
	}
	return row, head, nil
}

// hang writes the page as the newest one and under its number.
func (o reportOptions) hang(s streams, st *study.Study, sheet report.Sheet, page []byte) error {
	folder := filepath.Join(st.Program.Dir, "report")
	kept := filepath.Join(folder, fmt.Sprintf("sheet-%d.html", sheet.Number))
	newest := filepath.Join(folder, "index.html")
	for _, path := range []string{kept, newest} {
		if err := report.WritePage(path, page); err != nil {
			return fmt.Errorf("sheet %d is recorded in %s, but: %w", sheet.Number, program.SheetsFile, err)
		}
	}
	if o.json {
		return printJSON(s.Out, reportDocument{st.Program.Name, st.Verdict.Date, newest, sheet})
	}
	fmt.Fprintln(s.Out, sheet.Head())
	tellChanges(s, sheet)
	fmt.Fprintf(s.Out, "wrote %s and %s; print it and hang it\n", newest, kept)
	if sheet.Last != nil {
		fmt.Fprintf(s.Out, "take sheet %d down\n", sheet.Last.Number)
	}
	return nil
}

func tellChanges(s streams, sheet report.Sheet) {
	head := sheet.ChangesHead()
	if head == "" {
		return
	}
	fmt.Fprintln(s.Out, head)
	for _, line := range sheet.ChangeLines() {
		fmt.Fprintln(s.Out, " ", line)
	}
}

// reportContent is everything that the page shows.
func reportContent(ctx context.Context, st *study.Study, head boardHead) (report.Content, error) {
	missing, err := st.Stalls(ctx)
	if err != nil {
		return report.Content{}, err
	}
	content, err := pageContent(st, head)
	content.Warnings = append(content.Warnings, missing...)
	return content, err
}

// writeReport writes the page of a finished study and returns its path.
func writeReport(ctx context.Context, st *study.Study, head boardHead) (string, error) {
	content, err := reportContent(ctx, st, head)
	if err != nil {
		return "", err
	}
	dir := filepath.Join(st.Program.Dir, "report")
	if err := report.Write(dir, content); err != nil {
		return "", err
	}
	return filepath.Join(dir, "index.html"), nil
}
