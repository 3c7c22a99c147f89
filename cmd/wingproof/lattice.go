package main

import (
	"context"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

func newLatticeCommand(s streams) *cobra.Command {
	var o folderOptions
	c := &cobra.Command{
		Use:   "lattice",
		Short: "what the vortex lattice predicts for every combination of levels",
		Long: `lattice solves the vortex lattice for every combination of the choices' levels and prints lift slope, neutral point, induced
drag, directional stiffness and the bending in the plane of symmetry at limit load, with the error of the theory where one is stated.`,
		Example: "  wingproof lattice\n  wingproof lattice --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runLattice(c.Context(), s, o) },
	}
	o.addFlags(c)
	return c
}

func runLattice(ctx context.Context, s streams, o folderOptions) error {
	st, err := o.study(ctx, s, study.Predicted)
	if err != nil {
		return err
	}
	predicted := withOrigin(st.Estimates, evidence.Predicted)
	if o.json {
		return printJSON(s.Out, estimatesDocument{Program: st.Program.Name, Date: st.Date, Estimates: predicted})
	}
	return report.EstimateTable(s.Out, predicted, st.Program.Model.LengthRatio, 100)
}
