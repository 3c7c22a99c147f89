package main

import (
	"context"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

func newMarginCommand(s streams) *cobra.Command {
	var o folderOptions
	c := &cobra.Command{
		Use:   "margin",
		Short: "static margin per configuration and CG: measured, predicted and anchored",
		Long: `margin prints the stick-fixed static margin of every configuration: at each CG flown (model scale: measured from
the trim slopes, predicted by the lattice) and at each loading that flies (full size: the prediction anchored by the flights).`,
		Example: "  wingproof margin\n  wingproof margin --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runMargin(c.Context(), s, o) },
	}
	o.addFlags(c)
	return c
}

func runMargin(ctx context.Context, s streams, o folderOptions) error {
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, estimatesDocument{st.Program.Name, st.Date, st.Margins, flightsLeftOut(st)})
	}
	tellLeftOut(s, st)
	return report.EstimateTable(s.Out, st.Margins, st.Program.Model.LengthRatio, 100)
}
