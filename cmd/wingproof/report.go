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
		Short: "write the report folder: the board first, then the evidence behind it",
		Long: `report writes the folder report/ into the program folder. It needs no network and prints on A4 and Letter:

  index.html                 the board, what is open, what to do next (a forecast), the evidence, the flights, the decisions
  board.html                 the sheet for the wall, read at three metres
  choice-NAME.html           all about one choice, for the designer
  flight-NAME.html           one flight: what was flown, what the log shows, what its numbers were used for
  methods.html               equations, assumptions, model errors, sources
  figures/ tables/           every figure but those of flights as a drawing and a picture, the numbers as tables
  evidence.json              everything as one document, SI units and radians

Files that hold the same bytes already are left alone, and pages of flights or choices that are gone are removed. Files that report
did not write, and issued sheets, are never removed; but a file of yours that has the name of one in this list, such as board.html, is
replaced: keep what is yours under another name or in another folder.

Without --issue the pages are a draft and say so. --issue WHO makes a numbered sheet for the wall: it adds one row to sheets.csv
(number, date, who, newest flight, evidence, and the word for every part), keeps the sheet as report/sheet-NUMBER.html, to be printed
and hung, and the whole board with its evidence as report/sheet-NUMBER-evidence.html. A sheet is void when one with a higher number
hangs; each says what changed since the one before. The date is that of --date, else the newest in the folder.`,
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
	Wall    string       `json:"wall_sheet"` // the newest one
	Written []string     `json:"written"`    // below the folder of the page
	Removed []string     `json:"removed"`
	Same    int          `json:"left_alone"`
	Sheet   report.Sheet `json:"sheet"`
}

// reportDocumentOf is what was written of a report.
func reportDocumentOf(st *study.Study, folder report.Folder, sheet report.Sheet) reportDocument {
	dir := reportFolder(st.Program)
	return reportDocument{st.Program.Name, st.Verdict.Date, filepath.Join(dir, "index.html"), filepath.Join(dir, "board.html"), append([]string{}, folder.Written...),
		append([]string{}, folder.Removed...), folder.Same, sheet}
}

func reportFolder(p *program.Program) string { return filepath.Join(p.Dir, "report") }

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
	files, err := reportFiles(ctx, st, head, s.progress(false))
	if err != nil {
		return err
	}
	folder, err := report.WriteFolder(reportFolder(st.Program), files)
	if err != nil {
		return err
	}
	doc := reportDocumentOf(st, folder, head.sheet)
	if o.json {
		return printJSON(s.Out, doc)
	}
	_ = report.Tell(s.Out, doc.words()+"\n"+head.sheet.Head())
	tellChanges(s, head.sheet)
	return nil
}

// words say where to look, and what changed.
func (d reportDocument) words() string {
	if len(d.Written)+len(d.Removed) == 0 {
		return d.Page + " is as it should be: nothing has changed"
	}
	words := fmt.Sprintf("wrote %s, and beside it the sheet for the wall (board.html), pages, figures and tables", d.Page)
	if n := len(d.Removed); n > 0 {
		words += fmt.Sprintf("; removed %s of an earlier report", counted(n, "file"))
	}
	return words
}

// issueSheet judges the folder, numbers the board and writes all pages. They are laid out before the number is given, so
// that a number always has its sheet.
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
	m, err := makeReport(ctx, st, head, s.progress(false))
	if err != nil {
		return err
	}
	kept, err := m.issued()
	if err != nil {
		return err
	}
	if err := noOtherSheet(reportFolder(st.Program), kept); err != nil {
		return err
	}
	if _, err := program.Issue(st.Program.Dir, sheet, basisOf(st.Program, inputs)); err != nil {
		return err
	}
	return o.hang(s, st, head.sheet, append(kept, m.files...))
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

// hang writes the pages as the newest ones and the sheet under its number.
func (o reportOptions) hang(s streams, st *study.Study, sheet report.Sheet, files []report.File) error {
	folder, err := report.WriteFolder(reportFolder(st.Program), files)
	if err != nil {
		return fmt.Errorf("sheet %d is recorded in %s, but: %w", sheet.Number, program.SheetsFile, err)
	}
	doc := reportDocumentOf(st, folder, sheet)
	if o.json {
		return printJSON(s.Out, doc)
	}
	_ = report.Tell(s.Out, sheet.Head())
	tellChanges(s, sheet)
	fmt.Fprintf(s.Out, "wrote %s; print it and hang it. Kept with it: %s. Newest board: %s\n", filepath.Join(reportFolder(st.Program), sheetFile(sheet.Number)),
		sheetEvidenceFile(sheet.Number), doc.Page)
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
	_ = report.Tell(s.Out, head)
	for _, line := range sheet.ChangeLines() {
		_ = report.Tell(s.Out, "  "+line)
	}
}

// reportContent is everything that the page shows.
func reportContent(ctx context.Context, st *study.Study, head boardHead) (report.Content, error) {
	missing, err := st.Stalls(ctx)
	if err != nil {
		return report.Content{}, err
	}
	content, err := pageContent(ctx, st, head)
	content.Warnings = append(content.Warnings, missing...)
	return content, err
}

// writeReport writes the folder of a finished study and returns the path of its first page. tell hears how far the forecast is.
func writeReport(ctx context.Context, st *study.Study, head boardHead, tell func(done, total int, what string)) (string, error) {
	files, err := reportFiles(ctx, st, head, tell)
	if err != nil {
		return "", err
	}
	dir := reportFolder(st.Program)
	if _, err := report.WriteFolder(dir, files); err != nil {
		return "", err
	}
	return filepath.Join(dir, "index.html"), nil
}
