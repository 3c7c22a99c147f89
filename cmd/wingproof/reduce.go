package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/reduce"
)

type reduceOptions struct {
	folderOptions
	flights []string
	csv     bool
}

func newReduceCommand(s streams) *cobra.Command {
	var o reduceOptions
	c := &cobra.Command{
		Use:   "reduce",
		Short: "what every flight holds: test points, stalls, sideslips, turns and inputs, kept or dropped and why",
		Long: `reduce reads every log of the folder and lists the steady stretches found in it, each with its means and whether it counts,
the manoeuvres in it, what stalls, sideslips, turns and pull-ups gave, which inputs the fits of derivatives take, and what was found wrong
with the logs. A log that cannot be used is left out and said so; the others
still count. The airspeed of all flights with one logger is put right together, so that --flight changes no number.

What a log gave is kept in .wingproof, so that a second run reads only the logs that changed, or whose logger, row in
flights.csv, marks or weighing changed. That folder may be deleted at any time.`,
		Example: "  wingproof reduce\n  wingproof reduce --flight F01 --flight F03\n  wingproof reduce --csv\n  wingproof reduce --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runReduce(c.Context(), s, o) },
	}
	o.addFlags(c)
	c.Flags().StringArrayVar(&o.flights, "flight", nil, "show only the flight of this `NAME`; may be given several times")
	c.Flags().BoolVar(&o.csv, "csv", false, "print the test points as CSV (SI units, radians, model size)")
	return c
}

// reduceDocument is what reduce --json prints.
type reduceDocument struct {
	Program   string                      `json:"program"`
	Flights   []reduce.Reduction          `json:"flights"`
	Airspeeds []study.AirspeedCalibration `json:"airspeed_calibrations"`
	LeftOut   []leftOut                   `json:"left_out"`
}

func runReduce(ctx context.Context, s streams, o reduceOptions) error {
	p, err := o.load(s)
	if err != nil {
		return err
	}
	asked, err := o.asked(p)
	if err != nil {
		return err
	}
	st, err := study.Run(ctx, p, study.Options{Until: study.Reduced, Progress: s.progress(false), Keep: keptIn(p)})
	if err != nil {
		return err
	}
	st.Flights = slices.DeleteFunc(st.Flights, func(f study.Flight) bool { return !asked[f.Name] })
	doc := reduceDocument{p.Name, []reduce.Reduction{}, []study.AirspeedCalibration{}, flightsLeftOut(st)}
	for _, c := range st.Airspeeds {
		if slices.ContainsFunc(st.Flights, func(f study.Flight) bool { return f.Logger == c.Logger }) {
			doc.Airspeeds = append(doc.Airspeeds, c)
		}
	}
	for _, f := range st.Flights {
		if f.Used {
			doc.Flights = append(doc.Flights, f.Reduction)
		}
	}
	if o.json {
		return printJSON(s.Out, doc)
	}
	tellLeftOut(s, st)
	to := s.Out
	if o.csv {
		to = s.Err
	}
	if err := report.TellDangers(to, dangersOf(st, everyLevel), tableWidth); err != nil {
		return err
	}
	if o.csv {
		return pointsCSV(s.Out, doc.Flights)
	}
	if err := report.PointTable(s.Out, doc.Flights, p.Model.LengthRatio, tableWidth); err != nil {
		return err
	}
	if err := tellAirspeeds(s.Out, doc.Airspeeds); err != nil {
		return err
	}
	return report.Tell(s.Out, "standard deviations of speed, lift, drag, angle of attack and elevator: --csv or --json")
}

// tellAirspeeds says what was taken off the airspeed of the test points, with its 95 % interval.
func tellAirspeeds(w io.Writer, all []study.AirspeedCalibration) error {
	for _, c := range all {
		way := "high"
		if c.Scale < 0 {
			way = "low"
		}
		who := "as one flight shows"
		if n := len(c.Flights); n > 1 {
			who = fmt.Sprintf("as %d flights show together", n)
		}
		if err := report.Tell(w, fmt.Sprintf("logger %s: its airspeed reads %.1f %% %s (± %.1f %% at 95 %%), %s; that is taken off the test points",
			c.Logger, 100*math.Abs(c.Scale), way, 100*normal95*c.SD, who)); err != nil {
			return err
		}
	}
	return nil
}

// asked are the names of the flights to show: those of --flight, else all. Names that the program does not have are
// told with those that it has.
func (o reduceOptions) asked(p *program.Program) (map[string]bool, error) {
	var m mistakes
	if o.csv && o.json {
		m.add("--csv and --json together: ask for one of them")
	}
	asked := map[string]bool{}
	for _, name := range o.flights {
		if known, ok := flightFlag(p, name, &m); ok {
			asked[known] = true
		}
	}
	if len(o.flights) == 0 {
		for _, name := range flightNames(p) {
			asked[name] = true
		}
	}
	return asked, m.err()
}

// flightFlag is a flight as the program writes its name; one that it does not have goes to m.
func flightFlag(p *program.Program, name string, m *mistakes) (string, bool) {
	i := slices.IndexFunc(p.Flights, func(f program.Flight) bool { return sameName(f.Name, name) })
	switch {
	case i >= 0:
		return p.Flights[i].Name, true
	case len(p.Flights) == 0:
		m.add("--flight: no flight %q: the folder has no flight yet; write it into %s", name, program.FlightsFile)
	default:
		m.add("--flight: no flight %q in %s; it has %s", name, program.FlightsFile, strings.Join(flightNames(p), ", "))
	}
	return "", false
}

func flightNames(p *program.Program) []string {
	var names []string
	for _, f := range p.Flights {
		names = append(names, f.Name)
	}
	return names
}
