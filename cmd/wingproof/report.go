package main

import (
	"context"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

func newReportCommand(s streams) *cobra.Command {
	var o folderOptions
	c := &cobra.Command{
		Use:     "report",
		Short:   "write report/index.html: the board first, then the evidence behind it",
		Long:    `report writes one self-contained page, report/index.html, into the program folder: it needs no network and prints on A4 and Letter.`,
		Example: "  wingproof report\n  wingproof report --program ../sandreed",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runReport(c.Context(), s, o) },
	}
	o.addFlags(c)
	o.addDate(c)
	return c
}

// reportDocument is what report --json prints.
type reportDocument struct {
	Program string `json:"program"`
	Date    string `json:"date"`
	Page    string `json:"page"`
}

func runReport(ctx context.Context, s streams, o folderOptions) error {
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return err
	}
	page, err := writeReport(ctx, st)
	if err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, reportDocument{st.Program.Name, st.Verdict.Date, page})
	}
	fmt.Fprintln(s.Out, "wrote", page)
	return nil
}

// writeReport writes the page of a finished study and returns its path.
func writeReport(ctx context.Context, st *study.Study) (string, error) {
	missing, err := st.Stalls(ctx)
	if err != nil {
		return "", err
	}
	content, err := pageContent(st)
	if err != nil {
		return "", err
	}
	content.Warnings = append(content.Warnings, missing...)
	dir := filepath.Join(st.Program.Dir, "report")
	if err := report.Write(dir, content); err != nil {
		return "", err
	}
	return filepath.Join(dir, "index.html"), nil
}
