package flightlog

import (
	"fmt"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// Rates of rows and lengths of flights between which a unit of time is believed, where the head does not name it: common
// practice, no source.
const (
	slowestRows, fastestRows = 0.8, 2500.0 // a second
	longestFlight            = 4 * 3600.0  // s
)

// findTime picks the time column: by its words, else the first column, if its numbers only rise.
func (d *draft) findTime() int {
	for i, head := range d.Heads {
		words, bracket := headWords(head)
		if isTimeHead(words) {
			if g, ok := d.guessTime(i, bracket); ok && d.mostlyRises(i) && !d.hasOtherUnit(i, bracket) {
				d.guesses[i] = g
				return i
			}
		}
	}
	if len(d.Heads) > 0 {
		_, bracket := headWords(d.Heads[0])
		if g, ok := d.guessTime(0, bracket); ok && d.onlyRises(0) {
			if g.Sure != sure {
				g.Sure = guessed
			} else {
				g.Sure = likely
			}
			g.Why = "the first column, and it only rises; " + g.Why
			d.guesses[0] = g
			return 0
		}
	}
	return -1
}

// onlyRises tells whether the numbers of a column never fall; instants do so by nature.
func (d *draft) onlyRises(i int) bool {
	values, _ := d.numbers(i)
	for k := 1; k < len(values); k++ {
		if values[k] < values[k-1] {
			return false
		}
	}
	return true
}

// mostlyRises tells whether the numbers of a column fall in one row of twenty at most: a dirty clock still runs on.
func (d *draft) mostlyRises(i int) bool {
	values, _ := d.numbers(i)
	falls := 0
	for k := 1; k < len(values); k++ {
		if values[k] < values[k-1] {
			falls++
		}
	}
	return 20*falls <= len(values)
}

// hasOtherUnit tells whether a head names a unit that none of time has, as T [°C] does.
func (d *draft) hasOtherUnit(i int, bracket string) bool {
	if _, ok := d.writtenUnit(i, bracket, unit.Time); ok {
		return false
	}
	return d.strangeUnit(i, bracket) != ""
}

// guessTime reads the unit of a time column: from the head, else from the step between rows.
func (d *draft) guessTime(i int, bracket string) (Guess, bool) {
	g := Guess{Column: d.Heads[i], Sign: 1, Scale: 1, Sure: sure, Mapped: true, Why: "the head names time and its unit"}
	values, _ := d.numbers(i)
	if len(values) < 2 {
		for _, row := range d.Rows {
			if i < len(row) {
				if _, ok := parseInstant([]byte(row[i])); ok {
					g.Unit, g.Why = "iso", "the cells are times of day or instants as ISO 8601 writes them"
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
	if u, ok := d.writtenUnit(i, bracket, unit.Time); ok {
		g.Unit = u.Name
		if believable(step*u.Factor, (values[len(values)-1]-values[0])*u.Factor) {
			return g, true
		}
		g.Sure, g.Why = guessed, fmt.Sprintf("the head names %s, but then rows would be %.4g s apart: check it against the length of the flight", u.Name, step*u.Factor)
		return g, true
	}
	g.Unit, g.Sure, g.Why = timeUnit(step, values[len(values)-1]-values[0])
	return g, true
}

// timeUnit guesses the unit of time from the step between rows and the length of the sample.
func timeUnit(step, length float64) (name, how, why string) {
	var fits []string
	for _, name := range []string{"s", "ms", "us"} {
		if u, ok := unit.Lookup(name, unit.Time); ok && believable(step*u.Factor, length*u.Factor) {
			fits = append(fits, name)
		}
	}
	switch len(fits) {
	case 0:
		return "s", guessed, fmt.Sprintf("rows are %.4g apart, which fits no usual unit of time: check it against the length of the flight", step)
	case 1:
		return fits[0], likely, fmt.Sprintf("rows are %.4g apart, so that only %s gives a usual logging rate and length", step, fits[0])
	}
	return fits[0], guessed, fmt.Sprintf("rows are %.4g apart, which %s or %s may be: check it against the length of the flight", step, fits[0], fits[1])
}

func believable(step, length float64) bool {
	return step >= 1/fastestRows && step <= 1/slowestRows && length <= longestFlight
}

// medianStep is the median difference of successive numbers that differ.
func medianStep(values []float64) float64 {
	var steps []float64
	for i := 1; i < len(values); i++ {
		if d := values[i] - values[i-1]; d != 0 {
			steps = append(steps, d)
		}
	}
	return statistic.Median(steps)
}
