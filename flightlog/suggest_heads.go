package flightlog

import (
	"fmt"
	"strings"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// noWord is why a column stays out of the map when its head says nothing.
const noWord = "no word of the head names a quantity"

// guess reads what one column is from its head, and its unit from the head or from the size of its numbers.
func (d *draft) guess(i int) Guess {
	head, bracket := headWords(d.Heads[i])
	r, ok := d.reading(i, bracket, readings(head))
	if !ok {
		return Guess{Column: d.Heads[i], Sure: unknown, Why: noWord}
	}
	q, strong := r.is, r.strong
	g := Guess{Column: d.Heads[i], Is: q, Sign: 1, Scale: 1, Mapped: true, strong: strong, worded: true}
	g.axis = words{}.of(head).any("x y z ax ay az fx fy fz nx ny nz")
	g.foreign = r.foreign(head)
	g.fixed = q == Heading && words{}.of(head).any("heading hdg steuerkurs")
	if r.against {
		g.Sign = -1
	}
	values, _ := d.numbers(i)
	if g.pulse(d, i, bracket, values) {
		return g
	}
	if u, scale, ok := d.statedUnit(i, bracket, q.Dimension()); ok {
		g.Unit, g.Scale, g.written = u.Name, scale, true
		g.Why = "the head names the quantity and its unit"
		if !strong {
			g.Why = "the unit fits one reading of the head"
		}
		g.plausible(u, values)
	} else if stranger := d.strangeUnit(i, bracket); stranger != "" {
		return g.strange(stranger)
	} else {
		g.Unit, g.Why = unitFromNumbers(q, values)
	}
	if r.against {
		g.Why += "; the head names the opposite direction, so that the sign is turned"
	}
	if g.Unit == "" || g.isTravelShare(values) {
		g.Mapped = false
	}
	return g
}

// reading picks one of the rules that the words of a head fit: the first whose unit is written, else the first that asks for none.
func (d *draft) reading(i int, bracket string, found []rule) (rule, bool) {
	for _, r := range found {
		if _, _, ok := d.statedUnit(i, bracket, r.is.Dimension()); ok {
			return r, true
		}
		if _, ok := d.writtenUnit(i, bracket, unit.PulseWidth); ok && (r.is.isControl() || r.is == Throttle) {
			return r, true
		}
	}
	for _, r := range found {
		if !r.byUnit {
			return r, true
		}
	}
	return rule{}, false
}

// strange is a column whose unit is none of its quantity.
func (g Guess) strange(written string) Guess {
	g.Mapped, g.Unit = false, ""
	g.Why = fmt.Sprintf("looks like %s, but %q is no unit of %s that is known here: write the unit, and the factor as scale", g.Is, written, g.Is.Dimension())
	if g.Is.isControl() {
		g.Why = fmt.Sprintf("looks like %s in %q: measure the surface angle at five places of the whole travel and write them as calibration", g.Is, written)
	}
	if !g.strong {
		g.Is, g.Why = "", fmt.Sprintf("%q is no unit of %s, which the head may name", written, g.Is.Dimension())
	}
	return g
}

// isTravelShare sees a control surface in shares of its travel: nothing but a bench test turns them into angles.
func (g *Guess) isTravelShare(values []float64) bool {
	if !g.Is.isControl() || g.written || len(values) == 0 {
		return false
	}
	if top := statistic.Quantile(statistic.Magnitudes(values), 0.999); top > mostSurface && top < 70 {
		return false // degrees
	}
	g.Unit = "deg"
	g.Why = "the numbers are neither degrees nor pulse widths, shares of the travel perhaps: measure the surface angle at five places and write them as calibration"
	return true
}

func (q Quantity) isControl() bool {
	return q == Elevator || q == Aileron || q == RudderLeft || q == RudderRight
}

// pulse handles servo columns that hold pulse widths: a control surface needs a calibration that only a
// protractor gives, a throttle gets the usual ends.
func (g *Guess) pulse(d *draft, i int, bracket string, values []float64) bool {
	if !g.Is.isControl() && g.Is != Throttle {
		return false
	}
	_, written := d.writtenUnit(i, bracket, unit.PulseWidth)
	if m := statistic.Median(statistic.Magnitudes(values)); !written && !(m > 700 && m < 2400) {
		return false
	}
	g.pulses, g.written = true, written
	if g.Is == Throttle {
		g.Unit = "share"
		g.Why = "pulse width; 1000 µs taken as idle and 2000 µs as full (common practice, no source): check both ends"
		return true
	}
	g.Unit, g.Mapped = "deg", false
	g.Why = "pulse width: measure the surface angle at five pulse widths over the whole travel and write them as calibration"
	return true
}

// writtenUnit is the unit that the head's brackets, its suffix or the row of units gives.
func (s Sniffed) writtenUnit(i int, bracket string, d unit.Dimension) (unit.Unit, bool) {
	if u, ok := unit.Lookup(bracket, d); ok && bracket != "" {
		return u, true
	}
	if written := s.unitCell(i); written != "" {
		if u, ok := unit.Lookup(written, d); ok {
			return u, true
		}
	}
	return suffixUnit(s.Heads[i], d)
}

// unitCell is the cell of the row of units, without its brackets.
func (s Sniffed) unitCell(i int) string {
	if i >= len(s.Units) {
		return ""
	}
	if _, inner := headWords(s.Units[i]); inner != "" {
		return inner
	}
	return strings.TrimSpace(s.Units[i])
}

// statedUnit is the written unit, or one that a factor reaches.
func (d *draft) statedUnit(i int, bracket string, dimension unit.Dimension) (u unit.Unit, scale float64, ok bool) {
	if u, ok := d.writtenUnit(i, bracket, dimension); ok {
		return u, 1, true
	}
	words := []string{bracket, d.unitCell(i)}
	parts := strings.FieldsFunc(d.Heads[i], func(r rune) bool { return strings.ContainsRune(" _-.", r) })
	for n := 1; n <= min(2, len(parts)-1); n++ {
		words = append(words, strings.Join(parts[len(parts)-n:], "/"))
	}
	for _, w := range words {
		if u, scale, ok := scaledUnit(w, dimension); ok {
			return u, scale, true
		}
	}
	return unit.Unit{}, 1, false
}

// strangeUnit is what stands where a unit should, and is none of the quantity: words without a unit's marks are a remark.
func (d *draft) strangeUnit(i int, bracket string) string {
	for _, w := range []string{bracket, d.unitCell(i)} {
		if w == "" {
			continue
		}
		if strings.ContainsAny(w, "/%°²^µ0123456789") {
			return w
		}
		for _, dimension := range everyDimension() {
			if _, ok := unit.Lookup(w, dimension); ok {
				return w
			}
		}
	}
	return ""
}

func everyDimension() []unit.Dimension {
	return []unit.Dimension{unit.AngularRate, unit.Acceleration, unit.Speed, unit.Pressure, unit.Temperature,
		unit.PulseWidth, unit.Angle, unit.Length, unit.Share, unit.Time, unit.Turns, unit.Mass}
}
