package flightlog

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog/unit"
)

// clock reads the time column row by row, in the order of the file.
type clock struct {
	timeFormat
	counter
}

// timeFormat is how a time column is written: a number in one unit, or ISO 8601 instants.
type timeFormat struct {
	unit   string
	iso    bool
	factor float64 // of a reading to seconds
}

// latest bounds the numbers taken for a time, so that differences of any two stay finite in every unit.
const latest = 1e300

// newClock makes the clock for the unit that a map names.
func newClock(written, source string) (*clock, *Mistake) {
	if strings.EqualFold(strings.TrimSpace(written), "iso") {
		return &clock{timeFormat: timeFormat{unit: "iso (ISO 8601)", iso: true, factor: 1e-9}}, nil
	}
	u, ok := unit.Lookup(written, unit.Time)
	if !ok {
		return nil, &Mistake{File: source, What: fmt.Sprintf("the logger map's time unit %q is unknown", written), Right: "write s, ms, us or iso"}
	}
	return &clock{timeFormat: timeFormat{unit: u.Name, factor: u.Factor}}, nil
}

// read gives a reading from the first one, in the clock's own unit.
func (c *clock) read(text []byte, decimal byte) (float64, bool) {
	s, ok := c.stamp(text, decimal)
	if !ok {
		return 0, false
	}
	return c.reading(s, c.iso), true
}

// stamp is the time of one row as the file writes it.
type stamp struct {
	number float64 // in the clock's unit
	ns     int64   // of an instant
}

// stamp reads one cell. It keeps nothing, so that rows can be read in any order.
func (f timeFormat) stamp(text []byte, decimal byte) (s stamp, ok bool) {
	if f.iso {
		s.ns, ok = parseInstant(text)
		return s, ok
	}
	s.number, ok = parseNumber(text, decimal)
	return s, ok && math.Abs(s.number) <= latest
}

// counter turns stamps, in the order of the file, into readings from the first one, so that no digits are lost
// on a count that began in another year.
type counter struct {
	started bool
	zero    stamp
	last    int64
	days    int64 // midnights passed by a time of day without a date
}

func (c *counter) reading(s stamp, iso bool) float64 {
	// a time of day without a date falls by most of a day at midnight
	if iso && s.ns < day {
		if c.started && c.last-s.ns > day/2 {
			c.days++
		}
		c.last = s.ns
		s.ns += c.days * day
	}
	if !c.started {
		c.started, c.zero = true, s
	}
	if iso {
		return float64(s.ns - c.zero.ns)
	}
	return s.number - c.zero.number
}
