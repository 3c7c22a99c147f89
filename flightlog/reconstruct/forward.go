package reconstruct

import (
	"math"

	"wingproof/aero/atmosphere"
)

// What the filter does with a measurement; kept so that a second run over a part of the flight repeats the first.
type verdict uint8

const (
	unused verdict = iota // says nothing here
	used
	rejected // too far off
)

const (
	gate     = 5.0 // standard deviations of an innovation beyond which a measurement is left out; common practice, no source
	patience = 2.0 // s over which a channel may be left out before that means something
	fewest   = 5   // measurements in a row, at least, for the same
	resets   = 5   // times after which the filter gives up
	settle   = 3.0 // s after a start whose innovations do not count for whiteness: the first samples have nothing to agree with
)

// forward is one pass of the filter over a timeline.
type forward struct {
	tl     *timeline
	noise  *noise
	arms   *arms
	belief belief
	prior  func(at int, bias [3]float64) belief // a fresh start at an event, the logged attitude less a bias
	begin  int                                  // the event that starts the pass

	reached     int          // the event up to which advance has come
	checkpoints []checkpoint // beliefs before the events of each part
	verdicts    []verdict    // nil where nobody goes back
	tallies     [kinds]tally
	restarts    []restart
	resets      int        // restarts that were no jumps of a logged angle
	settled     float64    // s from which innovations count for whiteness
	angles      [3]logged  // last samples of roll, pitch and heading
	row         [kinds]run // measurements of a kind left out in a row
	lost        bool
	gain        gain // room for that of one measurement
}

// run is how long a kind has been left out without a break.
type run struct {
	n      int
	since  float64
	jumped bool // the first of them was a logged angle that jumped
}

// pass runs over the events from one to before another.
func (f *forward) pass(from, to int) {
	for i := from; i < to && !f.lost; i++ {
		e := &f.tl.events[i]
		if f.startsAt(i) {
			f.belief, f.row, f.settled = f.fresh(i, &f.belief), [kinds]run{}, e.time+settle
		} else {
			f.belief.propagate(&e.stride, f.noise)
		}
		for m := e.first; m < e.last; m++ {
			f.takeIn(e, int(m))
		}
		if k, bad := f.astray(e.time); bad {
			f.anew(i, k)
		}
	}
}

// startsAt tells whether nothing leads to an event: the first of the pass, or the first after a silence.
func (f *forward) startsAt(i int) bool { return i == f.begin || f.tl.events[i].fresh }

// expect makes the gain of a measurement; false where that says nothing.
func (f *forward) expect(b *belief, e *event, z measurement, g *gain) (ok bool) {
	value, ok := b.expect(z.kind, e.rate, f.arms, &g.h)
	if !ok || z.kind == airspeed && z.value < slowestTube {
		return false
	}
	g.innovation = z.value - value
	if z.kind.circular() {
		g.innovation = wrap(g.innovation)
	}
	g.variance = g.h.spread(&b.p, &g.k, b.n) + f.noise.measured[z.kind] + b.late(e, z.kind, f.noise.lagSD[z.kind])
	g.normalise()
	return true
}

// late is the variance that a satellite speed has because its lag is known only to a standard deviation: (acceleration·sd)².
func (b *estimate) late(e *event, k kind, sd float64) float64 {
	if sd == 0 || e.stride.dt == 0 {
		return 0
	}
	axis := int(k - northSpeed)
	row := b.attitude[3*axis : 3*axis+3]
	a := 0.0
	for i := range 3 {
		a += row[i] * (e.stride.force[i] - b.x[atForceBias+i])
	}
	if axis == 2 {
		a += atmosphere.Gravity
	}
	return a * a * sd * sd
}

// takeIn decides on one measurement and takes it in.
func (f *forward) takeIn(e *event, m int) {
	z, g := f.tl.measured[m], &f.gain
	if !f.expect(&f.belief, e, z, g) {
		f.note(m, unused)
		return
	}
	v := rejected
	if math.Abs(g.innovation) <= gate {
		f.belief.update(g)
		v = used
	}
	f.note(m, v)
	f.tallies[z.kind].add(e.time, f.settled, g, v)
	f.count(e, z, v)
}

// count keeps how long a kind has been left out.
func (f *forward) count(e *event, z measurement, v verdict) {
	r := &f.row[z.kind]
	angle := z.kind <= headingAngle
	switch {
	case v == used:
		*r = run{}
	case r.n == 0:
		*r = run{n: 1, since: e.time, jumped: angle && f.jumped(e, z)}
	default:
		r.n++
	}
	if angle {
		f.angles[z.kind] = logged{z.value, e.time}
	}
}

func (f *forward) note(m int, v verdict) {
	if f.verdicts != nil {
		f.verdicts[m] = v
	}
}

// astray tells whether a channel that carries the solution, attitude or satellite velocity, has been left out for so long that
// it must be the filter that is wrong.
func (f *forward) astray(now float64) (kind, bool) {
	if !f.belief.sound() {
		return kinds, true
	}
	for _, k := range [...]kind{rollAngle, pitchAngle, headingAngle, northSpeed, eastSpeed, climbRate} {
		if r := f.row[k]; r.n >= fewest && now-r.since > patience {
			return k, true
		}
	}
	return 0, false
}

// tally counts the innovations of one kind.
type tally struct {
	count, left        int
	squares            float64 // Σ innovation²/s
	products           float64 // Σ of neighbours, each over √s
	pairs              int
	score, information float64 // Σ (innovation² − s)/s² and Σ 1/s²
	weighed            bool    // the likelihood is wanted
	likelihood         float64 // Σ of −½·(ln s + innovation²/s)
	last               float64 // normalised innovation
	lastTime           float64
	rejected           []Stretch
}

// add counts one innovation; those before a time do not count.
func (t *tally) add(now, from float64, g *gain, v verdict) {
	if v == rejected {
		t.left++
		n := len(t.rejected)
		if n > 0 && now-t.rejected[n-1].End < patience {
			t.rejected[n-1].End = now
		} else {
			t.rejected = append(t.rejected, Stretch{Start: now, End: now})
		}
		return
	}
	if now < from {
		return
	}
	e := g.innovation
	if t.count > 0 && now-t.lastTime < 1 {
		t.products += e * t.last
		t.pairs++
	}
	t.count++
	t.squares += e * e
	if t.weighed {
		t.likelihood -= (e*e + math.Log(g.variance)) / 2
	}
	t.score += (e*e - 1) / g.variance
	t.information += 1 / (g.variance * g.variance)
	t.last, t.lastTime = e, now
}
