package main

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/forecast"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// rehearseOptions are the flags of rehearse.
type rehearseOptions struct {
	folderOptions
	configuration string
	manoeuvres    string
	cg            string
	logger        string
	flights       int
	times         int
}

func newRehearseCommand(s streams) *cobra.Command {
	var o rehearseOptions
	c := &cobra.Command{
		Use:   "rehearse",
		Short: "fly the planned cards in simulation: how wide will the intervals be?",
		Long: `rehearse flies planned cards in simulation, as the aircraft is believed to be, and puts the simulated logs through the same
reduction, fits and judging as real ones, together with the flights that the folder has. It says how wide each 95 % interval
is now and will be, and how sure each limit of the board will be. Every such number is a forecast; nothing is written.

Alone it takes the rows of cards.csv that no flight fulfilled yet, by the sizes that they ask for, the baseline where a cell is
empty. Cards for one flight are flown together, where a note such as "CG 905 mm" says with the CG there. With --manoeuvres it
needs no cards.csv: it flies the usual cards of those kinds.

One rehearsal is one draw of wind, gusts and sensors: --times 5 shows how much that matters.`,
		Example: `  wingproof rehearse --manoeuvres glide,level --cg-mm 920
  wingproof rehearse --configuration winglet=tall --manoeuvres glide,level,doublet,sideslip --cg-mm 890,955 --flights 2
  wingproof rehearse --program ../sandreed --manoeuvres glide --cg-mm 920 --times 2 --json`,
		Args: noArguments,
		RunE: func(c *cobra.Command, _ []string) error { return runRehearse(c.Context(), s, o) },
	}
	o.addFlags(c)
	o.addDate(c)
	f := c.Flags()
	f.StringVar(&o.configuration, "configuration", "", "`LEVELS` to fly, such as winglet=tall; choices that are not named stand at their baseline")
	f.StringVar(&o.manoeuvres, "manoeuvres", "", "`KINDS` to fly in place of cards.csv, such as glide,level,doublet,sideslip,deceleration")
	f.StringVar(&o.cg, "cg-mm", "", "`CGs` in mm aft of the model's datum, such as 890,955 (default: what the notes of the cards say, else where flights lack one most)")
	f.IntVar(&o.flights, "flights", 0, "`NUMBER` of flights of each configuration, dealt out over the CGs (default: one at each CG)")
	f.StringVar(&o.logger, "logger", "", "`NAME` of the logger of program.toml that they carry (default: the first)")
	f.IntVar(&o.times, "times", 1, "`NUMBER` of rehearsals: medians are given, and the spread")
	return c
}

// Bounds of what a rehearsal computes.
const (
	mostFlights    = 60
	mostRehearsals = 50
)

func runRehearse(ctx context.Context, s streams, o rehearseOptions) error {
	if err := o.checkDate(); err != nil {
		return err
	}
	p, err := o.load(s)
	if err != nil {
		return err
	}
	a, err := o.ask(p)
	if err != nil {
		return err
	}
	st, err := study.Run(ctx, p, study.Options{Until: study.Judged, Date: o.date, Progress: s.progress(false), Keep: keptIn(p)})
	if err != nil {
		return err
	}
	groups, err := a.groups(st)
	if err != nil {
		return err
	}
	var planned []forecast.Planned
	for _, g := range groups {
		planned = append(planned, g.flights...)
	}
	if len(planned) > mostFlights {
		return usagef("rehearse: %d flights are too many for one rehearsal; ask for %d at most, one --configuration at a time", len(planned), mostFlights)
	}
	result, err := forecast.Run(ctx, st, planned, forecast.Options{Seed: p.Seed, Times: o.times, Progress: s.progress(true)})
	if err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, rehearseDocument{Program: p.Name, Date: st.Date, Result: result, LeftOut: flightsLeftOut(st)})
	}
	tellLeftOut(s, st)
	return printForecast(s, st, result)
}

// rehearseDocument is what rehearse --json prints.
type rehearseDocument struct {
	Program string `json:"program"`
	Date    string `json:"date"`
	forecast.Result
	LeftOut []leftOut `json:"left_out"`
}

// rehearsePlan is the command line understood.
type rehearsePlan struct {
	program *program.Program
	levels  map[string]string // nil: whatever cards.csv asks for
	sheet   []forecast.Card   // nil: cards.csv
	cgs     []float64         // full-size m; nil: where one is lacking
	logger  string
	flights int
}

// ask reads the flags; all mistakes at once.
func (o rehearseOptions) ask(p *program.Program) (rehearsePlan, error) {
	var m mistakes
	a := rehearsePlan{program: p, logger: strings.TrimSpace(o.logger), flights: o.flights}
	if o.configuration != "" {
		a.levels = levelsFlag(p, o.configuration, &m)
	}
	if o.manoeuvres != "" {
		a.sheet = sheetFlag(o.manoeuvres, &m)
	}
	a.cgs = cgFlag(p, o.cg, &m)
	a.logger = loggerFlag(p, a.logger, &m)
	if o.flights < 0 || o.flights > mostFlights {
		m.add("--flights: %d is no number of flights; write 1 to %d", o.flights, mostFlights)
	}
	if o.times < 1 || o.times > mostRehearsals {
		m.add("--times: %d is no number of rehearsals; write 1 to %d", o.times, mostRehearsals)
	}
	if len(p.Cards) == 0 && o.manoeuvres == "" {
		m.add("there is no plan: cards.csv holds no card; write one there for each manoeuvre, or say what to fly with --manoeuvres, such as --manoeuvres glide,level,doublet,sideslip")
	}
	return a, m.err()
}

// sheetFlag reads the kinds of manoeuvre.
func sheetFlag(text string, m *mistakes) []forecast.Card {
	var kinds []string
	for word := range strings.SplitSeq(text, ",") {
		word = strings.ToLower(strings.TrimSpace(word))
		found := false
		for _, known := range program.Manoeuvres() {
			found = found || known == word
		}
		if !found {
			m.add("--manoeuvres: %q is no manoeuvre; write %s, with commas between", word, strings.Join(program.Manoeuvres(), ", "))
			continue
		}
		kinds = append(kinds, word)
	}
	cards, err := forecast.Sheet(kinds)
	if err != nil {
		m.add("--manoeuvres: %v", err)
	}
	return cards
}

// cgFlag reads CGs in mm of the model.
func cgFlag(p *program.Program, text string, m *mistakes) []float64 {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	var out []float64
	for word := range strings.SplitSeq(text, ",") {
		mm := m.number("--cg-mm", word, 0, -10000, 100000, "millimetres of the model aft of its datum, such as 890, with commas between several")
		if strings.TrimSpace(word) == "" {
			m.add("--cg-mm: a number is missing; write millimetres of the model aft of its datum, such as 890,955")
			continue
		}
		out = append(out, mm/1000/p.Model.LengthRatio)
	}
	return out
}

// loggerFlag finds a logger, as the program writes it.
func loggerFlag(p *program.Program, name string, m *mistakes) string {
	if name == "" {
		return ""
	}
	var names []string
	for _, l := range p.Loggers {
		if sameName(l.Name, name) {
			return l.Name
		}
		names = append(names, l.Name)
	}
	if len(names) == 0 {
		m.add("--logger: program.toml has no logger; 'wingproof look LOG --suggest' drafts one, or leave the flag away for a usual recorder")
		return ""
	}
	m.add("--logger: no logger %q in program.toml; it has %s", name, strings.Join(names, ", "))
	return ""
}
