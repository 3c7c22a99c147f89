package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// estimatesDocument is what fit, margin and lattice print with --json.
type estimatesDocument struct {
	Program   string              `json:"program"`
	Date      string              `json:"date"`
	Estimates []evidence.Estimate `json:"estimates"`
	LeftOut   []leftOut           `json:"left_out,omitempty"`
}

// leftOut is a flight that does not count, and why.
type leftOut struct {
	Flight string `json:"flight"`
	Why    string `json:"why"`
}

func newFitCommand(s streams) *cobra.Command {
	var o folderOptions
	c := &cobra.Command{
		Use:   "fit",
		Short: "lift curve, drag, trim slopes and neutral point from the flights, with 95 % intervals",
		Long: `fit reduces every log of the folder and fits, for each configuration flown: the trimmed and the untrimmed lift curve, the drag
polar of the glides, the elevator trim slopes over the CGs and the stick-fixed neutral point.`,
		Example: "  wingproof fit\n  wingproof fit --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runFit(c.Context(), s, o) },
	}
	o.addFlags(c)
	return c
}

func runFit(ctx context.Context, s streams, o folderOptions) error {
	st, err := o.study(ctx, s, study.Fitted)
	if err != nil {
		return err
	}
	measured := withOrigin(st.Estimates, evidence.Measured)
	if o.json {
		return printJSON(s.Out, estimatesDocument{st.Program.Name, st.Date, measured, flightsLeftOut(st)})
	}
	tellLeftOut(s, st)
	if len(measured) == 0 {
		fmt.Fprintln(s.Out, "No flight counts yet, so nothing is fitted.")
		return nil
	}
	return report.EstimateTable(s.Out, measured, st.Program.Model.LengthRatio, 100)
}

func withOrigin(all []evidence.Estimate, origin string) []evidence.Estimate {
	out := []evidence.Estimate{}
	for _, e := range all {
		if e.Origin == origin {
			out = append(out, e)
		}
	}
	return out
}

func flightsLeftOut(st *study.Study) []leftOut {
	out := []leftOut{}
	for _, f := range st.Flights {
		if !f.Used {
			out = append(out, leftOut{f.Name, f.Why})
		}
	}
	return out
}

func tellLeftOut(s streams, st *study.Study) {
	for _, f := range flightsLeftOut(st) {
		fmt.Fprintf(s.Err, "left out: flight %s: %s\n", f.Flight, f.Why)
	}
}
