package main

import (
	"context"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/demo"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

type demoOptions struct {
	dir  string
	seed uint64
	json bool
}

func newDemoCommand(s streams) *cobra.Command {
	var o demoOptions
	c := &cobra.Command{
		Use:   "demo",
		Short: "make an invented program with flights and run the whole job on it",
		Long: `demo writes a program folder of an invented aircraft, flies its model in simulation (wind, gusts, sensor errors), reads those
logs as any others, and prints the board. What was really true goes to a file beside the folder that no other command reads.`,
		Example: "  wingproof demo\n  wingproof demo --dir ./other --seed 7",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runDemo(c.Context(), s, o) },
	}
	c.Flags().StringVar(&o.dir, "dir", "wingproof-demo", "folder to make; it must be empty or absent")
	c.Flags().Uint64Var(&o.seed, "seed", 2, "seed of the simulated flights and of the truth behind them")
	c.Flags().BoolVar(&o.json, "json", false, "print the board as one JSON document instead of a table")
	return c
}

// maxSeed is the largest seed that program.toml may hold.
const maxSeed = 1 << 62

func runDemo(ctx context.Context, s streams, o demoOptions) error {
	if o.seed > maxSeed {
		return usagef("--seed: %d is too large; write a whole number from 0 to %d", o.seed, uint64(maxSeed))
	}
	dir := filepath.Clean(o.dir)
	truth, err := truthPath(dir)
	if err != nil {
		return err
	}
	if err := demo.Write(ctx, dir, truth, o.seed, s.progress(true)); err != nil {
		return err
	}
	p, err := program.Load(dir)
	if err != nil {
		return err
	}
	st, err := study.Run(ctx, p, study.Options{Until: study.Judged, Progress: s.progress(true), Keep: keptIn(p)})
	if err != nil {
		return err
	}
	head, err := boardHeadOf(st)
	if err != nil {
		return err
	}
	page, err := writeReport(ctx, st, head, s.progress(true))
	if err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, partsDocumentOf(st, head))
	}
	if err := report.BoardTable(s.Out, st.Verdict, tableWidth); err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "\nreport: %s\nprogram folder: %s (change a table there and run 'wingproof parts --program %s')\n", page, dir, dir)
	return nil
}

// truthPath is the file beside the folder, also where the folder is given as "." or "..".
func truthPath(dir string) (string, error) {
	if base := filepath.Base(dir); base != "." && base != ".." {
		return dir + "-truth.json", nil
	}
	whole, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("find the folder %s: %w", dir, err)
	}
	return whole + "-truth.json", nil
}
