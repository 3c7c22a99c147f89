package main

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/flightlog"
)

// printLook writes the sheet for the crew; the verdict stands last.
func printLook(w io.Writer, doc lookDocument) error {
	if err := report.TellDangers(w, doc.Dangers, tableWidth); err != nil {
		return err
	}
	return report.WriteSections(w, []report.Section{doc.headSection(), doc.channelSection(), doc.findingSection(), doc.calibrationSection(),
		doc.manoeuvreSection(), doc.pointSection(), doc.cardSection(), {Lines: []string{doc.Verdict.Sentence}}}, tableWidth)
}

func (doc lookDocument) headSection() report.Section {
	line := fmt.Sprintf("%s: %d rows, %s", doc.Log, doc.Rows, flownWords(doc.FlyingS))
	if doc.Flight != "" {
		line += fmt.Sprintf("; flight %s of %s", doc.Flight, doc.Program)
	}
	s := report.Section{Lines: []string{line}}
	switch {
	case doc.Drafted:
		s.Lines = append(s.Lines, fmt.Sprintf("Read with a logger map guessed from heads and numbers: %s. --suggest shows it line by line.", sureWords(doc.Lines)))
	default:
		s.Lines = append(s.Lines, fmt.Sprintf("Read as logger %s.", doc.Logger))
	}
	if doc.Folder != "" {
		s.Lines = append(s.Lines, fmt.Sprintf("Program folder %s, found from the log's own folder.", doc.Folder))
	}
	if doc.Figure != "" {
		s.Lines = append(s.Lines, "Strip chart: "+doc.Figure)
	}
	return s
}

func flownWords(seconds float64) string {
	if seconds == 0 {
		return "nothing flown"
	}
	return fmt.Sprintf("%.0f s in the air", seconds)
}

func sureWords(lines []lookGuess) string {
	var guesses []flightlog.Guess
	for _, l := range lines {
		guesses = append(guesses, flightlog.Guess{Sure: l.Sure})
	}
	return countWords(guesses)
}

func (doc lookDocument) channelSection() report.Section {
	s := report.Section{Title: "Channels", Heads: []string{"channel", "column", "samples", "time, s", "a second", "gaps", "least to most"}, Most: []int{21, 0, 8, 12, 8, 14, 24}}
	for _, c := range doc.Channels {
		gaps := ""
		if c.Gaps > 0 {
			gaps = fmt.Sprintf("%d, up to %s s", c.Gaps, report.Number(c.Longest, 1))
		}
		unit, least, most := shownUnit(flightlog.Quantity(c.Quantity), c.Least, c.Most)
		s.Rows = append(s.Rows, []string{channelWords(flightlog.Quantity(c.Quantity)), c.Column, fmt.Sprint(c.Samples), report.Number(c.From, 0) + "–" + report.Number(c.To, 0),
			report.Number(c.Hertz, 1), gaps, fmt.Sprintf("%s to %s %s", report.Number(least, 1), report.Number(most, 1), unit)})
	}
	return s
}

// shownUnit turns SI values of a channel into those that a crew reads.
func shownUnit(q flightlog.Quantity, least, most float64) (unit string, low, high float64) {
	const degrees = 180 / math.Pi
	switch d := q.Dimension(); d {
	case "angle":
		return "°", least * degrees, most * degrees
	case "angular rate":
		return "°/s", least * degrees, most * degrees
	case "pressure":
		return "hPa", least / 100, most / 100
	case "temperature":
		return "°C", least - 273.15, most - 273.15
	case "share":
		return "%", 100 * least, 100 * most
	case "length":
		return "m", least, most
	case "acceleration":
		return "m/s²", least, most
	}
	return "m/s", least, most
}

func (doc lookDocument) findingSection() report.Section {
	s := report.Section{Title: "Findings", Heads: []string{"time, s", "", "channel", "what, and what follows"}, Most: []int{12, 8, 20, 0}}
	for _, f := range report.MergeFindings(doc.untimed(), 1, "") {
		s.Rows = append(s.Rows, []string{cmp.Or(f.When, "whole log"), f.Severity, channelOf(f.Channel), f.Words})
	}
	if len(doc.Findings) == 0 {
		s.Lines = []string{"nothing wrong was found"}
	}
	return s
}

