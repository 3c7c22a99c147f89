package program

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"sort"
	"strings"

	"wingproof/aero"
)

// formatNumber is the newest number behind format that this program reads.
const formatNumber = 1

// Load reads and checks the program folder dir. Every mistake in program.toml, in the tables and in the
// geometry files comes back at once, as Mistakes. A missing table or log file is not a mistake: what wants
// it is listed in Missing, or left out later with a finding. Nothing is written.
func Load(dir string) (*Program, error) {
	return load(os.DirFS(dir), dir)
}

// loader carries what reading collects.
type loader struct {
	files    fs.FS
	p        *Program
	mistakes Mistakes
	broken   bool // the syntax of program.toml is: keys may seem absent that are not
	inputs   map[string]bool

	flightsKnown bool // every row of flights.csv could be read
	voiding      int  // number of a decision that is about to be made void; 0: none

	weighings string                  // file name of the weighings
	aerofoils map[string]AerofoilData // by name
	stations  map[string]stationPlace // by surface
	levelAt   map[[2]string]spot      // by choice and level
	builtAt   map[string]spot         // by part
	limitAt   map[string]spot         // by limit
}

func load(files fs.FS, dir string) (*Program, error) {
	return newLoader(files, dir).loaded()
}

// loaded reads the folder and hands out the program, or its mistakes.
func (l *loader) loaded() (*Program, error) {
	if err := l.readFolder(); err != nil {
		return nil, err
	}
	if len(l.mistakes) > 0 {
		return nil, l.mistakes.sorted()
	}
	return l.p, nil
}

// read reads everything; mistakes are in the loader, an error is a file that cannot be read at all.
func read(files fs.FS, dir string) (*loader, error) {
	l := newLoader(files, dir)
	return l, l.readFolder()
}

func (l *loader) readFolder() error {
	raw, err := fs.ReadFile(l.files, ProgramFile)
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no %s in %s; begin a program folder with: wingproof new DIR", ProgramFile, l.p.Dir)
	}
	if err != nil {
		return fmt.Errorf("read %s: %w", ProgramFile, err)
	}
	l.inputs[ProgramFile] = true
	text, _ := decode(raw)
	root, ok := parseTOML(text, func(at spot, what, right string) { l.wrong(ProgramFile, at, "", what, right) })
	l.broken = !ok
	if !l.readProgram(root) {
		return nil
	}
	if !l.broken {
		l.readTables()
	}
	if len(l.mistakes) == 0 {
		l.doubt()
		l.missingLogs()
	}
	l.p.Inputs = sortedKeys(l.inputs)
	return nil
}

func newLoader(files fs.FS, dir string) *loader {
	return &loader{
		files: files, p: &Program{Dir: dir, DateOrder: "year_first"}, inputs: map[string]bool{}, weighings: weighingsFile,
		aerofoils: map[string]AerofoilData{}, stations: map[string]stationPlace{}, levelAt: map[[2]string]spot{},
		builtAt: map[string]spot{}, limitAt: map[string]spot{},
	}
}

func (l *loader) wrong(file string, at spot, place, what, right string) {
	line := func(text string) string { return strings.Join(strings.Fields(text), " ") }
	l.mistakes = append(l.mistakes, Mistake{file, max(at.line, 1), max(at.column, 1), place, line(what), line(right)})
}

func (l *loader) warn(format string, parts ...any) {
	l.p.Warnings = append(l.p.Warnings, fmt.Sprintf(format, parts...))
}

// readProgram reads program.toml. It returns false when the format is newer than this program.
func (l *loader) readProgram(root *value) bool {
	top := l.scope(root, ProgramFile)
	if !l.readFormat(top) {
		return false
	}
	l.readTop(top)
	l.readModel(top.group("model", "[model]", true))
	l.readFullSize(top.group("full_size", "[full_size]", true))
	l.readFuselage(top.group("fuselage", "[fuselage]", false))
	l.readGear(top.group("gear", "[gear]", false))
	l.readReference(top.group("reference", "[reference]", false))
	l.readAerofoils(top.groups("aerofoil", "[[aerofoil]]", false))
	l.readSurfaces(top)
	l.readChoices(top.groups("choice", "[[choice]]", false))
	l.readLoadings(top.groups("loading", "[[loading]]", false))
	l.readLimits(top.groups("limit", "[[limit]]", false))
	l.readBuilt(top.named("built"))
	l.readServos(top.named("servo"))
	l.readTheoryErrors(top.named("theory_error"))
	l.readLoggers(top.named("logger"))
	top.done()
	l.warnOfPlaceHolders()
	if len(l.mistakes) == 0 {
		l.checkGeometry()
	}
	return true
}

