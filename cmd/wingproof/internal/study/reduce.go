package study

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/reduce"
)

// Flight is one row of flights.csv with what its log gave.
type Flight struct {
	program.Flight
	Reduction reduce.Reduction
	Dynamics  Dynamics
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
	r := reducer{program: s.Program, reference: baseline.Reference, keep: s.keep, memory: newRoom(logsAtOnce)}
	s.Flights = make([]Flight, len(flights))
	err = each(ctx, len(flights), func(i int) (err error) {
		s.Flights[i], err = r.flight(ctx, flights[i])
		count.say("reading logs")
		return err
	})
	s.leaveOutCopies()
	return err
}

// reducer reduces the flights of a program.
type reducer struct {
	program   *program.Program
	reference aero.Reference // of the baseline, full size
	keep      *keep.Store
	memory    room
}

// flight reads and reduces one flight, unless that was done before. The error is only that of the context.
func (r reducer) flight(ctx context.Context, f program.Flight) (Flight, error) {
	out := Flight{Flight: f}
	if !f.Use {
		out.Why = f.WhyNot
		return out, nil
	}
	if f.Log == "" {
		return out.leaveOut("no log is named in flights.csv"), nil
	}
	logger, ok := loggerNamed(r.program.Loggers, f.Logger)
	if !ok {
		return out.leaveOut("program.toml has no [logger." + f.Logger + "]; 'wingproof look LOG --suggest' drafts one"), nil
	}
	in := reductionInputsOf(r.program, r.reference, f, logger)
	gave, err := r.outcome(ctx, in)
	out.Reduction, out.Used, out.Why = gave.Reduction, gave.Why == "", gave.Why
	return out, err
}

// outcome is what the log of a flight gave, and why the flight is left out; empty when it is not.
type outcome struct {
	Reduction reduce.Reduction
	Why       string
}

// compute reads and reduces the log. The error is one of the disk: another time the same log may be read. A log on which the
// program breaks down costs its own flight only, never the board of all others.
func (in reductionInputs) compute(dir string) (out outcome, err error) {
	defer func() {
		if broken := recover(); broken != nil {
			out, err = outcome{}, fmt.Errorf("the reduction of %s broke down, which is a mistake of this program: %v", in.Flight.Log, broken)
			out.Why = err.Error()
		}
	}()
	recording, err := readLog(dir, in.Flight.Log, in.Logger)
	if err != nil {
		why := outcome{Why: firstOf(err)}
		if flightlog.Mistakes(err) != nil {
			err = nil
		}
		return why, err
	}
	return in.reduced(recording), nil
}

// context is what the reduction must know about the model on the day of the flight.
//
// Coefficients use the reference quantities of the baseline for every configuration, as those of the lattice do, so that they
// compare even where a choice changes the wing.
func (in reductionInputs) context() reduce.Context {
	f, scale := in.Flight, in.LengthRatio
	return reduce.Context{
		Flight: f.Name, Mass: f.Mass, WingArea: in.Reference.Area * scale * scale, MeanChord: in.Reference.MeanChord * scale,
		CG:       flightlog.Place{X: f.CG * scale, Z: in.heightOfCG()},
		Pressure: f.Pressure, Temperature: f.Temperature, Marks: in.Marks, BoresightSD: in.Instruments.Alpha, VerticalAirSD: in.Instruments.VerticalAir,
		Aircraft: in.Aircraft,
		Inertia:  stability.Body{Ix: in.Weighing.Ix, Iy: in.Weighing.Iy, Iz: in.Weighing.Iz, Ixz: in.Weighing.Ixz},
	}
}

// heightOfCG is that of the weighing, at model size. Where nobody took it, it is that of the inertial unit: no vertical
// distance between the two is nearer to the truth than one from an arbitrary datum.
func (in reductionInputs) heightOfCG() float64 {
	if unit := in.Logger.Sensors.Inertial; !in.Weighing.CGZKnown && unit != nil {
		return unit.Z
	}
	return in.Weighing.CGZ * in.LengthRatio
}

// reduced turns a recording into test points.
func (in reductionInputs) reduced(recording *flightlog.Recording) outcome {
	reduction, err := reduce.Reduce(recording, in.context())
	if err != nil {
		return outcome{Why: err.Error()}
	}
	if !in.Weighing.CGZKnown && in.Logger.Sensors.Inertial != nil {
		reduction.Findings = append(reduction.Findings, flightlog.Finding{Severity: flightlog.Note, Channel: flightlog.DownAcceleration,
			What:        "nobody weighed how high the CG lies",
			Consequence: "the inertial unit is taken to sit at its height; write cg_z_mm into the weighing of this flight"})
	}
	out := outcome{Reduction: Sound(reduction)}
	for _, finding := range reduction.Findings {
		if finding.Severity == flightlog.Refusal {
			out.Why = finding.What + ": " + finding.Consequence
			return out
		}
	}
	out.Why = strangeLift(out.Reduction.Points)
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
	if info, err = file.Stat(); err == nil && info.Mode().IsRegular() { // a log that grows meanwhile is read as long as it was
		return flightlog.Read(io.NewSectionReader(file, 0, info.Size()), log, logger)
	}
	return flightlog.Read(file, log, logger)
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
