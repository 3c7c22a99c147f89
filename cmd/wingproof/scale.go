package main

import (
	"context"

	"github.com/spf13/cobra"

	"wingproof/aero/similitude"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

func newScaleCommand(s streams) *cobra.Command {
	var o folderOptions
	c := &cobra.Command{
		Use:   "scale",
		Short: "the sheet that carries the full-size aircraft to the model: mass, inertias, speeds, times",
		Long: `scale applies dynamic (Froude) similarity: what the model must weigh, how its inertias must be, how fast it flies each
lift coefficient, and what the newest weighing's departures spoil.`,
		Example: "  wingproof scale\n  wingproof scale --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runScale(c.Context(), s, o) },
	}
	o.addFlags(c)
	return c
}

// scaleDocument is what scale --json prints.
type scaleDocument struct {
	Program string           `json:"program"`
	Sheet   similitude.Sheet `json:"sheet"`
}

func runScale(_ context.Context, s streams, o folderOptions) error {
	p, err := o.load(s)
	if err != nil {
		return err
	}
	sheet, err := study.Scale(p)
	if err != nil {
		return usageError{err}
	}
	if o.json {
		return printJSON(s.Out, scaleDocument{p.Name, sheet})
	}
	return report.ScaleTable(s.Out, sheet, 100)
}
