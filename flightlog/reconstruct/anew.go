package reconstruct

import (
	"math"
	"sort"
)

// restart is an event after whose measurements the filter begins anew, or forgets what it knew of the bias of one logged angle.
type restart struct {
	event int
	kind  kind
	since float64
	step  bool // the logged angle jumped: only its bias begins anew
}

// logged is the last sample of a logged angle.
type logged struct{ value, time float64 }

// A logged angle that changes from one sample to the next faster than the gyros turn by this factor and margin has jumped: it is
// the attitude unit that is wrong, not the gyros. Common practice, no source.
const (
	jumpFactor = 2.0
	jumpMargin = 1.0 // rad/s
)

// jumped tells whether a sample of a logged angle is further from the last than the gyros explain.
func (f *forward) jumped(e *event, z measurement) bool {
	last := f.angles[z.kind]
	return e.time > last.time && tooFast(wrap(z.value-last.value), e.time-last.time, e.rate)
}

// tooFast tells whether an angle changes faster over a time than body rates explain.
func tooFast(change, dt float64, rate [3]float64) bool {
	most := 0.0
	for _, r := range rate {
		most = math.Max(most, math.Abs(r))
	}
	return math.Abs(change)/dt > jumpFactor*most+jumpMargin
}

// steadyHeading is the longest time between jumps of the logged heading that stay; the whole flight when there are none.
func (in *input) steadyHeading() (start, end float64) {
	const (
		least  = gate * priorHeadingBias // smaller ones pass as a bias
		behind = 5                       // samples after which a glitch is over
	)
	c := in.measured[headingAngle]
	var rate [3]*line
	for k := range 3 {
		rate[k] = newLine(in.rates[k])
	}
	edges := []float64{math.Inf(-1)}
	for i := 1; i+behind < len(c.Time); i++ {
		change := wrap(c.Value[i] - c.Value[i-1])
		if math.Abs(change) < least {
			continue
		}
		t := c.Time[i]
		stays := math.Abs(wrap(c.Value[i+behind]-c.Value[i-1])) > math.Abs(change)/2
		if stays && tooFast(change, t-c.Time[i-1], [3]float64{rate[0].at(t), rate[1].at(t), rate[2].at(t)}) {
			edges = append(edges, t)
		}
	}
	edges = append(edges, math.Inf(1))
	longest := -1.0
	for i := 1; i < len(edges); i++ {
		a, b := math.Max(edges[i-1], in.start), math.Min(edges[i], in.end)
		if b-a > longest {
			longest, start, end = b-a, edges[i-1], edges[i]
		}
	}
	return start, end
}

// anew begins anew at an event because of a kind; too many times means that the channels contradict one another.
func (f *forward) anew(i int, k kind) {
	r := restart{event: i, kind: k, since: f.tl.events[i].time}
	if k < kinds {
		r.since = f.row[k].since
		r.step = f.row[k].jumped && f.stepsBefore(i) < resets
	}
	f.restarts = append(f.restarts, r)
	if r.step {
		f.row[k] = run{}
	} else {
		f.row = [kinds]run{}
		f.resets++
		f.settled = f.tl.events[i].time + settle
	}
	f.belief = f.after(&r, &f.belief)
	f.lost = f.resets > resets
}

// after is the belief behind a restart.
func (f *forward) after(r *restart, b *belief) belief {
	if !r.step {
		return f.fresh(r.event, b)
	}
	out := *b
	out.forget(atAttitudeBias + int(r.kind-rollAngle))
	return out
}

// fresh is the belief before the measurements of an event with nothing carried over from before, but for biases of the logged attitude once
// that has jumped: attitude as logged would be off by the jump.
func (f *forward) fresh(i int, before *belief) belief {
	var bias [3]float64
	if f.stepsBefore(i) > 0 && before.sound() {
		bias = three(&before.x, atAttitudeBias)
	}
	return f.prior(i, bias)
}

// stepsBefore counts the jumps of logged angles before an event.
func (f *forward) stepsBefore(i int) int {
	n := 0
	for _, r := range f.restarts {
		if r.event < i && r.step {
			n++
		}
	}
	return n
}

// restartAt finds the restart at an event; nil when there is none.
func (f *forward) restartAt(i int) *restart {
	k := sort.Search(len(f.restarts), func(k int) bool { return f.restarts[k].event >= i })
	if k < len(f.restarts) && f.restarts[k].event == i {
		return &f.restarts[k]
	}
	return nil
}

// forget makes the bias of a logged angle anything, whatever else is known: the next sample tells it.
func (b *belief) forget(at int) {
	for i := range b.n {
		*b.p.at(at, i), *b.p.at(i, at) = 0, 0
	}
	*b.p.at(at, at) = math.Pi * math.Pi / 3 // an angle anywhere on the circle
}

// forget: what comes later says nothing of a bias that begins anew after it.
func (a *adjoint) forget(at int) {
	a.first[at] = 0
	for i := range a.n {
		*a.all.at(at, i), *a.all.at(i, at) = 0, 0
	}
}
