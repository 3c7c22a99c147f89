package main

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reduce"
	"wingproof/flightlog/statistic"
)

// lookCard is one planned card, what this log did for it, and which flights have fulfilled it so far.
type lookCard struct {
	Card          string    `json:"card"`
	Wanted        string    `json:"wanted"`
	Flight        string    `json:"flight"`          // that the card is for; empty: any
	ForThisFlight bool      `json:"for_this_flight"` // flight and levels fit
	Fulfilled     bool      `json:"fulfilled"`       // by this log
	Repeats       int       `json:"repeats"`
	Starts        []float64 `json:"at_s"` // where this log holds it, usable
	Why           string    `json:"why"`
	FulfilledBy   []string  `json:"fulfilled_by"` // flights, this one included
}

// bankTolerance is how far a mean bank may be off a card's: common practice, no source.
const bankTolerance = 5 * math.Pi / 180

// cards compares the plan with this log, and with all flights of the folder.
func (l *look) cards(ctx context.Context, s streams) ([]lookCard, error) {
	out := []lookCard{}
	if len(l.program.Cards) == 0 {
		return out, nil
	}
	others := *l.program
	others.Flights = slices.DeleteFunc(slices.Clone(others.Flights), func(f program.Flight) bool { return f.Name == l.flight.Name || !f.Use })
	st, err := study.Run(ctx, &others, study.Options{Until: study.Reduced, Progress: s.progress(false), Keep: keptIn(l.program)})
	if err != nil {
		return nil, err
	}
	for _, c := range l.program.Cards {
		row := l.card(c)
		for _, f := range st.Flights {
			if f.Used && otherFlight(c, f.Flight) == "" {
				if found, _ := flownFor(c, f.Reduction, nil); len(found) >= c.Repeats {
					row.FulfilledBy = append(row.FulfilledBy, f.Name)
				}
			}
		}
		slices.Sort(row.FulfilledBy)
		out = append(out, row)
	}
	return out, nil
}

// card is what this log did for a card.
func (l *look) card(c program.Card) lookCard {
	row := lookCard{Card: c.Name, Wanted: wantedWords(c), Flight: c.Flight, Repeats: c.Repeats, Starts: []float64{}, FulfilledBy: []string{}}
	if row.Why = otherFlight(c, *l.flight); row.Why == "" {
		row.ForThisFlight = true
		var found []manoeuvre.Manoeuvre
		found, row.Why = flownFor(c, l.reduction, l.recording)
		for _, m := range found {
			row.Starts = append(row.Starts, m.Start)
		}
		row.Fulfilled = len(found) >= c.Repeats
	}
	if row.Fulfilled {
		row.Why = ""
		row.FulfilledBy = append(row.FulfilledBy, l.flight.Name)
	}
	return row
}

// otherFlight says why a card cannot be fulfilled by a flight at all; empty when it can.
func otherFlight(c program.Card, f program.Flight) string {
	if c.Flight != "" && c.Flight != f.Name {
		return "planned for flight " + c.Flight
	}
	var other []string
	for choice, level := range c.Levels {
		if f.Levels[choice] != level {
			other = append(other, choice+" "+level)
		}
	}
	if len(other) == 0 {
		return ""
	}
	slices.Sort(other)
	return "planned for " + strings.Join(other, ", ")
}

// flownFor lists the usable manoeuvres of a reduction that a card asks for, and what is missing when they are too few.
// rec is the log, where it is at hand.
func flownFor(c program.Card, r reduce.Reduction, rec *flightlog.Recording) (found []manoeuvre.Manoeuvre, why string) {
	var speeds []float64
	spoilt := ""
	for _, m := range usableManoeuvres(r) {
		switch {
		case !asked(c, m.Manoeuvre):
		case c.Bank != nil && math.Abs(m.Bank-*c.Bank) > bankTolerance:
			spoilt = fmt.Sprintf("at %.0f s the bank was %.0f°", m.Start, m.Bank*180/math.Pi)
		case c.Speed > 0 && math.Abs(cardSpeed(m.Manoeuvre, rec)-c.Speed) > c.SpeedTolerance*c.Speed:
			speeds = append(speeds, cardSpeed(m.Manoeuvre, rec))
		case !m.Usable:
			spoilt = fmt.Sprintf("at %.0f s: %s", m.Start, firstClause(m.Why))
		default:
			found = append(found, m.Manoeuvre)
		}
	}
	switch {
	case len(found) > 0:
		why = fmt.Sprintf("%d of %d", len(found), c.Repeats)
	case spoilt != "":
		why = spoilt
	case len(speeds) > 0:
		why = "flown at " + nearestSpeeds(speeds, c.Speed) + " m/s"
	default:
		why = "not in this log"
	}
	return found, why
}

// cardSpeed is the calibrated airspeed of a manoeuvre that a card's speed means, m/s: the mean, and that at the start of a
// deceleration. Without its log that is as far above the mean as the lowest is below it, as in an even deceleration.
func cardSpeed(m manoeuvre.Manoeuvre, rec *flightlog.Recording) float64 {
	if m.Kind != manoeuvre.Deceleration {
		return m.Airspeed
	}
	const around = 0.5 // s: a gust or a noisy sample is no speed
	if rec != nil {
		if x := within(rec.Channels[flightlog.Airspeed], m.Start-around, m.Start+around); len(x) > 0 {
			return statistic.Median(x)
		}
	}
	if m.Lowest > 0 {
		return 2*m.Airspeed - m.Lowest
	}
	return m.Airspeed
}

// nearestSpeeds are the speeds flown that come nearest to the one asked for, three at most, slowest first.
func nearestSpeeds(speeds []float64, wanted float64) string {
	const most = 3
	slices.SortStableFunc(speeds, func(a, b float64) int { return cmp.Compare(math.Abs(a-wanted), math.Abs(b-wanted)) })
	speeds = speeds[:min(most, len(speeds))]
	slices.Sort(speeds)
	var words []string
	for _, v := range speeds {
		words = append(words, fmt.Sprintf("%.1f", v))
	}
	return strings.Join(slices.Compact(words), ", ")
}

// asked tells whether a manoeuvre is of the kind, and on the control, of a card.
func asked(c program.Card, m manoeuvre.Manoeuvre) bool {
	if c.Manoeuvre == "steady" {
		return steadyKind(m.Kind)
	}
	if c.Manoeuvre != string(m.Kind) {
		return false
	}
	switch c.Control {
	case "rudder":
		return m.Control == flightlog.RudderLeft || m.Control == flightlog.RudderRight
	case "":
		return true
	}
	return c.Control == string(m.Control)
}

// wantedWords says what a card asks for.
func wantedWords(c program.Card) string {
	words := c.Manoeuvre
	if c.Control != "" {
		words += " on the " + c.Control
	}
	if c.Speed > 0 {
		words += fmt.Sprintf(", %.1f m/s ± %.0f %%", c.Speed, 100*c.SpeedTolerance)
	}
	if c.Bank != nil {
		words += fmt.Sprintf(", bank %.0f°", *c.Bank*180/math.Pi)
	}
	if c.Repeats > 1 {
		words += fmt.Sprintf(", %d times", c.Repeats)
	}
	return words
}
