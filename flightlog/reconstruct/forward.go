package reconstruct

import (
	"math"
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
	settle   = 3.0 // s after the start whose innovations do not count for whiteness: the first samples have nothing to agree with
)

// forward is one pass of the filter over a timeline.
type forward struct {
	tl     *timeline
	noise  *noise
	arms   *arms
	belief belief
	prior  func(at int) belief // a fresh start at an event

	verdicts []verdict // nil while tuning
	tallies  [kinds]tally
	restarts []restart
	row      [kinds]run // measurements of a kind left out in a row
	lost     bool
}

// run is how long a kind has been left out without a break.
type run struct {
	n     int
	since float64
}

// restart is an event at which the filter began anew.
type restart struct {
	event int
	kind  kind
	since float64
}

// pass runs over the events from one to before another.
func (f *forward) pass(from, to int) {
	for i := from; i < to && !f.lost; i++ {
		e := &f.tl.events[i]
		if i == 0 {
			f.belief = f.prior(0)
		} else {
			f.belief.propagate(&e.stride, f.noise)
		}
		for m := e.first; m < e.last; m++ {
			f.takeIn(e, int(m))
		}
		if k, bad := f.astray(e.time); bad {
			f.restart(i, k)
		}
	}
}

// takeIn decides on one measurement and takes it in.
func (f *forward) takeIn(e *event, m int) {
	z := f.tl.measured[m]
	var g gain
	value, h, ok := f.belief.expect(z.kind, e.rate, f.arms)
	if !ok || z.kind == airspeed && z.value < slowestTube {
		f.note(m, unused)
		return
	}
	g.h = h
	g.innovation = z.value - value
	if z.kind.circular() {
		g.innovation = wrap(g.innovation)
	}
	column, own := g.h.spread(&f.belief.p, f.belief.n)
	g.variance = own + f.noise.measured[z.kind]
	v := rejected
	if g.innovation*g.innovation <= gate*gate*g.variance {
		f.belief.update(&g, &column)
		v = used
	}
	f.note(m, v)
	f.tallies[z.kind].add(e.time, f.tl.events[0].time+settle, &g, v)
	if v == used {
		f.row[z.kind] = run{}
		return
	}
	if f.row[z.kind].n == 0 {
		f.row[z.kind].since = e.time
	}
	f.row[z.kind].n++
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

// restart begins anew at an event; too many times means that the channels contradict one another.
func (f *forward) restart(i int, k kind) {
	since := f.tl.events[i].time
	if k < kinds {
		since = f.row[k].since
	}
	f.restarts = append(f.restarts, restart{i, k, since})
	f.row = [kinds]run{}
	f.belief = f.prior(i)
	f.lost = len(f.restarts) > resets
}

// tally counts the innovations of one kind.
type tally struct {
	count, left        int
	squares            float64 // Σ innovation²/s
	products           float64 // Σ of neighbours, each over √s
	pairs              int
	score, information float64 // Σ (innovation² − s)/s² and Σ 1/s²
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
	e := g.innovation / math.Sqrt(g.variance)
	if t.count > 0 && now-t.lastTime < 1 {
		t.products += e * t.last
		t.pairs++
	}
	t.count++
	t.squares += e * e
	t.likelihood -= (e*e + math.Log(g.variance)) / 2
	t.score += (e*e - 1) / g.variance
	t.information += 1 / (g.variance * g.variance)
	t.last, t.lastTime = e, now
}
