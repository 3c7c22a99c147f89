package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
)

// tableWidth leaves the width of text to what it is written to: see report.Terminal.
const tableWidth = 0

// latticeOptions are the flags of lattice.
type latticeOptions struct {
	folderOptions
	conditionOptions
	configuration string
	one           bool // a configuration was asked for
	sweeps        []string
	csv, spanLoad bool
	figures       string
}

func newLatticeCommand(s streams) *cobra.Command {
	var o latticeOptions
	c := &cobra.Command{
		Use:   "lattice",
		Short: "what the vortex lattice predicts: every combination of levels, one in full, or a sweep of sizes",
		Long: `lattice solves the vortex lattice for every combination of the choices' levels and prints trim, neutral point, slopes,
derivatives, induced drag and the bending in the plane of symmetry at limit load. The head of each table states what
another program needs to be set up alike: reference quantities, axes, moment point, condition, wakes and panels.

Each number stands with the estimated error of its grid (the value at zero panel size is expected within it). The error
of the theory itself is another matter, mostly the larger one, and stands apart where one is stated.

--configuration takes one combination and prints everything; choices that it leaves out stand at their baseline.
--sweep changes a size of a surface, named as in program.toml, from one value to another in so many steps; given
twice, it makes a grid of sizes. There the error of the grid is estimated at the ends and the baseline only.`,
		Example: `  wingproof lattice
  wingproof lattice --configuration winglet=tall
  wingproof lattice --configuration winglet=tall --alpha-deg 3 --cg-mm 4030 --wake stream
  wingproof lattice --configuration winglet=tall --speed-kt 110 --load-factor 3.8
  wingproof lattice --sweep winglet.height_m=0.6:1.4:5 --figures report/sweep
  wingproof lattice --sweep winglet.height_m=0.6:1.4:3 --sweep winglet.cant_deg=0:20:2 --lift 0.7 --csv
  wingproof lattice --span-load --csv
  wingproof lattice --program ../sandreed --json`,
		Args: noArguments,
		RunE: func(c *cobra.Command, _ []string) error {
			o.one = c.Flags().Changed("configuration")
			return runLattice(c.Context(), s, o)
		},
	}
	o.folderOptions.addFlags(c)
	o.addState(c)
	o.addAir(c)
	f := c.Flags()
	f.StringVar(&o.configuration, "configuration", "", "one combination of `LEVELS` in full, such as winglet=mid,foreplane=long")
	f.StringArrayVar(&o.sweeps, "sweep", nil, "`SIZE=FROM:TO:COUNT` to sweep, such as winglet.height_m=0.6:1.4:9; may be given twice")
	f.BoolVar(&o.spanLoad, "span-load", false, "print the load along every span, strip by strip, instead")
	f.BoolVar(&o.csv, "csv", false, "print CSV (SI units, radians)")
	f.StringVar(&o.figures, "figures", "", "write figures and a page that shows them to this `FOLDER`")
	return c
}

func runLattice(_ context.Context, s streams, o latticeOptions) error {
	p, err := o.load(s)
	if err != nil {
		return err
	}
	var m mistakes
	c := o.condition(p, &m)
	subjects, sweep := o.subjects(p, &m)
	if o.csv && o.json {
		m.add("--csv and --json together: ask for one of them")
	}
	if o.spanLoad && len(o.sweeps) > 0 {
		m.add("--span-load with --sweep: the load along the span belongs to one combination; name it with --configuration")
	}
	if err := m.err(); err != nil {
		return err
	}
	if err := c.momentPoint(p); err != nil {
		return err
	}
	if sweep != nil {
		return sweep.run(s, p, c, o)
	}
	return o.runConfigurations(s, p, c, subjects)
}

// subjects are the configurations asked for, or the sweep.
func (o latticeOptions) subjects(p *program.Program, m *mistakes) ([]subject, *sweep) {
	all := p.Configurations()
	if o.one || len(o.sweeps) > 0 {
		all = all[:1]
	}
	if o.one {
		all[0] = levelsFlag(p, o.configuration, m)
	}
	if len(o.sweeps) > 0 {
		return nil, o.readSweep(p, all[0], m)
	}
	var out []subject
	for _, levels := range all {
		one, err := subjectOf(p, levels, nil)
		if err != nil {
			m.add("%v", err)
			continue
		}
		out = append(out, one)
	}
	return out, nil
}

func (o latticeOptions) runConfigurations(s streams, p *program.Program, c condition, subjects []subject) error {
	all, err := c.solve(p, subjects)
	if err != nil {
		return err
	}
	if o.one {
		note, err := takeOffNote(p, c, all[0])
		if err != nil {
			return err
		}
		all[0].notes = append(all[0].notes, note...)
	}
	page := ""
	if o.figures != "" {
		figures, err := latticeFigures(p, c, all)
		if err != nil {
			return err
		}
		if page, err = report.WriteFigureFiles(o.figures, "lattice", p.Name+": vortex lattice", figures); err != nil {
			return err
		}
	}
	if err := o.print(s, p, c, all); err != nil {
		return err
	}
	if page != "" {
		fmt.Fprintln(s.Err, "figures:", page)
	}
	return nil
}

// print writes solved configurations in the form that was asked for.
func (o latticeOptions) print(s streams, p *program.Program, c condition, all []solved) error {
	switch {
	case o.spanLoad && o.json:
		return printJSON(s.Out, c.stripsDocument(p, all))
	case o.spanLoad && o.csv:
		return c.stripsCSV(s.Out, p, all)
	case o.spanLoad:
		var groups []report.StripGroup
		for i := range all {
			groups = append(groups, report.StripGroup{Name: all[i].name, Strips: all[i].Solution.Strips(all[i].State)})
		}
		return report.StripTable(s.Out, c.head(p, all), groups, tableWidth)
	case o.json:
		return printJSON(s.Out, c.document(p, all))
	case o.csv:
		return c.csv(s.Out, p, all, []string{"configuration"}, func(i int) []string { return []string{all[i].name} })
	}
	names := mainQuantities()
	if o.one {
		names = nil
	}
	return report.LatticeTable(s.Out, c.head(p, all), c.groups(p, all, names), tableWidth)
}
