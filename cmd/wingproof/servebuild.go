package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"wingproof/cmd/wingproof/internal/live"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// builder makes the report of the folder as it is whenever it is called.
func (o serveOptions) builder(dir string) live.Build {
	return func(ctx context.Context, progress func(done, total int, what string)) (live.Report, error) {
		p, err := readServed(dir)
		if err != nil {
			return live.Report{}, err
		}
		all := 0
		steps := func(done, total int, what string) {
			all = max(all, total+1)
			progress(done, total+1, what)
		}
		st, err := study.Run(ctx, p, study.Options{Until: study.Judged, Date: o.date, Progress: steps, Keep: keptIn(p)})
		if err != nil {
			return live.Report{}, err
		}
		progress(max(all-1, 0), all, "drawing the pages")
		head, err := boardHeadOf(st)
		if err != nil {
			return live.Report{}, err
		}
		next, toCome := forecastKept(st)
		m, err := makePages(ctx, st, head, next, true)
		if err != nil {
			return live.Report{}, err
		}
		made := live.Report{Files: withIssued(m.files, p), Alarms: st.Verdict.Alarms}
		if toCome {
			made.Whole = m.whole
		}
		return made, nil
	}
}

// whole is the report with its forecast, which takes longer than all the rest of an edited folder.
func (m *maker) whole(ctx context.Context) (live.Report, error) {
	next, err := forecastNext(ctx, m.study, nil)
	if err != nil {
		return live.Report{}, err
	}
	files, err := m.foretold(next)
	return live.Report{Files: withIssued(files, m.study.Program), Alarms: m.study.Verdict.Alarms}, err
}

// readServed loads the folder, and says in words when it went.
func readServed(dir string) (*program.Program, error) {
	if _, err := os.Stat(filepath.Join(dir, program.ProgramFile)); errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("the program folder %s is gone; put it back where it was", filepath.Base(dir))
		}
		return nil, fmt.Errorf("there is no %s in the folder %s any more; put it back", program.ProgramFile, filepath.Base(dir))
	}
	return program.Load(dir)
}

// withIssued adds the sheets that were issued, as they were kept: those of the record, by number, and no other file of the folder.
func withIssued(files []report.File, p *program.Program) []report.File {
	for _, sheet := range p.Sheets {
		for _, name := range []string{fmt.Sprintf("sheet-%d.html", sheet.Number), fmt.Sprintf("sheet-%d-evidence.html", sheet.Number)} {
			if slices.ContainsFunc(files, func(f report.File) bool { return f.Name == name }) {
				continue
			}
			if body, err := os.ReadFile(filepath.Join(p.Dir, "report", name)); err == nil { // else the record tells of it all the same
				files = append(files, report.File{Name: name, Body: body})
			}
		}
	}
	return files
}
