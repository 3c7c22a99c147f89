package program

import (
	"fmt"
	"slices"
)

// Card is one row of cards.csv: a manoeuvre that is planned, to be compared with what the logs hold.
type Card struct {
	Name           string
	Flight         string            // empty: any flight
	Manoeuvre      string            // one of Manoeuvres
	Control        string            // elevator, aileron or rudder, for a doublet or a multistep; empty otherwise
	Speed          float64           // calibrated, m/s; 0: any
	SpeedTolerance float64           // relative, of Speed
	Bank           *float64          // rad, positive right wing down; nil: any
	Repeats        int               // how many such manoeuvres one flight must hold
	Levels         map[string]string // by choice; a choice that is not there may have any level
	Notes          string
	Row            int // of the table, for messages
}

// What a card takes when its cell is empty: common practice, no source. A tenth of the speed is a fifth of the lift
// coefficient.
const (
	defaultSpeedTolerance = 0.10
	defaultRepeats        = 1
	mostRepeats           = 100
)

// Manoeuvres lists what a card may ask for.
func Manoeuvres() []string {
	return []string{"level", "climb", "glide", "turn", "circle", "deceleration", "doublet", "multistep", "pull_up", "sideslip", "steady"}
}

// controlsOfCards lists what a doublet or a multistep may move.
func controlsOfCards() []string { return []string{"elevator", "aileron", "rudder"} }

// cardColumns are the columns of cards.csv.
type cardColumns struct {
	name, flight, manoeuvre, control, notes column
	speed, tolerance, bank, repeats         column
	choices                                 []column
}

func (l *loader) cardColumns(t *table) cardColumns {
	const fastest = 150.0 // m/s: no model flies faster, so that a wrong unit shows
	c := cardColumns{
		name: t.text("card", true), flight: t.text("flight", false), manoeuvre: t.text("manoeuvre", true), control: t.text("control", false),
		speed:     t.measured(speed("speed", fastest).positive()),
		tolerance: t.measured(percent("speed_tolerance", 0, 50).positive().or(defaultSpeedTolerance)),
		bank:      t.measured(angle("bank", -85, 85)),
		repeats:   t.measured(number("repeats", 1, mostRepeats).or(defaultRepeats)),
		notes:     t.text("notes", false),
	}
	for _, choice := range l.p.Choices {
		c.choices = append(c.choices, t.text(folded(choice.Name), false))
	}
	return c
}

func (l *loader) readCards(t *table) {
	c := l.cardColumns(t)
	seen := map[string]int{}
	for _, r := range t.rows {
		card := Card{Row: r.number, Name: t.need(r, c.name, "a name for this card, such as slow glide"), Notes: r.cell(c.notes).text, Levels: map[string]string{}}
		if first, twice := seen[folded(card.Name)]; twice && card.Name != "" {
			t.wrong(r, c.name, fmt.Sprintf("the card %s already stands in row %d", quoted(card.Name), first), "give each card a name of its own")
		}
		seen[folded(card.Name)] = r.number
		t.need(r, c.manoeuvre, oneOf(Manoeuvres()))
		card.Manoeuvre = t.named(r, c.manoeuvre, Manoeuvres(), "manoeuvre")
		card.Control = t.cardControl(r, c, card.Manoeuvre)
		card.Speed, _ = t.number(r, c.speed)
		card.SpeedTolerance, _ = t.number(r, c.tolerance)
		if bank, stated := t.number(r, c.bank); stated {
			card.Bank = &bank
		}
		card.Repeats = t.wholeRepeats(r, c.repeats)
		for i, choice := range l.p.Choices {
			if level := t.named(r, c.choices[i], choice.levelNames(), "level"); level != "" {
				card.Levels[choice.Name] = level
			}
		}
		card.Flight = l.cardFlight(t, r, c, card)
		l.p.Cards = append(l.p.Cards, card)
	}
	l.warnOfFlightsToCome()
}

// warnOfFlightsToCome tells in one line which flights of cards are not in flights.csv: a plan has dozens of cards.
func (l *loader) warnOfFlightsToCome() {
	var names []string
	var first Card
	n := 0
	for _, c := range l.p.Cards {
		if _, ok := known(c.Flight, l.flightNames()); ok || c.Flight == "" || !l.flightsKnown {
			continue
		}
		if n++; n == 1 {
			first = c
		}
		if _, told := known(c.Flight, names); !told {
			names = append(names, c.Flight)
		}
	}
	switch {
	case n == 1:
		l.warn("%s: card %s is for flight %s, which %s does not name (yet)", CardsFile, quoted(first.Name), quoted(first.Flight), FlightsFile)
	case n > 1:
		l.warn("%s: %d cards are for %s, which %s does not name (yet)", CardsFile, n, flightsWords(names), FlightsFile)
	}
}

// flightsWords names one flight, or several.
func flightsWords(names []string) string {
	if len(names) == 1 {
		return "flight " + quoted(names[0])
	}
	return "flights " + listed(names)
}

// cardControl reads the control of a card: doublets and multisteps need one, the others have none.
func (t *table) cardControl(r row, c cardColumns, manoeuvre string) string {
	needs := manoeuvre == "doublet" || manoeuvre == "multistep"
	text := r.cell(c.control).text
	switch {
	case needs && c.control.index < 0 && !c.control.marred:
		t.wrong(r, c.manoeuvre, "a "+manoeuvre+" does not say which control it moves", "add a column headed control with "+oneOf(controlsOfCards()))
	case needs && text == "":
		t.wrong(r, c.control, "a "+manoeuvre+" does not say which control it moves", "write "+oneOf(controlsOfCards()))
	case !needs && text != "" && slices.Contains(Manoeuvres(), manoeuvre):
		t.wrong(r, c.control, quoted(text)+" has no place here: only a doublet or a multistep is flown with one control", "empty the cell")
	case needs:
		return t.named(r, c.control, controlsOfCards(), "control")
	}
	return ""
}

func (t *table) wholeRepeats(r row, c column) int {
	n, stated := t.number(r, c)
	if stated && n != float64(int(n)) {
		t.wrong(r, c, fmt.Sprintf("repeats = %s is not a whole number", short(n)), "write how many such manoeuvres the flight must hold, such as 2")
	}
	return int(n)
}

// cardFlight reads the flight of a card. A flight that is not yet in flights.csv is a doubt and no mistake (warnOfFlightsToCome),
// because cards are written before the flight; one that flew other levels can never fulfil the card.
func (l *loader) cardFlight(t *table, r row, c cardColumns, card Card) string {
	text := r.cell(c.flight).text
	if text == "" || !l.flightsKnown {
		return text
	}
	name, ok := known(text, l.flightNames())
	if !ok {
		return text // warned of once the whole table is read
	}
	for _, f := range l.p.Flights {
		if f.Name != name {
			continue
		}
		for i, choice := range l.p.Choices {
			want, flown := card.Levels[choice.Name], f.Levels[choice.Name]
			if want != "" && flown != "" && want != flown {
				t.wrong(r, c.choices[i], fmt.Sprintf("flight %s flew %s %s, not %s", quoted(name), choice.Name, flown, want), "correct the level or the flight, or empty one of the two cells")
			}
		}
	}
	return name
}
