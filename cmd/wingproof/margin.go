package main

import (
	"context"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

func newMarginCommand(s streams) *cobra.Command {
	var o marginOptions
	c := &cobra.Command{
		Use:   "margin",
		Short: "static margin per configuration and CG: measured, predicted and anchored",
		Long: `margin prints the stick-fixed static margin of every configuration: at each CG flown (model scale: measured from
the trim slopes, predicted by the lattice) and at each loading that flies (full size: the prediction anchored by the flights).
--figures draws them, with a picture of the roads where input manoeuvres give a second one.`,
		Example: "  wingproof margin\n  wingproof margin --csv\n  wingproof margin --figures figures\n  wingproof margin --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runMargin(c.Context(), s, o) },
	}
	o.addFlags(c)
	c.Flags().BoolVar(&o.csv, "csv", false, "print CSV (SI units)")
	c.Flags().StringVar(&o.figures, "figures", "", "write figures and a page that shows them to this `FOLDER`")
	return c
}

type marginOptions struct {
	folderOptions
	csv     bool
	figures string
}

func runMargin(ctx context.Context, s streams, o marginOptions) error {
	if o.csv && o.json {
		return usagef("--csv and --json together: ask for one of them")
	}
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return err
	}
	if o.figures != "" {
		if err := writeFigureFolder(s, o.figures, "margin", st, []figureMaker{{"margin", marginFigures}, {"roads", marginRoadFigures}, {"trim", trimFigures}}); err != nil {
			return err
		}
	}
	if o.json {
		return printJSON(s.Out, estimatesDocument{Program: st.Program.Name, Date: st.Date, Estimates: st.Margins, LeftOut: flightsLeftOut(st)})
	}
	tellLeftOut(s, st)
	if o.csv {
		return estimatesCSV(s.Out, st.Margins)
	}
	return report.EstimateTable(s.Out, st.Margins, st.Program.Model.LengthRatio, tableWidth)
}
