package main

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/forecast"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/rehearse"
)

// rehearsedGroup is the flights of one configuration.
type rehearsedGroup struct {
	levels  map[string]string
	sheets  []rehearsedSheet // flown in turn
	flights []forecast.Planned
}

// rehearsedSheet is the cards of one flight.
type rehearsedSheet struct {
	flight string // that they are planned for; empty: any
	cg     float64
	hasCG  bool // a note says it
	cards  []forecast.Card
}

// groups are the configurations to rehearse, with their flights.
func (a rehearsePlan) groups(st *study.Study) ([]rehearsedGroup, error) {
	groups := a.cardGroups(st)
	if a.sheet != nil {
		levels := a.levels
		if levels == nil {
			levels = a.program.Configurations()[0]
		}
		groups = []rehearsedGroup{{levels: levels, sheets: []rehearsedSheet{{cards: a.sheet}}}}
	}
	if len(groups) == 0 {
		return nil, a.nothingLeft()
	}
	var m mistakes
	for i := range groups {
		a.deal(st, &groups[i], &m)
	}
	return groups, m.err()
}

// deal makes the flights of a configuration: its sheets in turn, each at the CG of its notes, else at the CGs asked for or lacking in turn.
func (a rehearsePlan) deal(st *study.Study, g *rehearsedGroup, m *mistakes) {
	noted := a.cgs == nil
	for _, s := range g.sheets {
		noted = noted && s.hasCG
	}
	var cgs []float64
	if !noted {
		if cgs = a.stations(st, g.levels, m); len(cgs) == 0 {
			return
		}
	}
	n := a.flights
	if n == 0 {
		n = max(len(cgs), len(g.sheets))
	}
	for k := range n {
		s := g.sheets[k%len(g.sheets)]
		cg := s.cg
		if a.cgs != nil || !s.hasCG {
			cg = cgs[k%len(cgs)]
		}
		g.flights = append(g.flights, forecast.Planned{Levels: g.levels, CG: cg, Cards: s.cards, Logger: a.logger})
	}
}

// nothingLeft says that the plan has been flown.
func (a rehearsePlan) nothingLeft() error {
	const instead = "say what to fly with --manoeuvres, such as --manoeuvres glide,level,doublet,sideslip"
	if a.levels != nil {
		return usagef("cards.csv: no card is left to fly for %s; %s", evidence.Name(a.levels), instead)
	}
	return usagef("cards.csv: flights fulfilled all of its cards; add what is planned next, or %s", instead)
}

// cardGroups gathers the cards that no flight fulfilled by the levels that they ask for, in the order of the table.
func (a rehearsePlan) cardGroups(st *study.Study) []rehearsedGroup {
	var out []rehearsedGroup
	at := map[string]int{}
	for _, c := range a.program.Cards {
		levels, ok := a.levelsOf(c)
		if !ok || a.fulfilled(st, c) {
			continue
		}
		name := evidence.Name(levels)
		if _, known := at[name]; !known {
			at[name] = len(out)
			out = append(out, rehearsedGroup{levels: levels})
		}
		out[at[name]].add(c, a.program.Model.LengthRatio)
	}
	return out
}

// notedCG is how a note of a card says where the CG of the model lies.
var notedCG = regexp.MustCompile(`\bCG (\d+(?:\.\d+)?) mm\b`)

// add puts a card onto the sheet of the flight that it is for.
func (g *rehearsedGroup) add(c program.Card, ratio float64) {
	at := slices.IndexFunc(g.sheets, func(s rehearsedSheet) bool { return s.flight == c.Flight })
	if at < 0 {
		g.sheets = append(g.sheets, rehearsedSheet{flight: c.Flight})
		at = len(g.sheets) - 1
	}
	s := &g.sheets[at]
	if found := notedCG.FindStringSubmatch(c.Notes); found != nil && !s.hasCG {
		if mm, err := strconv.ParseFloat(found[1], 64); err == nil {
			s.cg, s.hasCG = mm/1000/ratio, true
		}
	}
	for range max(c.Repeats, 1) {
		s.cards = append(s.cards, cardOf(c))
	}
}

// levelsOf are those that a card is flown with; ok is false when it is not for the configuration that was asked for.
func (a rehearsePlan) levelsOf(c program.Card) (levels map[string]string, ok bool) {
	if a.levels == nil {
		levels = maps.Clone(a.program.Configurations()[0])
		maps.Copy(levels, c.Levels)
		return levels, true
	}
	for choice, level := range c.Levels {
		if a.levels[choice] != level {
			return nil, false
		}
	}
	return a.levels, true
}

// fulfilled tells whether a flight that counts did what a card asks for. Where a configuration was asked for, only its own flights do.
func (a rehearsePlan) fulfilled(st *study.Study, c program.Card) bool {
	for _, f := range st.Flights {
		if !f.Used || otherFlight(c, f.Flight) != "" || a.levels != nil && evidence.Name(f.Levels) != evidence.Name(a.levels) {
			continue
		}
		if found, _ := flownFor(c, f.Reduction, nil); len(found) >= c.Repeats {
			return true
		}
	}
	return false
}

// cardOf is a row of cards.csv as the rehearsal takes it.
func cardOf(c program.Card) forecast.Card {
	out := forecast.Card{Kind: rehearse.Kind(c.Manoeuvre), Control: c.Control, Speed: c.Speed}
	if c.Bank != nil {
		out.Bank = *c.Bank
	}
	return out
}

// stations are the CGs to fly a configuration at, full-size m.
func (a rehearsePlan) stations(st *study.Study, levels map[string]string, m *mistakes) []float64 {
	cgs := a.cgs
	if cgs == nil {
		lacking, ok := forecast.LackingCGs(st, levels)
		if !ok {
			m.add("%s: program.toml states no loading that flies, so that nobody knows which CG is lacking; say where with --cg-mm", evidence.Name(levels))
		}
		return lacking
	}
	ratio := a.program.Model.LengthRatio
	for _, c := range st.Configurations {
		if c.Name != evidence.Name(levels) {
			continue
		}
		bound, chord := forecast.AftBound(st, c), c.Airframe.Reference.MeanChord
		for _, cg := range cgs {
			switch {
			case cg > bound:
				m.add("--cg-mm: %s lies too near to the neutral point of %s, or aft of it; write %s or less", modelMM(cg, ratio), c.Name, modelMM(bound, ratio))
			case cg < bound-1.5*chord:
				m.add("--cg-mm: %s lies more than one and a half chords ahead of the neutral point of %s; is it millimetres of the model aft of its datum, such as %s?", modelMM(cg, ratio), c.Name, modelMM(bound-0.1*chord, ratio))
			}
		}
	}
	return cgs
}

// modelMM writes a station on the model.
func modelMM(x, ratio float64) string { return strings.TrimSpace(fmt.Sprintf("%.0f mm", 1000*x*ratio)) }
