package main

import (
	"context"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

type scaleOptions struct {
	folderOptions
	study.ScaleOptions
}

func newScaleCommand(s streams) *cobra.Command {
	var o scaleOptions
	c := &cobra.Command{
		Use:   "scale",
		Short: "how is the model ballasted: mass, CG, inertias, speeds, times to scale, and what goes into which bay",
		Long: `scale applies dynamic (Froude) similarity: what the model must weigh, where it must balance, how its inertias must be, how
fast it flies each lift coefficient. It sets the newest weighing beside that, says what each departure spoils, and proposes
ballast in the places that program.toml names, each a table [[model.bay]].

The model imitates the gross mass of [full_size], with the CG midway between the foremost and the aftmost of the loadings that
fly; --loading takes one of the loadings instead. The model is taken as it was weighed, with the ballast that it carried then.`,
		Example: "  wingproof scale\n  wingproof scale --loading \"one aboard, full fuel\" --weighing \"aft ballast\"\n  wingproof scale --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runScale(c.Context(), s, o) },
	}
	o.addFlags(c)
	c.Flags().StringVar(&o.Loading, "loading", "", "loading of program.toml that the model imitates (default: the gross mass, CG midway)")
	c.Flags().StringVar(&o.Weighing, "weighing", "", "weighing that is compared and ballasted (default: the newest)")
	return c
}

func runScale(_ context.Context, s streams, o scaleOptions) error {
	p, err := o.load(s)
	if err != nil {
		return err
	}
	scaling, err := study.ScaleOf(p, o.ScaleOptions)
	if err != nil {
		return usageError{err}
	}
	if o.json {
		return printJSON(s.Out, scaling)
	}
	return report.ScaleTable(s.Out, scaleContent(scaling), tableWidth)
}

// scaleContent is what the sheet shows of an answer.
func scaleContent(s study.Scaling) report.Scaling {
	out := report.Scaling{Program: s.Program, Imitates: s.Imitates, CGXSD: s.CGXSD, Sheet: s.Sheet, Loadings: s.Loadings,
		Weighing: s.Weighing, Weighed: s.Weighed, Ballast: s.Ballast, Notes: s.Notes}
	for _, d := range s.Doubts {
		out.Doubts = append(out.Doubts, report.Doubt(d))
	}
	return out
}
