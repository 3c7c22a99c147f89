package program

import (
	"fmt"

	"wingproof/flightlog/unit"
)

// flightHeads lists the columns of flights.csv that are not choices, by their stems.
func flightHeads() []string {
	return []string{"flight", "date", "log", "logger", "weighing", "mass", "mass_sd", "cg", "cg_sd", "pressure", "temperature",
		"use", "why_not", "notes"}
}

// flightColumns are the columns of flights.csv.
type flightColumns struct {
	name, date, log, logger, weighing, use, whyNot, notes column
	mass, massSD, cg, cgSD, pressure, temperature         column
	choices                                               []column
	weighs, balances                                      bool // the table has a column for mass, for CG, or for the weighing that holds both
}

func (l *loader) flightColumns(t *table) flightColumns {
	c := flightColumns{
		name: t.text("flight", true), date: t.text("date", true), log: t.text("log", true), logger: t.text("logger", true),
		weighing: t.text("weighing", false), use: t.text("use", true), whyNot: t.text("why_not", false), notes: t.text("notes", false),
		mass:        t.measured(mass("mass").positive()),
		massSD:      t.measured(mass("mass_sd")),
		cg:          t.measured(length("cg").in("mm")),
		cgSD:        t.measured(length("cg_sd").in("mm").atLeast(0)),
		pressure:    t.measured(measure{stem: "pressure", dimension: unit.Pressure, usual: "hpa", low: 30000, high: 110000}),
		temperature: t.measured(measure{stem: "temperature", dimension: unit.Temperature, usual: "c", low: 213, high: 333}),
	}
	weighing := c.weighing.index >= 0 || c.weighing.marred
	c.weighs = weighing || c.mass.index >= 0 || c.mass.marred
	c.balances = weighing || c.cg.index >= 0 || c.cg.marred
	for _, choice := range l.p.Choices {
		found := t.text(folded(choice.Name), len(t.rows) > 0)
		c.choices = append(c.choices, found)
	}
	return c
}

func (l *loader) readFlights(t *table) {
	c := l.flightColumns(t)
	l.flightsKnown = !t.cut && !c.name.marred
	seen := map[string]int{}
	assumed := 0
	if len(t.rows) > 0 && !(c.weighs && c.balances) {
		l.wrong(t.file, t.headSpot, "", "there is no column that tells mass and CG of the flights", "add a column headed weighing, or the columns mass_kg and cg_mm")
	}
	for _, r := range t.rows {
		f := Flight{Row: r.number, Name: t.need(r, c.name, "a name for this flight, such as f01"), Levels: map[string]string{}}
		if first, twice := seen[folded(f.Name)]; twice && f.Name != "" {
			t.wrong(r, c.name, fmt.Sprintf("the flight %s already stands in row %d", quoted(f.Name), first), "give each flight a name of its own")
		}
		seen[folded(f.Name)] = r.number
		f.Date, f.Log = t.date(r, c.date), t.path(r, c.log)
		f.Notes, f.WhyNot = r.cell(c.notes).text, r.cell(c.whyNot).text
		f.Logger = t.named(r, c.logger, l.loggerNames(), "logger")
		for i, choice := range l.p.Choices {
			if level := t.named(r, c.choices[i], choice.levelNames(), "level"); level != "" {
				f.Levels[choice.Name] = level
			}
		}
		f.Use = t.yes(r, c.use)
		f.Pressure, _ = t.number(r, c.pressure)
		f.Temperature, _ = t.number(r, c.temperature)
		if !l.flightWeight(t, r, c, &f) && f.Use {
			assumed++
		}
		l.flightIsWhole(t, r, c, f)
		if f.Log != "" {
			l.inputs[f.Log] = true
		}
		l.p.Flights = append(l.p.Flights, f)
	}
	if assumed > 0 {
		l.warn("flights.csv: %d of %d flights do not state mass_sd or cg_sd; 0.5 %% of the mass and 2 mm at the model are taken (common practice, no source)", assumed, len(l.p.Flights))
	}
}

// flightWeight takes mass and CG from the row, and what the row leaves empty from its weighing. It
// returns false when a standard deviation had to be assumed.
func (l *loader) flightWeight(t *table, r row, c flightColumns, f *Flight) (stated bool) {
	f.Weighing = t.named(r, c.weighing, l.weighingNames(), "weighing")
	var own [4]bool
	f.Mass, own[0] = t.number(r, c.mass)
	f.MassSD, own[1] = t.number(r, c.massSD)
	f.CG, own[2] = t.number(r, c.cg)
	f.CGSD, own[3] = t.number(r, c.cgSD)
	l.toFullSize(&f.CG, &f.CGSD)
	l.checkModelCG(t, r, c.cg, f.CG)
	l.checkModelMass(t, r, c.mass, f.Mass)
	for _, w := range l.p.Weighings {
		if w.Name != f.Weighing || f.Weighing == "" {
			continue
		}
		fill(&f.Mass, &own[0], w.Mass)
		fill(&f.MassSD, &own[1], w.MassSD)
		fill(&f.CG, &own[2], w.CGX)
		fill(&f.CGSD, &own[3], w.CGXSD)
	}
	if f.Use && !own[0] && !c.mass.marred && c.weighs && r.cell(c.mass).text == "" && r.cell(c.weighing).text == "" {
		t.wrong(r, c.mass, "the flight is used and has neither a weighing nor a mass", "write the weighing, or mass_kg")
	}
	if f.Use && !own[2] && !c.cg.marred && c.balances && r.cell(c.cg).text == "" && r.cell(c.weighing).text == "" {
		t.wrong(r, c.cg, "the flight is used and has neither a weighing nor a CG", "write the weighing, or cg_mm in millimetres aft of the model's datum")
	}
	stated = own[1] && own[3]
	cgSD := defaultCGSD
	l.toFullSize(&cgSD)
	fill(&f.MassSD, &own[1], defaultMassSD*f.Mass)
	fill(&f.CGSD, &own[3], cgSD)
	return stated
}

func fill(into *float64, stated *bool, value float64) {
	if !*stated {
		*into, *stated = value, true
	}
}

// flightIsWhole reports what a flight in use lacks, and a flight left out without a reason.
func (l *loader) flightIsWhole(t *table, r row, c flightColumns, f Flight) {
	if !f.Use {
		if r.cell(c.whyNot).text == "" && isNo(r.cell(c.use).text) {
			t.wrong(r, c.whyNot, "the flight is left out and nobody says why", "write the reason into why_not")
		}
		return
	}
	t.need(r, c.date, "the day of the flight, such as 2026-03-14")
	t.need(r, c.log, "the path of the log, such as logs/f01.csv")
	t.need(r, c.logger, "the name behind [logger.NAME] in program.toml")
	for i, choice := range l.p.Choices {
		t.need(r, c.choices[i], "the level flown: "+oneOf(choice.levelNames()))
	}
}

// yes reads a cell that says yes or no.
func (t *table) yes(r row, c column) bool {
	text := t.need(r, c, "yes or no")
	switch folded(text) {
	case "yes", "y", "true", "1":
		return true
	}
	if text != "" && !isNo(text) {
		t.wrong(r, c, quoted(text)+" is neither yes nor no", "write yes or no")
	}
	return false
}

func isNo(text string) bool {
	switch folded(text) {
	case "no", "n", "false", "0":
		return true
	}
	return false
}

func (l *loader) flightNames() []string {
	return namesOf(l.p.Flights, func(x Flight) string { return x.Name })
}
