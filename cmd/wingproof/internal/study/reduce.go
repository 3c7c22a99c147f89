package study

import (
	"context"
	"path/filepath"
	"slices"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/reduce"
)

// Flight is one row of flights.csv with what its log gave.
type Flight struct {
	program.Flight
	Reduction reduce.Reduction
	Used      bool   // its points go into the fits
	Why       string // why not, when it is not used
}

// reduce turns every log of the folder into test points. A bad log is a finding, not an error.
func (s *Study) reduce(ctx context.Context, count *counter) error {
	flights := slices.Clone(s.Program.Flights)
	slices.SortStableFunc(flights, func(a, b program.Flight) int {
		switch {
		case a.Name < b.Name:
			return -1
		case a.Name > b.Name:
			return 1
		}
		return 0
	})
	baseline, _, err := s.Program.Airframe(s.Program.Configurations()[0])
	if err != nil {
		return err
	}
	s.Flights = make([]Flight, len(flights))
	return each(ctx, len(flights), func(_ context.Context, i int) error {
		s.Flights[i] = reduceOne(s.Program, baseline.Reference, flights[i])
		count.say("reading logs")
		return nil
	})
}

// reduceOne reads and reduces one flight. Coefficients use the reference quantities of the baseline, which
// belong to the wing that stays.
func reduceOne(p *program.Program, ref aero.Reference, f program.Flight) Flight {
	out := Flight{Flight: f, Used: f.Use}
	if !f.Use {
		out.Why = f.WhyNot
		return out
	}
	if f.Log == "" {
		return out.leaveOut("no log is named in flights.csv")
	}
	logger, ok := loggerNamed(p.Loggers, f.Logger)
	if !ok {
		return out.leaveOut("program.toml has no [logger." + f.Logger + "]; 'wingproof look " + f.Log + "' drafts one")
	}
	recording, err := flightlog.ReadFile(filepath.Join(p.Dir, filepath.FromSlash(f.Log)), logger)
	if err != nil {
		return out.leaveOut(err.Error())
	}
	scale := p.Model.LengthRatio
	reduction, err := reduce.Reduce(recording, reduce.Context{
		Flight: f.Name, Mass: f.Mass, WingArea: ref.Area * scale * scale, MeanChord: ref.MeanChord * scale,
		Pressure: f.Pressure, Temperature: f.Temperature, Marks: marksOf(p, f.Name),
	})
	if err != nil {
		return out.leaveOut(err.Error())
	}
	out.Reduction = reduction
	for _, finding := range reduction.Findings {
		if finding.Severity == flightlog.Refusal {
			return out.leaveOut(finding.What + ": " + finding.Consequence)
		}
	}
	return out
}

func (f Flight) leaveOut(why string) Flight {
	f.Used, f.Why = false, why
	return f
}

func loggerNamed(loggers []flightlog.Map, name string) (flightlog.Map, bool) {
	for _, l := range loggers {
		if l.Name == name {
			return l, true
		}
	}
	return flightlog.Map{}, false
}

// flightsOf lists the used flights of one configuration, in the order of their names.
func (s *Study) flightsOf(levels map[string]string) []Flight {
	name := evidence.Name(levels)
	var out []Flight
	for _, f := range s.Flights {
		if f.Used && evidence.Name(f.Levels) == name {
			out = append(out, f)
		}
	}
	return out
}

// marksOf lists the hand marks of one flight, in the order of the table.
func marksOf(p *program.Program, flight string) []reduce.Mark {
	var out []reduce.Mark
	for _, m := range p.Marks {
		if m.Flight == flight {
			out = append(out, reduce.Mark{Start: m.Start, End: m.End, Kind: m.Manoeuvre})
		}
	}
	return out
}
