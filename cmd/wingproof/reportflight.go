package main

import (
	"context"
	"fmt"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// flightPages are the pages of all flights, those that are left out too, in the order of their names.
func flightPages(ctx context.Context, st *study.Study, sheet report.Sheet, live bool) ([]report.FlightPage, error) {
	looked := make([]logPage, len(st.Flights))
	failed := make([]error, len(st.Flights))
	err := study.Each(ctx, len(st.Flights), func(i int) error {
		looked[i], failed[i] = lookAt(ctx, st, st.Flights[i])
		return ctx.Err()
	})
	if err != nil {
		return nil, err
	}
	links := flightLinks(st)
	done := cardsDone(st)
	var pages []report.FlightPage
	for i, f := range st.Flights {
		page := flightPageOf(st, f)
		page.Sheet, page.Live = sheet.Head(), live
		if i > 0 {
			page.Before = &links[i-1]
		}
		if i+1 < len(links) {
			page.After = &links[i+1]
		}
		if failed[i] != nil {
			page.NoLog = failed[i].Error()
		} else {
			fillFromLog(&page, st, f, looked[i], done)
		}
		pages = append(pages, page)
	}
	return pages, nil
}

// flightLinks name the pages of the flights.
func flightLinks(st *study.Study) []report.PageLink {
	var names []string
	for _, f := range st.Flights {
		names = append(names, f.Name)
	}
	var out []report.PageLink
	for i, short := range report.FileNames(names) {
		out = append(out, report.PageLink{Kind: "flight", Title: names[i], Name: "flight-" + short + ".html"})
	}
	return out
}

// flightPageOf is what the folder says of a flight, without its log.
func flightPageOf(st *study.Study, f study.Flight) report.FlightPage {
	page := report.FlightPage{Program: st.Program.Name, Flight: f.Name, Date: f.Date, Used: f.Used, Why: f.Why, Notes: f.Notes, Facts: flightFacts(st, f)}
	if !f.Use {
		page.WhyNot = f.WhyNot
		if page.WhyNot == "" {
			page.WhyNot = "flights.csv says use = no and gives no reason"
		}
	}
	return page
}

func flightFacts(st *study.Study, f study.Flight) []report.Fact {
	ref := st.Configurations[0].Airframe.Reference
	or := func(known bool, words string) string {
		if !known {
			return "not stated"
		}
		return words
	}
	mass := or(f.Mass > 0, fmt.Sprintf("%s kg ± %s kg", report.Number(f.Mass, 3), report.Number(f.MassSD, 3)))
	if f.Weighing != "" {
		mass += ", weighed as " + f.Weighing
	}
	cg := report.CGWords(f.CG, st.Program.Model.LengthRatio, ref.MeanChord, ref.MeanChordLeadingEdge)
	return []report.Fact{
		{Head: "Configuration", Text: plainConfiguration(evidence.Name(f.Levels))},
		{Head: "CG aft of datum", Text: cg},
		{Head: "Mass of the model", Text: mass},
		{Head: "Air at the field", Text: or(f.Pressure > 0, report.Number(f.Pressure/100, 0)+" hPa") + ", " + or(f.Temperature > 0, report.Number(f.Temperature-273.15, 0)+" °C")},
		{Head: "Log", Text: or(f.Log != "", f.Log)},
		{Head: "Logger", Text: or(f.Logger != "", f.Logger)},
	}
}

// fillFromLog adds what the log of a flight showed, and what it was used for.
func fillFromLog(page *report.FlightPage, st *study.Study, f study.Flight, l logPage, done map[string][]string) {
	page.Sentence, page.Again, page.Dangers = l.Verdict.Sentence, l.Verdict.Word == flyAgain, l.Dangers
	page.Facts = append(page.Facts, report.Fact{Head: "Recorded", Text: fmt.Sprintf("%d rows, %s", l.Rows, flownWords(l.FlyingS))})
	if l.Strip != nil {
		page.Strip = &report.StripDrawing{SVG: l.Strip.SVG, Title: l.Strip.Title, Alt: l.Strip.Alt, Log: f.Log}
	}
	page.NoStrip = l.NoStrip
	points, more := l.Points, l.More
	if f.Use && len(f.Reduction.Points) > 0 {
		points, more = report.PointSection(f.Reduction), report.DynamicSections(f.Reduction)
	}
	points.Title = ""
	used := report.UsedForSection(f.Name, slices.Concat(st.Estimates, st.Margins), st.Program.Model.LengthRatio)
	cards := cardsOver(l.Cards, done)
	page.Sections = []report.PageSection{
		{ID: "findings", Title: "What is wrong with the log, and what follows", Tables: untitled(l.Found[:1]), None: "Nothing wrong was found."},
		{ID: "points", Title: "Test points", Lead: pointLead(f, l), Tables: append([]report.Section{points}, more...), None: "No test point: no steady stretch was found."},
		{ID: "used", Title: "What this flight's numbers were used for", Tables: []report.Section{used}, None: "For nothing: no measured number rests on this flight."},
		{ID: "manoeuvres", Title: "Manoeuvres found", Lead: "Speeds are calibrated airspeeds.", Tables: untitled(l.Found[1:]), None: "No manoeuvre was found."},
		{ID: "cards", Title: "Planned cards", Tables: []report.Section{cards}, None: "No card was planned."},
		{ID: "log", Title: "Channels and calibration", Folded: true, Tables: l.Log},
	}
}

// untitled are sections whose title the page says itself.
func untitled(list []report.Section) []report.Section {
	list = slices.Clone(list)
	for i := range list {
		list[i].Title = ""
	}
	return list
}

// pointLead says how many test points were kept, and how their numbers came about.
func pointLead(f study.Flight, l logPage) string {
	kept, all := 0, 0
	for _, p := range f.Reduction.Points {
		if all++; p.Kept {
			kept++
		}
	}
	if !f.Use || all == 0 {
		return "Steady stretches of the log. They count for nothing: the flight is left out."
	}
	words := fmt.Sprintf("%d kept, %d dropped. Model size.", kept, all-kept)
	if !f.Used {
		return words + " They count for nothing: the flight is left out."
	}
	return words
}

// cardsDone names the flights that fulfilled each planned card.
func cardsDone(st *study.Study) map[string][]string {
	out := map[string][]string{}
	for _, c := range st.Program.Cards {
		for _, f := range st.Flights {
			if f.Used && otherFlight(c, f.Flight) == "" {
				if found, _ := flownFor(c, f.Reduction, nil); len(found) >= c.Repeats {
					out[c.Name] = append(out[c.Name], f.Name)
				}
			}
		}
	}
	return out
}

// cardsOver is what a log did for the planned cards, beside what all flights did.
func cardsOver(own []lookCard, done map[string][]string) report.Section {
	own = slices.Clone(own)
	for i, c := range own {
		own[i].FulfilledBy = done[c.Card]
	}
	s := lookDocument{Cards: own}.cardSection()
	s.Title = ""
	return s
}
