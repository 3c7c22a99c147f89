package manoeuvre

import (
	"cmp"
	"math"
	"slices"

	"wingproof/flightlog"
)

// Find gives the manoeuvres of a recording in order of time. It changes nothing; what cannot be looked for is left out,
// and Missing says so.
//
// Where manoeuvres overlap, the higher rank wins and splits or shortens the lower: an input with its free response, then a
// pull-up, then a deceleration, then a sideslip, then turn or circle, then glide, climb and level run. Inputs on two
// controls at a time are both reported.
func Find(rec *flightlog.Recording) []Manoeuvre {
	m, all, ok := prepare(rec)
	if !ok {
		return nil
	}
	held := make(taken, m.n)
	var out []Manoeuvre
	add := func(more []Manoeuvre) {
		for _, one := range more {
			held.mark(m, one.Start, one.End)
		}
		out = append(out, more...)
	}
	var inputs []Manoeuvre
	for _, in := range findInputs(m, all) {
		inputs = append(inputs, in.manoeuvre(m))
	}
	add(inputs)
	add(m.pullUps(held, all))
	add(m.decelerations(held))
	add(m.sideslips(held, all))
	add(m.turns(held))
	add(m.steady(held))
	for i := range out {
		m.complete(&out[i])
	}
	slices.SortStableFunc(out, func(a, b Manoeuvre) int { return cmp.Compare(a.Start, b.Start) })
	return out
}

func prepare(rec *flightlog.Recording) (*motion, []control, bool) {
	start, end, ok := span(rec)
	if !ok {
		return nil, nil, false
	}
	slow := clock{start: start, step: slowStep, n: int((end-start)/slowStep) + 1}
	fast := clock{start: start, step: fastStep, n: int((end-start)/fastStep) + 1}
	return newMotion(rec, slow), controls(rec, fast), true
}

// complete fills in means and the phrase.
func (m *motion) complete(one *Manoeuvre) {
	one.End = math.Max(one.Start, one.End)
	r := run{m.index(one.Start), m.index(one.End) + 1}
	if m.calibrated {
		one.Airspeed = average(m.speed, r)
	}
	one.Bank, one.Turned = average(m.bank, r), m.turned(r)
	one.Detail = one.phrase()
}
