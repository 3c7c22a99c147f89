package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// folderOptions are the flags that every command on a program folder shares.
type folderOptions struct {
	dir  string
	date string
	json bool
}

func (o *folderOptions) addFlags(c *cobra.Command) {
	c.Flags().StringVar(&o.dir, "program", "", "program folder (default: this folder or a parent that holds program.toml)")
	c.Flags().BoolVar(&o.json, "json", false, "print one JSON document (SI units, radians)")
}

func (o *folderOptions) addDate(c *cobra.Command) {
	c.Flags().StringVar(&o.date, "date", "", "date of the sheet, such as 2026-05-30 (default: the newest date in the folder)")
}

// folder returns the program folder that the flags name or that encloses the current one.
func (o folderOptions) folder() (string, error) {
	if o.dir != "" {
		return o.dir, isFolder(o.dir)
	}
	here, err := os.Getwd()
	if err != nil {
		return "", fmt.Errorf("find the current folder: %w", err)
	}
	dir, err := program.Find(here)
	if err != nil {
		return "", usageError{err}
	}
	return dir, nil
}

// isFolder refuses a --program that is no program folder.
func isFolder(dir string) error {
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return usagef("--program: there is no folder %s; name the folder that holds %s, or begin one with: wingproof new DIR", dir, program.ProgramFile)
	}
	if _, err := os.Stat(filepath.Join(dir, program.ProgramFile)); errors.Is(err, fs.ErrNotExist) {
		return usagef("--program: there is no %s in %s; name the folder that holds it, or begin one with: wingproof new DIR", program.ProgramFile, dir)
	}
	return nil
}

// checkDate refuses a --date that is none.
func (o folderOptions) checkDate() error {
	if o.date == "" {
		return nil
	}
	if _, err := time.Parse(time.DateOnly, o.date); err != nil {
		return usagef("--date: %q is not a date; write it as 2026-03-14", o.date)
	}
	return nil
}

// load reads the program folder and tells its warnings and alarms on s.Err.
func (o folderOptions) load(s streams) (*program.Program, error) {
	p, err := o.read(s)
	if err != nil {
		return nil, err
	}
	for _, warning := range p.Warnings {
		fmt.Fprintln(s.Err, "warning:", warning)
	}
	return p, nil
}

// read reads the program folder and tells its alarms on s.Err; whoever calls it tells the warnings.
func (o folderOptions) read(s streams) (*program.Program, error) {
	dir, err := o.folder()
	if err != nil {
		return nil, err
	}
	p, err := program.Load(dir)
	if err != nil {
		return nil, err
	}
	for _, alarm := range p.Alarms {
		fmt.Fprintln(s.Err, report.Alarm(s.Err, "ALARM:"), alarm)
	}
	return p, nil
}

// study reads the folder and runs the chain up to the given stage.
func (o folderOptions) study(ctx context.Context, s streams, until study.Stage) (*study.Study, error) {
	if err := o.checkDate(); err != nil {
		return nil, err
	}
	p, err := o.load(s)
	if err != nil {
		return nil, err
	}
	return study.Run(ctx, p, study.Options{Until: until, Date: o.date, Progress: s.progress(false), Keep: keptIn(p)})
}

// keptIn is what earlier runs of this executable computed for a program folder.
func keptIn(p *program.Program) *keep.Store { return keep.Open(p.Dir, keep.Executable()) }

// judgedOn judges the folder and says on what: the inputs as they were before. A row of a table that only grows names them, and is refused
// when one of them changed meanwhile.
func (o folderOptions) judgedOn(ctx context.Context, s streams) (program.Inputs, *study.Study, error) {
	dir, err := o.folder()
	if err != nil {
		return program.Inputs{}, nil, err
	}
	inputs, inputsErr := program.ReadInputs(dir) // a broken folder is better told by the study
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return inputs, nil, err
	}
	return inputs, st, inputsErr
}
