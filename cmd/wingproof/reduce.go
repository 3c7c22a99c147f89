package main

import (
	"context"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/reduce"
)

func newReduceCommand(s streams) *cobra.Command {
	var o folderOptions
	c := &cobra.Command{
		Use:     "reduce",
		Short:   "steady test points of every flight, kept or dropped and why",
		Long:    `reduce reads every log of the folder and lists the steady stretches found in it, each with its means and whether it counts.`,
		Example: "  wingproof reduce\n  wingproof reduce --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runReduce(c.Context(), s, o) },
	}
	o.addFlags(c)
	return c
}

// reduceDocument is what reduce --json prints.
type reduceDocument struct {
	Program string             `json:"program"`
	Flights []reduce.Reduction `json:"flights"`
	LeftOut []leftOut          `json:"left_out"`
}

func runReduce(ctx context.Context, s streams, o folderOptions) error {
	st, err := o.study(ctx, s, study.Reduced)
	if err != nil {
		return err
	}
	flights := []reduce.Reduction{}
	for _, f := range st.Flights {
		if f.Used {
			flights = append(flights, f.Reduction)
		}
	}
	if o.json {
		return printJSON(s.Out, reduceDocument{st.Program.Name, flights, flightsLeftOut(st)})
	}
	tellLeftOut(s, st)
	return report.PointTable(s.Out, flights, 110)
}
