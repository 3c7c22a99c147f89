package study

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

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
	slices.SortStableFunc(flights, func(a, b program.Flight) int { return inOrder(a.Name, b.Name) })
	baseline, _, err := s.Program.Airframe(s.Program.Configurations()[0])
	if err != nil {
		return err
	}
	s.Flights = make([]Flight, len(flights))
	return each(ctx, len(flights), func(i int) error {
		s.Flights[i] = reduceOne(s.Program, baseline.Reference, flights[i])
		count.say("reading logs")
		return nil
	})
}

// reduceOne reads and reduces one flight. Coefficients use the reference quantities of the baseline for every
// configuration, as those of the lattice do, so that they compare even where a choice changes the wing.
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
		return out.leaveOut("program.toml has no [logger." + f.Logger + "]; 'wingproof look LOG --suggest' drafts one")
	}
	recording, err := readLog(p.Dir, f.Log, logger)
	if err != nil {
		return out.leaveOut(firstOf(err))
	}
	scale := p.Model.LengthRatio
	reduction, err := reduce.Reduce(recording, reduce.Context{
		Flight: f.Name, Mass: f.Mass, WingArea: ref.Area * scale * scale, MeanChord: ref.MeanChord * scale,
		Pressure: f.Pressure, Temperature: f.Temperature, Marks: marksOf(p, f.Name),
	})
	if err != nil {
		return out.leaveOut(err.Error())
	}
	out.Reduction = sound(reduction)
	for _, finding := range reduction.Findings {
		if finding.Severity == flightlog.Refusal {
			return out.leaveOut(finding.What + ": " + finding.Consequence)
		}
	}
	if why := strangeLift(out.Reduction.Points); why != "" {
		return out.leaveOut(why)
	}
	return out
}

// readLog reads a log of the folder. Messages name it as flights.csv does, wherever the folder lies.
func readLog(dir, log string, logger flightlog.Map) (*flightlog.Recording, error) {
	path := filepath.Join(dir, filepath.FromSlash(log))
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("the log %s is not there", log)
	}
	if err == nil && info.IsDir() {
		return nil, fmt.Errorf("%s is a folder, not a log", log)
	}
	file, err := os.Open(path)
	if err != nil {
		var place *fs.PathError
		if errors.As(err, &place) {
			err = place.Err
		}
		return nil, fmt.Errorf("the log %s cannot be read: %w", log, err)
	}
	defer file.Close()
	return flightlog.Read(file, log, logger)
}

// sound takes points out that hold a number which is none, as impossible temperatures or pressures make them.
func sound(r reduce.Reduction) reduce.Reduction {
	points := []reduce.TestPoint{}
	for _, p := range r.Points {
		if finite(p.Start, p.End, p.Airspeed, p.DynamicPressure, p.Density, p.Reynolds, p.LoadFactor, p.Bank, p.PathAngle, p.Alpha, p.AlphaSD,
			p.Elevator, p.ElevatorSD, p.Lift, p.LiftSD, p.Drag, p.DragSD) {
			points = append(points, p)
			continue
		}
		r.Findings = append(r.Findings, flightlog.Finding{Severity: flightlog.Loss, Start: p.Start, End: p.End,
			What: "the samples of this stretch give no finite numbers", Consequence: "no test point from it; look at pressure and temperature of the log"})
	}
	r.Points = points
	return r
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

// firstOf is the first mistake of an unreadable log and how many more there are: a log of another kind lacks every
// column of its map, and the board has room for one sentence.
func firstOf(err error) string {
	mistakes := flightlog.Mistakes(err)
	switch n := len(mistakes); {
	case n < 2:
		return strings.Join(strings.Fields(err.Error()), " ")
	case n == 2:
		return mistakes[0].Error() + " (and 1 more like it)"
	default:
		return fmt.Sprintf("%s (and %d more like it)", mistakes[0].Error(), n-1)
	}
}
