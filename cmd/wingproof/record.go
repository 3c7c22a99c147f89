package main

import (
	"errors"
	"fmt"
	"slices"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// recordOf says of each row of the record what became of it and of the evidence that it was decided on.
func recordOf(st *study.Study) ([]report.Decided, error) {
	rows := []report.Decided{}
	var now program.Inputs
	for _, e := range program.Record(st.Program.Decisions) {
		d := report.Decided{Number: e.Number, Event: e.Event, Date: e.Date, Choice: e.Choice, Level: e.Level, Who: e.Who, Why: e.Why, Inputs: e.InputsSHA256,
			Standing: report.Stands, Lapsed: []string{}, FlightsThen: []string{}, LeftOut: []string{}, FlightsSince: []string{}, FilesChanged: []string{}}
		switch {
		case e.VoidedBy != 0:
			d.Standing, d.By = report.Void, e.VoidedBy
		case e.EndedBy != 0:
			d.Standing, d.By = report.Ended, e.EndedBy
		case len(e.Lapsed) > 0:
			d.Standing = report.Partial
			for _, r := range e.Lapsed {
				d.Lapsed = append(d.Lapsed, fmt.Sprintf("%s (row %d)", r.Choice, r.Number))
			}
		}
		if e.InForce && e.Event == "settle" {
			d.State, d.StateWhy = standingOf(st.Verdict.Levels, e.Choice, e.Level)
		}
		if now == nil && e.InputsSHA256 != "" {
			var err error
			if now, err = program.ReadInputs(st.Program.Dir); err != nil {
				return nil, err
			}
		}
		if err := tellEvidence(st, &d, now); err != nil {
			return nil, err
		}
		rows = append(rows, d)
	}
	return rows, nil
}

func standingOf(levels []decide.LevelVerdict, choice, level string) (state, why string) {
	for _, l := range levels {
		if sameName(l.Choice, choice) && sameName(l.Level, level) {
			return l.State, l.Why
		}
	}
	return "", ""
}

// tellEvidence compares the files that a row was decided on with those of today.
func tellEvidence(st *study.Study, d *report.Decided, now program.Inputs) error {
	then := now
	switch {
	case d.Inputs == "":
		d.Evidence = report.NoEvidence
	case d.Inputs == now.Fingerprint():
		d.Evidence = report.SameEvidence
	default:
		d.Evidence = report.ChangedEvidence
		var err error
		then, err = program.RecallInputs(st.Program.Dir, d.Inputs)
		if errors.Is(err, program.ErrEvidenceLost) {
			d.Evidence = report.LostEvidence
		} else if err != nil {
			return err
		}
	}
	if d.Evidence == report.NoEvidence || d.Evidence == report.LostEvidence {
		for _, f := range st.Flights {
			if f.Used && f.Date > d.Date {
				d.FlightsSince = append(d.FlightsSince, f.Name)
			}
		}
		return nil
	}
	tellFlights(st, d, then)
	tellFiles(st, d, now.Since(then))
	return nil
}

// tellFlights sorts the flights by whether their logs lay in the folder.
func tellFlights(st *study.Study, d *report.Decided, then program.Inputs) {
	logs := logsOf(st.Program)
	for _, f := range st.Flights {
		switch had := then.Has(logs[f.Name]); {
		case had && f.Used:
			d.FlightsThen = append(d.FlightsThen, f.Name)
		case had:
			d.LeftOut = append(d.LeftOut, f.Name)
		case f.Used:
			d.FlightsSince = append(d.FlightsSince, f.Name)
		}
	}
}

// tellFiles lists what changed but for the logs of new flights, which are told as flights; a log that changed is told by its flight.
func tellFiles(st *study.Study, d *report.Decided, c program.InputChanges) {
	var logs []string
	for _, f := range st.Program.Flights {
		logs = append(logs, f.Log)
	}
	for _, name := range c.Changed {
		if slices.Contains(logs, name) {
			name = "the log " + name
		}
		d.FilesChanged = append(d.FilesChanged, name)
	}
	for _, name := range c.Added {
		if !slices.Contains(logs, name) {
			d.FilesChanged = append(d.FilesChanged, name+" (new)")
		}
	}
	for _, name := range c.Gone {
		d.FilesChanged = append(d.FilesChanged, name+" (gone)")
	}
	if len(d.FilesChanged)+len(d.FlightsSince) == 0 && !c.None() {
		d.FilesChanged = append(d.FilesChanged, "logs of flights that are left out")
	}
}

func logsOf(p *program.Program) map[string]string {
	logs := map[string]string{}
	for _, f := range p.Flights {
		logs[f.Name] = f.Log
	}
	return logs
}
