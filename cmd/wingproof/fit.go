package main

import (
	"context"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// estimatesDocument is what fit, margin and lattice print with --json.
type estimatesDocument struct {
	Program   string              `json:"program"`
	Date      string              `json:"date"`
	Estimates []evidence.Estimate `json:"estimates"`
	LeftOut   []leftOut           `json:"left_out,omitempty"`
	NotFitted []leftOut           `json:"not_fitted,omitempty"` // input manoeuvres that gave no derivatives

	Differences []study.LevelDifference `json:"level_differences,omitempty"`
	Dangers     []report.Danger         `json:"dangers,omitempty"` // decelerations in which the wing let go first
	Missing     []missingFlying         `json:"missing_flying,omitempty"`
}

// leftOut is a flight that does not count, and why.
type leftOut struct {
	Flight string `json:"flight"`
	Why    string `json:"why"`
}

func newFitCommand(s streams) *cobra.Command {
	var o fitOptions
	c := &cobra.Command{
		Use:   "fit",
		Short: "what the flights say of each configuration: lift, drag, stall, trim, derivatives and modes, with 95 % intervals",
		Long: `fit reduces every log of the folder and fits, for each configuration flown: the trimmed and the untrimmed lift curve, the drag
polar of the glides, maximum lift from decelerations, the elevator trim slopes over the CGs with the stick-fixed neutral point, the manoeuvre
point from turns and pull-ups, sideslips, and stability and control derivatives from doublets and multisteps with the modes
that follow from them. Where several roads lead to one number each is told, and what they say together.

Steady points count per flight, not per sample; what all flights share (airspeed scale, CG, mass, inertia …) does not shrink with
more flights. What cannot be told from these flights says why, and what to fly; a wing that let go before the foreplane stands on top.

--figures draws trim slopes with the neutral point, lift curves, polars, the Dutch roll over the sizes of each choice, and time histories
measured against fitted: of each configuration one input of either half of the motion, or with --flight every input of one flight.
--configuration narrows tables and figures, the comparison of sizes apart; --csv has a row for each number, in SI units.`,
		Example: "  wingproof fit\n  wingproof fit --configuration winglet=tall\n  wingproof fit --csv\n  wingproof fit --figures figures --flight F03\n  wingproof fit --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runFit(c.Context(), s, o) },
	}
	o.addFlags(c)
	f := c.Flags()
	f.StringVar(&o.configuration, "configuration", "", "only the combinations with these `LEVELS`, such as winglet=mid")
	f.BoolVar(&o.csv, "csv", false, "print CSV (SI units, radians)")
	f.StringVar(&o.figures, "figures", "", "write figures and a page that shows them to this `FOLDER`")
	f.StringVar(&o.flight, "flight", "", "with --figures: measured and fitted time histories of every input of this `FLIGHT`")
	return c
}

// fitOptions are the flags of fit.
type fitOptions struct {
	folderOptions
	configuration string
	csv           bool
	figures       string
	flight        string
}

func runFit(ctx context.Context, s streams, o fitOptions) error {
	p, err := o.load(s)
	if err != nil {
		return err
	}
	keep, err := o.wanted(p)
	if err != nil {
		return err
	}
	st, err := study.Run(ctx, p, study.Options{Until: study.Fitted, Progress: s.progress(false), Keep: keptIn(p)})
	if err != nil {
		return err
	}
	doc := fitDocument(st, keep)
	if o.figures != "" {
		if err := writeFigureFolder(s, o.figures, "fit", st, fitFigures(o.flight, keep)); err != nil {
			return err
		}
	}
	if o.json {
		return printJSON(s.Out, doc)
	}
	tellLeftOut(s, st)
	for _, one := range doc.NotFitted {
		fmt.Fprintf(s.Err, "not fitted: flight %s: %s\n", one.Flight, one.Why)
	}
	if o.csv {
		if err := report.TellDangers(s.Err, doc.Dangers, tableWidth); err != nil {
			return err
		}
		return estimatesCSV(s.Out, doc.Estimates)
	}
	return printFit(s.Out, st, doc)
}

// fitDocument gathers what fit says of the configurations asked for.
func fitDocument(st *study.Study, keep func(map[string]string) bool) estimatesDocument {
	doc := estimatesDocument{Program: st.Program.Name, Date: st.Date, Estimates: []evidence.Estimate{}, LeftOut: flightsLeftOut(st), NotFitted: notFitted(st),
		Differences: st.LevelDifferences(), Dangers: dangersOf(st, keep), Missing: missingOf(st, keep)}
	for _, e := range withOrigin(st.Estimates, evidence.Measured) {
		if keep(e.Levels) {
			doc.Estimates = append(doc.Estimates, e)
		}
	}
	return doc
}

func printFit(w io.Writer, st *study.Study, doc estimatesDocument) error {
	if err := report.TellDangers(w, doc.Dangers, tableWidth); err != nil {
		return err
	}
	missing := map[string][]string{}
	for _, one := range doc.Missing {
		missing[one.Configuration] = append(missing[one.Configuration], one.What)
	}
	if len(doc.Estimates) == 0 {
		if _, err := fmt.Fprintln(w, "No flight counts yet, so nothing is fitted."); err != nil {
			return err
		}
	} else {
		if err := report.FitTable(w, doc.Estimates, missing, st.Program.Model.LengthRatio, tableWidth); err != nil {
			return err
		}
		if err := levelTable(w, st); err != nil {
			return err
		}
	}
	return report.Bullets(w, "What no flight of this program can tell, and what to fly:", missing[""], tableWidth)
}

// wanted tells which configurations are asked for. What the program does not have is refused, and the flight takes the program's spelling.
func (o *fitOptions) wanted(p *program.Program) (func(levels map[string]string) bool, error) {
	var m mistakes
	if o.csv && o.json {
		m.add("--csv and --json together: ask for one of them")
	}
	if o.flight != "" {
		if o.figures == "" {
			m.add("--flight goes with --figures: it chooses the flight whose time histories are drawn")
		}
		o.flight, _ = flightFlag(p, o.flight, &m)
	}
	asked := map[string]string{}
	if o.configuration != "" {
		asked = namedLevels(p, o.configuration, &m)
	}
	return func(levels map[string]string) bool {
		for choice, level := range asked {
			if levels[choice] != level {
				return false
			}
		}
		return true
	}, m.err()
}

// fitFigures lists what fit draws, of the configurations that are kept; modes stand side by side over all levels.
func fitFigures(flight string, keep func(map[string]string) bool) []figureMaker {
	kept := func(draw func(*study.Study) ([]plots.Figure, error)) func(*study.Study) ([]plots.Figure, error) {
		return func(st *study.Study) ([]plots.Figure, error) {
			some := *st
			some.Fits = slices.DeleteFunc(slices.Clone(st.Fits), func(f study.Fit) bool { return !keep(f.Levels) })
			return draw(&some)
		}
	}
	return []figureMaker{{"trim", kept(trimFigures)}, {"lift", kept(liftFigures)}, {"drag", kept(dragFigures)}, {"modes", modeFigures},
		{"history", kept(historyFigures(flight))}}
}