// untimed are the findings, without times where they span the log.
func (doc lookDocument) untimed() []flightlog.Finding {
	const close = 0.5 // s: channels begin and end apart by a sample or two of the slowest
	first, last := math.Inf(1), math.Inf(-1)
	for _, c := range doc.Channels {
		first, last = math.Min(first, c.From), math.Max(last, c.To)
	}
	out := slices.Clone(doc.Findings)
	for i, f := range out {
		if last > first && f.Start <= first+close && f.End >= last-close {
			out[i].Start, out[i].End = 0, 0
		}
	}
	return out
}

func channelOf(q flightlog.Quantity) string {
	if q == "" {
		return ""
	}
	return channelWords(q)
}

func (doc lookDocument) calibrationSection() report.Section {
	s := report.Section{Title: "Calibration"}
	if doc.Calibration.Rest == nil {
		s.Lines = append(s.Lines, "the model never stood still for 3 s before the flight: zeros of gyros, airspeed and attitude cannot be checked")
	} else {
		words := doc.Calibration.Rest.words()
		s.Lines = append(s.Lines, words[0]+" "+strings.Join(words[1:], "; "))
	}
	for _, servo := range doc.Calibration.Servos {
		s.Lines = append(s.Lines, channelWords(flightlog.Quantity(servo.Control))+": "+servo.Words)
	}
	switch {
	case doc.Air != nil:
		s.Lines = append(s.Lines, report.AirWords(*doc.Air))
	case doc.byAttitude:
		s.Lines = append(s.Lines, "no path reconstruction: angle of attack is attitude less path angle, so vertical air and the mounting of the inertial unit enter it; ground speed and track by satellite would tell them apart")
	}
	return s
}

func (doc lookDocument) manoeuvreSection() report.Section {
	s := report.Section{Title: "Manoeuvres found, with calibrated airspeed", Heads: []string{"time, s", "manoeuvre", "m/s", "of use", "what was seen"}, Most: []int{12, 20, 5, 6, 0}}
	for _, m := range doc.Manoeuvres {
		use, seen := "yes", m.Detail
		if !m.Usable {
			use, seen = "no", m.Detail+"; "+firstReason(m.Why)
		}
		s.Rows = append(s.Rows, []string{report.Number(m.Start, 0) + "–" + report.Number(m.End, 0), manoeuvreWords(m), report.Number(m.Airspeed, 1), use, strings.TrimPrefix(seen, "; ")})
	}
	return s
}

func (doc lookDocument) pointSection() report.Section {
	if len(doc.Points) == 0 {
		return report.Section{}
	}
	kept := doc.kept()
	return report.Section{Lines: []string{fmt.Sprintf("Test points: %d kept, %d dropped.", kept, len(doc.Points)-kept)}}
}

func (doc lookDocument) cardSection() report.Section {
	s := report.Section{Title: "Planned cards", Heads: []string{"card", "wanted", "this log", "over all flights"}, Most: []int{24, 26, 0, 18}}
	open := 0
	for _, c := range doc.Cards {
		this := "no: " + c.Why
		switch {
		case c.Fulfilled:
			this = "yes, at " + startWords(c.Starts)
		case !c.ForThisFlight:
			this = "not for it: " + c.Why
		}
		over := "still to be flown"
		if len(c.FulfilledBy) > 0 {
			over = "done in " + someOf(c.FulfilledBy, 2)
		} else {
			open++
		}
		s.Rows = append(s.Rows, []string{c.Card, c.Wanted, this, over})
	}
	if len(s.Rows) > 0 {
		s.Title = fmt.Sprintf("Planned cards: %d of %d are still to be flown", open, len(s.Rows))
	}
	return s
}

func startWords(starts []float64) string {
	var words []string
	for _, t := range starts {
		words = append(words, report.Number(t, 0))
	}
	return strings.Join(words, ", ") + " s"
}

// someOf lists the first names and counts the others.
func someOf(names []string, most int) string {
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}
