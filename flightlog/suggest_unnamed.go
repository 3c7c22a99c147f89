package flightlog

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// unnamedTrust is the correlation from which on numbers alone make a guess: common practice, no source.
const unnamedTrust = 0.9

// unnamed lists the columns whose heads hold no word that is known, in a language of their own perhaps.
func (d *draft) unnamed() []int {
	var out []int
	for i := range d.guesses {
		if i != d.time && d.guesses[i].Is == "" && d.guesses[i].Why == noWord {
			out = append(out, i)
		}
	}
	return out
}

// anyUnit is the unit that a head states, whatever it measures.
func (d *draft) anyUnit(i int) (unit.Unit, float64, bool) {
	_, bracket := headWords(d.Heads[i])
	for _, dimension := range everyDimension() {
		if u, scale, ok := d.statedUnit(i, bracket, dimension); ok {
			return u, scale, true
		}
	}
	return unit.Unit{}, 1, false
}

// findUnnamed looks for a quantity among the columns without words: by what physics gives for it, or by the two sizes
// that show by themselves, gravity and the pressure outside.
func (d *draft) findUnnamed(q Quantity) {
	best, found := Guess{}, -1
	for _, i := range d.unnamed() {
		g, ok := d.unnamedGuess(q, i)
		if ok && (found < 0 || math.Abs(g.r) > math.Abs(best.r)) {
			best, found = g, i
		}
	}
	if found >= 0 {
		best.r = 0
		d.guesses[found], d.taken[q] = best, found
	}
}

// unnamedGuess tries one quantity on one column.
func (d *draft) unnamedGuess(q Quantity, i int) (Guess, bool) {
	g := Guess{Column: d.Heads[i], Is: q, Sign: 1, Scale: 1, Mapped: true}
	u, scale, written := d.anyUnit(i)
	if written && u.Dimension != q.Dimension() {
		return g, false
	}
	values, _ := d.numbers(i)
	if written {
		g.Unit, g.Scale, g.written = u.Name, scale, true
	} else {
		g.Unit, _ = unitFromNumbers(q, values)
	}
	if _, ok := unit.Lookup(g.Unit, q.Dimension()); !ok {
		return g, false
	}
	if !written && d.unwritten(q, i, &g) {
		return g, true
	}
	switch q {
	case DownAcceleration, StaticPressure:
		return g, written && d.sizeTells(&g, i, u)
	case Airspeed, GroundSpeed, GroundTrack, Heading, Throttle, Elevator, Aileron, RudderLeft, RudderRight, AngleOfAttack, RightAcceleration:
		return g, false // more than one column of a log may look like these
	}
	r := d.relationOf(q, d.si(i, q, g))
	o := compare(r.expected, r.actual)
	if o.n == 0 || o.moved < 2*r.least || math.Abs(o.r) < math.Max(unnamedTrust, r.trust) {
		return g, false
	}
	if size := math.Abs(o.size); !r.signOnly && (size > sizeTolerance || size < 1/sizeTolerance) && (written || !d.otherUnit(&g, q, size)) {
		return g, false
	}
	g.r = o.r
	g.Why = fmt.Sprintf("no word of the head is known, but its numbers follow %s: taken as %s", r.of, q)
	return g, true
}

// sizeTells recognises gravity along the down axis, and the pressure of the air outside.
func (d *draft) sizeTells(g *Guess, i int, u unit.Unit) bool {
	values, _ := d.numbers(i)
	if len(values) == 0 {
		return false
	}
	middle := g.Scale * u.SI(statistic.Median(values))
	switch {
	case g.Is == DownAcceleration && math.Abs(math.Abs(middle)-gravity) < 2:
		g.Why = fmt.Sprintf("no word of the head is known, but the middle of its numbers is %.3g m/s², which is gravity: taken as the axis that points down", middle)
	case g.Is == StaticPressure && middle > 6e4 && middle < 1.08e5:
		g.Why = fmt.Sprintf("no word of the head is known, but the middle of its numbers is %.4g hPa, as the air outside has: taken as static pressure", middle/100)
	default:
		return false
	}
	return true
}

