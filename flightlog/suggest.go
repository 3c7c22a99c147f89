package flightlog

import (
	"fmt"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// Guess is what SuggestMap makes of one column and how sure it is of that.
type Guess struct {
	Column string   // head
	Is     Quantity // empty for time and for columns that are not understood
	Unit   string
	Sign   float64
	Sure   string // sure, likely, guess or unknown
	Mapped bool   // whether the column stands in the drafted map
	Why    string // what speaks for it, and what to check
	unread bool   // the unit comes from the numbers alone
}

// How sure a guess is.
const (
	sure    = "sure"    // words and unit are written in the head, and the numbers do not speak against it
	likely  = "likely"  // one of them is read from the numbers
	guessed = "guess"   // both are, or a sign is in doubt
	unknown = "unknown" // not in the map
)

// SuggestMap drafts a logger map from the words and units in the heads and from the numbers below them, with
// one Guess a column in the order of the file. The first column that fits a quantity gets it.
//
// It knows general words of flight testing and no logger in particular. The draft is for a person to
// check: signs above all, which show only by moving the model by hand.
func SuggestMap(s Sniffed) (Map, []Guess) {
	m := Map{Name: "draft"}
	guesses := make([]Guess, len(s.Heads))
	timeColumn := s.findTime(guesses)
	if timeColumn >= 0 {
		m.Time = TimeColumn{Column: s.Heads[timeColumn], Unit: guesses[timeColumn].Unit}
	}
	taken := map[Quantity]int{}
	for i, head := range s.Heads {
		if i == timeColumn {
			continue
		}
		guesses[i] = s.guess(i)
		g := &guesses[i]
		if first, twice := taken[g.Is]; twice && g.Is != "" {
			*g = Guess{Column: head, Sure: unknown, Why: fmt.Sprintf("looks like %s, which column %q holds already", g.Is, s.Heads[first])}
		} else if g.Is != "" {
			taken[g.Is] = i
		}
	}
	s.guessUnnamed(guesses, taken, timeColumn)
	shareRateUnit(guesses, taken)
	s.checkSigns(guesses, taken, timeColumn)
	for _, g := range guesses {
		if g.Mapped && g.Is != "" {
			column := Column{Column: g.Column, Is: g.Is, Unit: g.Unit, Sign: g.Sign, Scale: 1}
			if g.Is == Throttle && g.Unit == pulseThrottle {
				column.Unit, column.Calibration = "share", [][2]float64{{1000, 0}, {2000, 1}}
			}
			m.Columns = append(m.Columns, column)
		}
	}
	for i := range guesses {
		if guesses[i].Unit == pulseThrottle {
			guesses[i].Unit = "share"
		}
	}
	return m, guesses
}

// pulseThrottle marks a throttle logged as pulse width until the map is written.
const pulseThrottle = "pulse"

// findTime picks the time column: by its words, else the first column, if its numbers only rise.
func (s Sniffed) findTime(guesses []Guess) int {
	for i, head := range s.Heads {
		words, bracket := headWords(head)
		if isTimeHead(words) {
			if g, ok := s.guessTime(i, bracket); ok {
				guesses[i] = g
				return i
			}
		}
	}
	if len(s.Heads) > 0 {
		if g, ok := s.guessTime(0, ""); ok {
			g.Sure, g.Why = guessed, "the first column, and its numbers only rise; "+g.Why
			guesses[0] = g
			return 0
		}
	}
	return -1
}

// guessTime reads the unit of a time column: from the head, else from the step between rows.
func (s Sniffed) guessTime(i int, bracket string) (Guess, bool) {
	g := Guess{Column: s.Heads[i], Sign: 1, Sure: sure, Mapped: true, Why: "the head names time and its unit"}
	values, _ := s.numbers(i)
	if len(values) < 2 {
		for _, row := range s.Rows {
			if i < len(row) {
				if _, ok := parseInstant([]byte(row[i])); ok {
					g.Unit, g.Why = "iso", "the cells are ISO 8601 instants"
					return g, true
				}
			}
		}
		return g, false
	}
	step := medianStep(values)
	if !(step > 0) {
		return g, false
	}
	if u, ok := s.writtenUnit(i, bracket, unit.Time); ok {
		g.Unit = u.Name
		return g, true
	}
	g.Sure = likely
	switch {
	case step < 2:
		g.Unit = "s"
	case step < 2000:
		g.Unit = "ms"
	default:
		g.Unit = "us"
	}
	g.Why = fmt.Sprintf("rows are %.4g apart, so that %s gives a usual logging rate; check it against the length of the flight", step, g.Unit)
	return g, true
}

// medianStep is the median difference of successive numbers.
func medianStep(values []float64) float64 {
	var steps []float64
	for i := 1; i < len(values); i++ {
		if d := values[i] - values[i-1]; d != 0 {
			steps = append(steps, d)
		}
	}
	return statistic.Median(steps)
}

// writtenUnit is the unit that the head's brackets, its suffix or the row of units gives.
func (s Sniffed) writtenUnit(i int, bracket string, d unit.Dimension) (unit.Unit, bool) {
	if u, ok := unit.Lookup(bracket, d); ok && bracket != "" {
		return u, true
	}
	if i < len(s.Units) && s.Units[i] != "" {
		written := s.Units[i]
		if _, inner := headWords(written); inner != "" {
			written = inner
		}
		if u, ok := unit.Lookup(written, d); ok {
			return u, true
		}
	}
	return suffixUnit(s.Heads[i], d)
}

// guess reads what one column is.
func (s Sniffed) guess(i int) Guess {
	head := s.Heads[i]
	words, bracket := headWords(head)
	q, strong := quantityOf(words)
	g := Guess{Column: head, Is: q, Sign: 1, Mapped: true}
	if q == "" {
		return Guess{Column: head, Sure: unknown, Why: noWord}
	}
	values, _ := s.numbers(i)
	if g.pulse(s, i, bracket, values) {
		return g
	}
	u, written := s.writtenUnit(i, bracket, q.Dimension())
	switch {
	case written && strong:
		g.Unit, g.Sure, g.Why = u.Name, sure, "the head names the quantity and its unit"
	case written:
		g.Unit, g.Sure, g.Why = u.Name, likely, "the unit fits one reading of the head"
	case bracket != "" && !strong:
		return Guess{Column: head, Sure: unknown, Why: fmt.Sprintf("%q is no unit of %s", bracket, q.Dimension())}
	default:
		g.Unit, g.Why = unitFromNumbers(q, values)
		g.unread = true
		g.Sure = guessed
		if strong && g.Unit != "" {
			g.Sure = likely
		}
	}
	if g.Unit == "" {
		g.Sure, g.Mapped = unknown, false
	}
	return g
}

// pulse handles servo columns that hold pulse widths: a control surface needs a calibration that only a
// protractor gives, a throttle gets the usual ends.
func (g *Guess) pulse(s Sniffed, i int, bracket string, values []float64) bool {
	_, written := s.writtenUnit(i, bracket, unit.PulseWidth)
	if d := g.Is.Dimension(); d != unit.Angle && d != unit.Share {
		return false
	}
	if m := statistic.Median(statistic.Magnitudes(values)); !written && !(m > 700 && m < 2400) {
		return false
	}
	switch g.Is {
	case Throttle:
		g.Unit, g.Sure = pulseThrottle, guessed
		g.Why = "pulse width; 1000 µs taken as idle and 2000 µs as full (common practice, no source): check both ends"
	case Elevator, Aileron, RudderLeft, RudderRight:
		g.Unit, g.Sure, g.Mapped = "deg", unknown, false
		g.Why = "pulse width: measure the surface angle at five pulse widths over the whole travel and write them as calibration"
	default:
		return false
	}
	return true
}
