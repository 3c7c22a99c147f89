package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
)

// lookSource is what a log is read with.
type lookSource struct {
	logger  flightlog.Map
	guesses []flightlog.Guess // nil when the map is not a draft
	program *program.Program  // nil without a folder
	flight  *program.Flight   // of the folder; nil when the log is none of its flights
	foundAt string            // the folder, when it was found from the log and not from the current folder
}

// check refuses what can be refused before anything is read.
func (o lookOptions) check(path string) error {
	if strings.TrimSpace(path) == "" {
		return usagef("look: the log has no name; write the path of one, such as logs/F01.csv")
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return usagef("look: there is no log %s; write the path of one, such as logs/F01.csv", path)
	case err != nil:
		return usagef("look: the log %s cannot be opened: %v", path, reason(err))
	case info.IsDir():
		return usagef("look: %s is a folder, not a log; name a file inside it%s", path, firstLogIn(path))
	}
	switch ending := strings.ToLower(filepath.Ext(o.figure)); {
	case o.figure != "" && ending != ".svg" && ending != ".png":
		return usagef("--figure: %s ends in neither .svg nor .png; write a name such as monday.png", o.figure)
	case o.suggest && (o.flight != "" || o.figure != ""):
		return usagef("--suggest drafts a logger map and nothing else; leave --flight and --figure out")
	}
	return o.checkFigureFolder()
}

// checkFigureFolder refuses a figure that has no folder to go to.
func (o lookOptions) checkFigureFolder() error {
	if o.figure == "" {
		return nil
	}
	if dir := filepath.Dir(o.figure); !isDirectory(dir) {
		return usagef("--figure: there is no folder %s; make it first, or name a file in a folder that is there", dir)
	}
	if isDirectory(o.figure) {
		return usagef("--figure: %s is a folder; name a file, such as %s", o.figure, filepath.Join(o.figure, "monday.png"))
	}
	return nil
}

func isDirectory(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// reason is what the system says of a file, without its path.
func reason(err error) error {
	var place *fs.PathError
	if errors.As(err, &place) {
		return place.Err
	}
	return err
}

// firstLogIn names a file of a folder that may be the log that was meant.
func firstLogIn(dir string) string {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if !e.IsDir() && strings.EqualFold(filepath.Ext(e.Name()), ".csv") {
			return ", such as " + filepath.Join(dir, e.Name())
		}
	}
	return ""
}

// source finds program folder, flight and logger map of a log.
func (o lookOptions) source(s streams, path string) (lookSource, error) {
	var from lookSource
	if err := o.findProgram(s, &from, path); err != nil {
		return from, err
	}
	if from.program != nil {
		if err := o.findFlight(&from, path); err != nil {
			return from, err
		}
		if found, err := o.findLogger(&from); err != nil || found {
			return from, err
		}
	}
	return from, from.draft(path)
}

// findProgram reads the program folder: the one named or around the current folder, else that around the log. One that was not asked for may be missing or broken: then the log is read without it.
func (o lookOptions) findProgram(s streams, from *lookSource, path string) error {
	asked := o.dir != "" || o.flight != "" || o.logger != ""
	dir, err := o.folder()
	if err != nil && o.dir == "" {
		if around, none := program.Find(filepath.Dir(path)); none == nil {
			dir, from.foundAt, err = shortest(around), shortest(around), nil
		}
	}
	if err != nil {
		if asked {
			return err
		}
		return nil
	}
	p, err := program.Load(dir)
	switch {
	case err == nil:
		from.program = p
	case asked:
		return err
	default:
		fmt.Fprintf(s.Err, "The program folder %s has mistakes, so the log is read without it; 'wingproof check' names them.\n", dir)
	}
	return nil
}

// shortest is a path from the current folder where that lies inside it, else the whole path.
func shortest(path string) string {
	here, err := os.Getwd()
	if err != nil {
		return path
	}
	if inside, err := filepath.Rel(here, path); err == nil && !strings.HasPrefix(inside, "..") {
		return inside
	}
	return path
}

// findFlight finds the row of flights.csv that --flight names, or that names this log.
func (o lookOptions) findFlight(from *lookSource, path string) error {
	p := from.program
	if o.flight != "" {
		i := slices.IndexFunc(p.Flights, func(f program.Flight) bool { return sameName(f.Name, o.flight) })
		if i < 0 && len(p.Flights) == 0 {
			return usagef("--flight: no flight %q: %s has no flight yet; write a row for it", o.flight, program.FlightsFile)
		}
		if i < 0 {
			return usagef("--flight: no flight %q in %s; it has %s", o.flight, program.FlightsFile, strings.Join(flightNames(p), ", "))
		}
		from.flight = &p.Flights[i]
		return nil
	}
	for i, f := range p.Flights {
		if f.Log != "" && sameFile(path, filepath.Join(p.Dir, filepath.FromSlash(f.Log))) {
			from.flight = &p.Flights[i]
			return nil
		}
	}
	return nil
}

func sameFile(a, b string) bool {
	one, errOne := os.Stat(a)
	other, errOther := os.Stat(b)
	return errOne == nil && errOther == nil && os.SameFile(one, other)
}

// findLogger takes the map that --logger names, else that of the flight, else the folder's only one when the folder was asked for.
func (o lookOptions) findLogger(from *lookSource) (found bool, err error) {
	wanted := o.logger
	if wanted == "" && from.flight != nil {
		wanted = from.flight.Logger
	}
	var names []string
	for _, l := range from.program.Loggers {
		if l.Name == wanted {
			from.logger = l
			return true, nil
		}
		names = append(names, l.Name)
	}
	switch {
	case wanted != "" && len(names) > 0:
		return false, usagef("program.toml has no [logger.%s]; it has %s", wanted, strings.Join(names, ", "))
	case wanted == "" && o.dir == "" && from.flight == nil:
		return false, nil // the folder was not asked for, and the log is none of its flights
	case len(names) == 1:
		from.logger = from.program.Loggers[0]
		return true, nil
	case len(names) == 0:
		return false, usagef("look: program.toml has no [logger.NAME] yet; --suggest drafts one")
	}
	return false, usagef("look: program.toml has several loggers; add --logger with one of %s, or --suggest", strings.Join(names, ", "))
}

// draft guesses the logger map from the log itself.
func (from *lookSource) draft(path string) error {
	sniffed, err := sniff(path)
	if err != nil {
		return err
	}
	from.logger, from.guesses = flightlog.SuggestMap(sniffed)
	from.logger.Name = "my-logger"
	if from.logger.Time.Column == "" {
		return usagef("%s: no column shows that it is time, so the log cannot be read; 'wingproof look %s --suggest' drafts a logger map: write the time column into it, put it into program.toml and give --logger", path, path)
	}
	return nil
}

// unreadable words why a log cannot be read through its map, in one sentence with what to do.
func (from lookSource) unreadable(err error) error {
	mistakes := flightlog.Mistakes(err)
	if len(mistakes) == 0 {
		return usageError{fmt.Errorf("%w", err)}
	}
	text := oneMistake(err).Error()
	if from.guesses == nil && len(mistakes) > 1 {
		text += fmt.Sprintf("; the log seems to be of another logger than %s: give --logger, or let --suggest draft a map", from.logger.Name)
	}
	return usageError{errors.New(text)}
}

// oneMistake is the first mistake of a log and how many more there are: a log of another kind lacks every column of its map.
func oneMistake(err error) error {
	switch mistakes := flightlog.Mistakes(err); len(mistakes) {
	case 0, 1:
		return err
	default:
		return fmt.Errorf("%w (and %d more like it)", mistakes[0], len(mistakes)-1)
	}
}