// findUnnamedPitch looks for pitch angle and forward acceleration together where neither is known: one column follows gravity along the
// other.
func (d *draft) findUnnamedPitch() {
	_, pitch := d.taken[PitchAngle]
	_, force := d.taken[ForwardAcceleration]
	if pitch && force {
		return
	}
	angles, forces := d.unnamed(), d.unnamed()
	if pitch {
		angles = []int{d.taken[PitchAngle]}
	}
	if force {
		forces = []int{d.taken[ForwardAcceleration]}
	}
	best, at := unnamedTrust, [2]int{-1, -1}
	for _, speed := range d.speedsToTry() {
		for _, i := range angles {
			for _, j := range forces {
				if r := d.pitchPair(i, j, pitch, force, speed); r > best {
					best, at = r, [2]int{i, j}
				}
			}
		}
	}
	if at[0] < 0 {
		return
	}
	for k, q := range []Quantity{PitchAngle, ForwardAcceleration} {
		if _, known := d.taken[q]; !known {
			d.taken[q] = at[k]
			d.guesses[at[k]] = d.byUnit(at[k], q)
			d.guesses[at[k]].Why = fmt.Sprintf("no word of the head is known, but forward acceleration and pitch angle go together as gravity makes them (correlation %.2f): taken as %s", best, q)
		}
	}
}

// speedsToTry is the speed that is known, else each column without words that holds a speed, and none.
func (d *draft) speedsToTry() [][]float64 {
	if v := d.anySpeed(); v != nil {
		return [][]float64{v}
	}
	out := [][]float64{nil}
	for _, i := range d.unnamed() {
		if g := d.byUnit(i, Airspeed); g.Mapped {
			out = append(out, d.si(i, Airspeed, g))
		}
	}
	return out
}

// byUnit is the guess that a column is a quantity in the unit of its head; empty when the head states none of that kind.
func (d *draft) byUnit(i int, q Quantity) Guess {
	g := Guess{Column: d.Heads[i], Is: q, Sign: 1, Scale: 1, Mapped: true}
	if u, scale, ok := d.anyUnit(i); ok && u.Dimension == q.Dimension() {
		g.Unit, g.Scale, g.written = u.Name, scale, true
		return g
	}
	return Guess{}
}

// pitchPair is the correlation of two columns as forward acceleration and pitch angle, and of the right size; 0 when they are not.
func (d *draft) pitchPair(angle, force int, angleKnown, forceKnown bool, speed []float64) float64 {
	a, f := d.guesses[angle], d.guesses[force]
	if !angleKnown {
		a = d.byUnit(angle, PitchAngle)
	}
	if !forceKnown {
		f = d.byUnit(force, ForwardAcceleration)
	}
	if !a.Mapped || !f.Mapped || angle == force {
		return 0
	}
	pitch := d.grid.smooth(d.si(angle, PitchAngle, a), 0.5)
	expected := each(func(v []float64) float64 { return gravity * math.Sin(v[0]) }, pitch)
	if speed != nil {
		expected = each(func(v []float64) float64 { return v[0] + gravity*math.Sin(v[1]) }, d.grid.slope(speed, 0.5), pitch)
	}
	o := compare(expected, d.grid.smooth(d.si(force, ForwardAcceleration, f), 0.5))
	if size := math.Abs(o.size); o.moved < 0.4 || size > sizeTolerance || size < 1/sizeTolerance {
		return 0
	}
	return math.Abs(o.r)
}

// tellCandidates names what a column without words may be by its unit.
func (d *draft) tellCandidates() {
	for _, i := range d.unnamed() {
		g := &d.guesses[i]
		u, _, ok := d.anyUnit(i)
		if !ok {
			continue
		}
		names := candidates(u.Dimension, d.taken)
		switch {
		case names == "":
		case u.Dimension == unit.PulseWidth:
			g.Why = fmt.Sprintf("%s; pulse widths command %s: if it is one of these, write which, with unit = \"deg\" (throttle: \"share\") and a measured calibration", noWord, names)
		default:
			g.Unit = u.Name
			g.Why = fmt.Sprintf("%s; the unit is that of %s: if it is one of these, write which", noWord, names)
		}
	}
}

// candidates lists the quantities of a dimension that no column holds yet.
func candidates(d unit.Dimension, taken map[Quantity]int) string {
	var names []string
	for _, q := range Quantities() {
		servo := d == unit.PulseWidth && (q.isControl() || q == Throttle)
		if _, has := taken[q]; !has && (q.Dimension() == d || servo) {
			names = append(names, string(q))
		}
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
	return strings.Join(names, "")
}