func (l *loader) readFormat(top *scope) bool {
	format := top.whole("format", 1, 1<<31, true, formatNumber)
	if format > formatNumber {
		at := top.v.get("format").value.at
		l.wrong(ProgramFile, at, "", fmt.Sprintf("this folder is in format %d, and this wingproof reads formats up to %d", format, formatNumber),
			"read it with a newer wingproof; nothing else was looked at")
		return false
	}
	return true
}

func (l *loader) readTop(top *scope) {
	l.p.Name, _ = top.text("name", true)
	l.p.CautionsRead, _ = top.text("cautions_read", false)
	if l.p.CautionsRead == "" {
		l.warn(`program.toml: nobody has signed that the cautions are read; write cautions_read = "initials, date" before you fly`)
	}
	l.p.Seed = uint64(top.whole("seed", 0, 1<<62, false, 1))
	l.p.DateOrder = top.word("date_order", []string{"year_first", "day_first", "month_first"}, "year_first")
}

// tableUse is a table and what wants it.
type tableUse struct {
	file, wants string // wants is empty for a table that nobody misses
	read        func(*table)
}

func (l *loader) readTables() {
	for _, use := range []tableUse{
		{l.weighings, "wanted by flights that name a weighing instead of a mass and a CG", l.readWeighings},
		{FlightsFile, "wanted by reduce, fit, margin, compare, next and the flight part of the board", l.readFlights},
		{MarksFile, "only wanted to mark steady stretches by hand", l.readMarks},
		{CardsFile, "written by plan --write; only wanted by look and rehearse, to say which planned cards a log fulfilled", l.readCards},
		{PartsFile, "wanted by parts, next, report and serve", l.readParts},
		{DecisionsFile, "begun by the first settle", l.readDecisions},
		{SheetsFile, "", l.readSheets},
	} {
		raw, err := fs.ReadFile(l.files, use.file)
		if use.file != DecisionsFile && use.file != SheetsFile {
			l.inputs[use.file] = true
		}
		switch {
		case errors.Is(err, fs.ErrNotExist) && use.wants == "":
		case errors.Is(err, fs.ErrNotExist):
			l.p.Missing = append(l.p.Missing, fmt.Sprintf("%s is not there; it is %s", use.file, use.wants))
		case err != nil:
			l.wrong(use.file, spot{1, 1}, "", "the file cannot be read: "+err.Error(), "close it elsewhere, or let everybody read it")
		default:
			if t := l.readTable(use.file, raw); t != nil {
				use.read(t)
				t.done()
			}
		}
	}
	l.checkBuiltParts()
}

// open reads a file that program.toml points to; a file that is not there is a mistake at the key.
func (l *loader) open(s *scope, at spot, text string) (path string, raw []byte, ok bool) {
	path, right := cleanPath(text)
	if right != "" {
		s.wrong(at, "the path "+quoted(text)+" leads out of the program folder", right)
		return "", nil, false
	}
	raw, err := fs.ReadFile(l.files, path)
	if err != nil {
		what := "cannot be read: " + err.Error()
		if errors.Is(err, fs.ErrNotExist) {
			what = "is not there"
		}
		s.wrong(at, "the file "+quoted(path)+" "+what, "put the file there, or correct the path")
		return "", nil, false
	}
	l.inputs[path] = true
	return path, raw, true
}

func (l *loader) choice(name string) *Choice {
	for i := range l.p.Choices {
		if l.p.Choices[i].Name == name {
			return &l.p.Choices[i]
		}
	}
	return nil
}

func (l *loader) choiceNames() []string {
	return namesOf(l.p.Choices, func(x Choice) string { return x.Name })
}

func (l *loader) surfaceNames() []string {
	return namesOf(l.p.Surfaces, func(x aero.Surface) string { return x.Name })
}

func (c Choice) levelNames() []string {
	return namesOf(c.Levels, func(x Level) string { return x.Name })
}

// checkGeometry reports geometry that no computation can use, at the row of the station table.
func (l *loader) checkGeometry() {
	err := aero.CheckSurfaces(l.p.Surfaces)
	l.geometryMistakes(err, "")
	if err != nil {
		return
	}
	base, warnings, err := l.p.Airframe(l.p.baseline())
	l.geometryMistakes(err, "")
	if err != nil {
		return
	}
	l.p.Warnings = append(l.p.Warnings, warnings...)
	l.checkCombinations(base)
	sort.Strings(l.p.Warnings)
}

func (l *loader) geometryMistakes(err error, where string) {
	if err == nil {
		return
	}
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		for _, one := range many.Unwrap() {
			l.geometryMistakes(one, where)
		}
		return
	}
	var g *aero.GeometryError
	if !errors.As(err, &g) {
		l.wrong(ProgramFile, spot{1, 1}, "", where+err.Error(), "")
		return
	}
	file, at := l.place(g.Surface, g.Station)
	l.wrong(file, at, "", where+fmt.Sprintf("surface %s: %s", quoted(g.Surface), g.What), g.Right)
}
