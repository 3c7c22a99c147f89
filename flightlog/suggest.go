package flightlog

import (
	"fmt"
	"strings"
)

// Guess is what SuggestMap makes of one column and how sure it is of that.
type Guess struct {
	Column string   // head
	Is     Quantity // empty for time and for columns that are not understood
	Unit   string
	Sign   float64
	Scale  float64 // 1 unless the head names a unit that only a factor reaches, such as ft/min (0.00508 of m/s)
	Sure   string  // sure, likely, guess or unknown
	Mapped bool    // whether the column stands in the drafted map
	Why    string  // what speaks for it, and what to check

	strong  bool     // the words of the head leave no other reading
	written bool     // the unit stands in the head, or below it
	fixed   bool     // the words leave no doubt about the direction: a heading counts clockwise
	foreign []string // words of the head that are not known and may change its meaning
	axis    bool     // the head names an axis x, y or z and no direction
	worded  bool     // some word of the head is known
	pulses  bool     // the cells are servo pulse widths
	refuted string   // how the numbers speak against the quantity
	seen    seen
	r       float64 // correlation behind seen
}

// How sure a guess is.
const (
	sure    = "sure"    // words and unit are written in the head, and the numbers bear it out, sign included
	likely  = "likely"  // the numbers bear it out, and words or unit are written in the head
	guessed = "guess"   // words alone, unit alone, numbers alone, or a sign that this log does not show
	unknown = "unknown" // not in the map
)

// seen is what the numbers say about a column.
type seen int

const (
	silent    seen = iota // they do not tell
	confirmed             // they follow what physics gives from the other columns
	reversed              // they run against it, and the sign is turned
	doubted               // they follow nothing of the kind, or in another size
)

// draft is a logger map in the making.
type draft struct {
	Sniffed
	guesses []Guess // one a column
	time    int     // column; −1 when none is found
	taken   map[Quantity]int
	grid    *suggestGrid // nil when time cannot be read
	parsed  []parsedColumn
}

// parsedColumn keeps the numbers of a column, which many questions ask for.
type parsedColumn struct {
	done   bool
	values []float64
	rows   []int
}

// numbers is the sample of one column, blank and text cells left out, with the row of each number.
func (d *draft) numbers(column int) (values []float64, rows []int) {
	p := &d.parsed[column]
	if !p.done {
		p.values, p.rows = d.Sniffed.numbers(column)
		p.done = true
	}
	return p.values, p.rows
}

// SuggestMap drafts a logger map from the words and units in the heads, from the sizes of the numbers below them, and
// from what physics ties together: gravity, rates against angles, climb against height, height against pressure, bank
// against turning, speed and pitch angle against forward acceleration, controls against what the model does. It gives one Guess
// a column in the order of the file. The column whose head says most plainly what it is gets a
// quantity; of equals, the first.
//
// It knows general words of flight testing and no logger in particular. A line is sure only when head, unit and numbers
// agree, the sign included. The draft is for a person to check: signs above all, by moving the model by hand.
func SuggestMap(s Sniffed) (Map, []Guess) {
	d := draft{Sniffed: s, guesses: make([]Guess, len(s.Heads)), taken: map[Quantity]int{}, parsed: make([]parsedColumn, len(s.Heads))}
	d.time = d.findTime()
	d.readHeads()
	d.gravityAxis()
	d.shareRateUnit()
	d.grid = d.newSuggestGrid()
	d.weighNumbers()
	d.tellCandidates()
	for i := range d.guesses {
		if i != d.time {
			d.guesses[i].settle()
		}
	}
	return d.toMap(), d.guesses
}

// readHeads reads every head by its words and unit.
func (d *draft) readHeads() {
	for i, head := range d.Heads {
		if i == d.time {
			continue
		}
		g := d.guess(i)
		first, twice := d.taken[g.Is]
		switch {
		case g.Is == "":
		case !twice:
			d.taken[g.Is] = i
		case g.clearer(d.guesses[first]):
			d.taken[g.Is] = i
			d.guesses[first] = d.guesses[first].second(head)
		default:
			g = g.second(d.Heads[first])
		}
		d.guesses[i] = g
	}
}

// clearer tells whether a column says more plainly than another that it holds their quantity.
func (g Guess) clearer(other Guess) bool {
	points := func(g Guess) (n int) {
		for _, speaks := range []bool{g.Mapped, g.strong, g.written} {
			if speaks {
				n++
			}
		}
		return n
	}
	return points(g) > points(other)
}

// second is a column whose quantity another one holds.
func (g Guess) second(first string) Guess {
	return Guess{Column: g.Column, Sure: unknown, Why: fmt.Sprintf("looks like %s, which column %q holds already", g.Is, first)}
}

// toMap puts the mapped columns together.
func (d *draft) toMap() Map {
	m := Map{Name: "draft"}
	if d.time >= 0 {
		m.Time = TimeColumn{Column: d.Heads[d.time], Unit: d.guesses[d.time].Unit}
	}
	for _, g := range d.guesses {
		if !g.Mapped || g.Is == "" {
			continue
		}
		c := Column{Column: g.Column, Is: g.Is, Unit: g.Unit, Sign: g.Sign, Scale: g.Scale}
		if g.Is == Throttle && g.pulses {
			c.Calibration = throttlePulses()
		}
		m.Columns = append(m.Columns, c)
	}
	return m
}

// throttlePulses are the usual ends of a throttle servo: common practice, no source.
func throttlePulses() [][2]float64 { return [][2]float64{{1000, 0}, {2000, 1}} }

// settle says how sure a line is from what speaks for it.
func (g *Guess) settle() {
	if g.Mapped && g.strong && len(g.foreign) > 0 {
		g.Why += fmt.Sprintf("; %q in the head is not known here: look whether it changes the meaning", strings.Join(g.foreign, " "))
	}
	switch {
	case g.Is == "" || !g.Mapped:
		g.Sure = unknown
	case g.pulses, g.seen == doubted, !g.worded:
		g.Sure = guessed
	case g.seen == reversed && g.r < -0.9 && (g.strong || g.written):
		g.Sure = likely
	case g.seen == confirmed && g.strong && g.written && len(g.foreign) == 0:
		g.Sure = sure
	case g.seen == confirmed && (g.strong || g.written):
		g.Sure = likely
	case g.seen == silent && g.strong && g.written && len(g.foreign) == 0 && (g.fixed || !g.Is.hasDirection()):
		g.Sure = sure
	default:
		g.Sure = guessed
	}
	if g.Sure == guessed && g.seen == silent && g.Is.hasDirection() && !g.fixed && !g.pulses {
		g.Why += "; its sign does not show in this log: move the model, or the control, by hand and look"
	}
}

// hasDirection tells whether a sign can be the wrong way round: an airspeed, a pressure or a height above the field cannot.
func (q Quantity) hasDirection() bool {
	switch q {
	case Airspeed, GroundSpeed, GroundTrack, StaticPressure, AirTemperature, Altitude, Throttle:
		return false
	}
	return true
}
