package flightlog

import (
	"fmt"
	"strings"

	"wingproof/flightlog/unit"
)

// clock reads the time column: a number in one unit, or ISO 8601 instants. Readings count from the first
// one, so that no digits are lost on a count that began in another year.
type clock struct {
	unit    string
	iso     bool
	factor  float64 // of a reading to seconds
	started bool
	zero    float64
	zeroNS  int64
	lastNS  int64
	days    int64 // midnights passed by a time of day without a date
}

// newClock makes the clock for the unit that a map names.
func newClock(written, source string) (*clock, *Mistake) {
	if strings.EqualFold(strings.TrimSpace(written), "iso") {
		return &clock{unit: "iso (ISO 8601)", iso: true, factor: 1e-9}, nil
	}
	u, ok := unit.Lookup(written, unit.Time)
	if !ok {
		return nil, &Mistake{File: source, What: fmt.Sprintf("the logger map's time unit %q is unknown", written), Right: "write s, ms, us or iso"}
	}
	return &clock{unit: u.Name, factor: u.Factor}, nil
}

// read gives a reading from the first one, in the clock's own unit.
func (c *clock) read(text []byte, decimal byte) (float64, bool) {
	if c.iso {
		return c.readInstant(text)
	}
	v, ok := parseNumber(text, decimal)
	if !ok {
		return 0, false
	}
	if !c.started {
		c.started, c.zero = true, v
	}
	return v - c.zero, true
}

func (c *clock) readInstant(text []byte) (float64, bool) {
	ns, ok := parseInstant(text)
	if !ok {
		return 0, false
	}
	// a time of day without a date falls by most of a day at midnight
	if ns < day {
		if c.started && c.lastNS-ns > day/2 {
			c.days++
		}
		c.lastNS = ns
		ns += c.days * day
	}
	if !c.started {
		c.started, c.zeroNS = true, ns
	}
	return float64(ns - c.zeroNS), true
}
