package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"

	"github.com/spf13/cobra"

	"wingproof/aero/atmosphere"
	"wingproof/aero/weighing"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

type weighOptions struct {
	folderOptions
	blank         bool
	write         string
	configuration string
}

func newWeighCommand(s streams) *cobra.Command {
	var o weighOptions
	c := &cobra.Command{
		Use:   "weigh SHEET",
		Short: "mass, CG and inertias of the model from scales, tilts and swings",
		Long: `weigh reads a sheet that was filled in at the bench and works out mass, CG (aft, right, up) and the moments of inertia Ix, Iy, Iz
and Ixz of the model, each with its 95 % interval, what its error comes from and what would halve it, beside the targets of scale. The
air that swings along is estimated from the surfaces and taken off. A sheet that is filled in partly answers for what is there.

wingproof weigh --blank > sheet.csv prints a sheet with instructions and an invented weighing that works as it is. Any spreadsheet may save
it; heads may carry other units (x_in, reading_lb). Lengths are at model size, from the model's datum.

--write NAME adds the result as a row to the table of weighings, dated by --date or by the sheet. A name is never used twice.

` + cautionsOfHelp(),
		Example: "  wingproof weigh --blank\n  wingproof weigh sheet.csv\n  wingproof weigh sheet.csv --configuration winglet=tall\n  wingproof weigh sheet.csv --write \"day 3 ballast\" --date 2026-03-12",
		Args: func(c *cobra.Command, args []string) error {
			if o.blank {
				return noArguments(c, args)
			}
			return exactly(1, "one word: the sheet that was filled in; begin one with: wingproof weigh --blank > sheet.csv")(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return runWeigh(c.Context(), s, o, args) },
	}
	o.addFlags(c)
	c.Flags().BoolVar(&o.blank, "blank", false, "print a sheet to fill in, with an invented example")
	c.Flags().StringVar(&o.write, "write", "", "add the result to the table of weighings under this `NAME`")
	c.Flags().StringVar(&o.date, "date", "", "`DAY` of the weighing, such as 2026-03-14 (default: the sheet's)")
	c.Flags().StringVar(&o.configuration, "configuration", "", "surfaces that the model wore, `CHOICE=SIZE`,… (default: the baseline); only the air asks")
	return c
}

func cautionsOfHelp() string {
	text := "Cautions:\n"
	for _, c := range report.WeighCautions() {
		text += "  " + c + "\n"
	}
	return text
}

func runWeigh(_ context.Context, s streams, o weighOptions, args []string) error {
	if o.blank {
		if o.json || o.write != "" {
			return usagef("weigh: --blank prints a table to fill in and goes with no other flag")
		}
		_, err := fmt.Fprint(s.Out, program.BlankWeighingSheet())
		return err
	}
	if err := o.checkDate(); err != nil {
		return err
	}
	w, err := o.weigh(s, args[0])
	if err != nil {
		return err
	}
	if o.write != "" {
		if err := w.record(o.write); err != nil {
			return err
		}
	}
	if o.json {
		return printJSON(s.Out, w.document())
	}
	if err := w.content().Write(s.Out, tableWidth); err != nil {
		return err
	}
	if w.written != "" {
		fmt.Fprintf(s.Out, "\n%s: row %q written, %s\n", w.written, w.row.Name, w.row.Date)
	}
	return nil
}

// weighed is one weighing with all that is told of it.
type weighed struct {
	program *program.Program
	file    string
	sheet   program.WeighingSheet
	result  weighing.Result
	targets report.Weigh // with targets only
	row     program.Weighing
	written string // table that the row was added to
	doubts  []string
}

// weigh reads the folder and the sheet, and works it out.
func (o weighOptions) weigh(s streams, file string) (*weighed, error) {
	p, err := o.load(s)
	if err != nil {
		return nil, err
	}
	raw, err := os.ReadFile(file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, usagef("weigh: there is no file %s; begin one with: wingproof weigh --blank > sheet.csv", file)
	case err != nil:
		return nil, usagef("weigh: %s cannot be read: %v", file, err)
	}
	w := &weighed{program: p, file: file}
	if w.sheet, err = program.ReadWeighingSheet(p, file, raw); err != nil {
		return nil, err
	}
	if o.date != "" {
		w.sheet.Date = o.date
	}
	if err := w.solve(o.configuration); err != nil {
		return nil, err
	}
	return w, nil
}

// solve works the sheet out, with the air of the surfaces that the model wore.
func (w *weighed) solve(configuration string) error {
	p := w.program
	levels := p.Configurations()[0]
	if configuration != "" {
		var m mistakes
		levels = levelsFlag(p, configuration, &m)
		if err := m.err(); err != nil {
			return err
		}
	}
	airframe, _, err := p.Airframe(levels)
	if err != nil {
		return usageError{err}
	}
	air, err := atmosphere.Standard(p.Model.TestAltitude)
	if err != nil {
		return usageError{fmt.Errorf("program.toml: test_altitude_m: %w", err)}
	}
	session := w.sheet.Session
	session.Air = &weighing.Air{Airframe: airframe, Ratio: p.Model.LengthRatio, Density: air.Density}
	if w.result, err = weighing.Solve(session); err != nil {
		return err
	}
	w.targets.Reference, w.targets.Ratio = airframe.Reference, p.Model.LengthRatio
	if sheet, err := study.Scale(p); err != nil {
		w.targets.NoTargets = err.Error()
	} else {
		w.targets.Targets, w.targets.Places = sheet.Rows, sheet.CG
	}
	w.row = w.weighing()
	w.doubts = p.DoubtWeighing(w.row)
	return nil
}

// weighing is the result as a row of the table; the CG is at full size there.
func (w *weighed) weighing() program.Weighing {
	ratio := w.program.Model.LengthRatio
	row := program.Weighing{Date: w.sheet.Date, CGX: math.NaN()}
	for _, n := range w.result.Numbers {
		switch n.Quantity {
		case weighing.Mass:
			row.Mass, row.MassSD = n.Value, n.SD
		case weighing.CGX:
			row.CGX, row.CGXSD = n.Value/ratio, n.SD/ratio
		case weighing.CGZ:
			row.CGZ, row.CGZSD, row.CGZKnown = n.Value/ratio, n.SD/ratio, true
		case weighing.Ix:
			row.Ix, row.IxSD = n.Value, n.SD
		case weighing.Iy:
			row.Iy, row.IySD = n.Value, n.SD
		case weighing.Iz:
			row.Iz, row.IzSD = n.Value, n.SD
		case weighing.Ixz:
			row.Ixz, row.IxzSD = n.Value, n.SD
		}
	}
	return row
}

// record adds the row to the table of weighings.
func (w *weighed) record(name string) error {
	if len(w.result.Warnings) > 0 {
		return usagef("weigh: the readings contradict one another, so nothing was written: %s", w.result.Warnings[0])
	}
	w.row.Name = name
	written, err := program.AddWeighing(w.program.Dir, w.row, "worked out by weigh")
	var refused *program.Refused
	if errors.As(err, &refused) {
		return usagef("weigh: %w", err)
	}
	w.written = written
	return err
}

func (w *weighed) content() report.Weigh {
	c := w.targets
	c.Result, c.Assumed = w.result, w.sheet.Assumed
	c.Missing = append(append([]string(nil), w.sheet.Missing...), w.result.Missing...)
	c.Warnings = append(append([]string(nil), w.result.Warnings...), w.doubts...)
	return c
}
