package reconstruct

// part is the number of events between checkpoints: the forward pass keeps only these, and the smoother runs the filter again over
// one part at a time, keeping every step of that part. Storage is then a few megabytes whatever the length of the flight, at the cost of
// one more forward pass.
const part = 200

// checkpoint is what is needed to run the filter again from an event on.
type checkpoint struct {
	event  int
	belief belief
}

// step is what the smoother needs of one event.
type step struct {
	belief      belief // after the measurements
	transition  transition
	first, last int // gains
	fresh       bool
}

// smoother goes back over a filtered flight.
type smoother struct {
	f           *forward
	checkpoints []checkpoint
	steps       [part]step
	gains       []gain
	back        adjoint
}

// filterOnce runs the final forward pass and keeps checkpoints: the belief before the events of each part.
func (f *forward) filterOnce() []checkpoint {
	f.verdicts = make([]verdict, len(f.tl.measured))
	n := len(f.tl.events)
	out := make([]checkpoint, 0, n/part+1)
	for from := 0; from < n && !f.lost; from += part {
		f.belief.square()
		out = append(out, checkpoint{from, f.belief})
		f.pass(from, min(from+part, n))
	}
	return out
}

// run goes back over the whole flight. At each event on the grid it tells the belief there and what later measurements say.
func (s *smoother) run(tell func(e *event, b *belief, a *adjoint)) {
	s.back = adjoint{n: s.f.belief.n}
	for c := len(s.checkpoints) - 1; c >= 0; c-- {
		from := s.checkpoints[c].event
		to := len(s.f.tl.events)
		if c+1 < len(s.checkpoints) {
			to = s.checkpoints[c+1].event
		}
		s.again(&s.checkpoints[c], to)
		for i := to - 1; i >= from; i-- {
			s.retreat(i, &s.steps[i-from], tell)
		}
	}
}

// retreat goes back over one event.
func (s *smoother) retreat(i int, st *step, tell func(*event, *belief, *adjoint)) {
	e := &s.f.tl.events[i]
	if e.grid >= 0 {
		tell(e, &st.belief, &s.back)
	}
	if st.fresh { // nothing is carried across a fresh start
		s.back = adjoint{n: s.back.n}
		return
	}
	for m := st.last - 1; m >= st.first; m-- {
		s.back.undo(&s.gains[m])
	}
	if i > 0 {
		s.back.retreat(&st.transition)
	}
}

// again repeats the filter from a checkpoint, by the verdicts of the first run, and keeps every step.
func (s *smoother) again(c *checkpoint, to int) {
	f := s.f
	b := c.belief
	s.gains = s.gains[:0]
	for i := c.event; i < to; i++ {
		e, st := &f.tl.events[i], &s.steps[i-c.event]
		st.first, st.fresh = len(s.gains), false
		if i == 0 {
			b = f.prior(0)
		} else {
			st.transition = b.propagate(&e.stride, f.noise)
		}
		for m := e.first; m < e.last; m++ {
			if f.verdicts[m] == used {
				s.repeat(&b, e, f.tl.measured[m])
			}
		}
		if f.restartedAt(i) {
			b, st.fresh = f.prior(i), true
		}
		st.last, st.belief = len(s.gains), b
	}
}

// repeat takes in one measurement and keeps its gain.
func (s *smoother) repeat(b *belief, e *event, z measurement) {
	s.gains = append(s.gains, gain{})
	g := &s.gains[len(s.gains)-1]
	var value float64
	value, g.h, _ = b.expect(z.kind, e.rate, s.f.arms)
	g.innovation = z.value - value
	if z.kind.circular() {
		g.innovation = wrap(g.innovation)
	}
	column, own := g.h.spread(&b.p, b.n)
	g.variance = own + s.f.noise.measured[z.kind]
	b.update(g, &column)
}

func (f *forward) restartedAt(i int) bool {
	for _, r := range f.restarts {
		if r.event == i {
			return true
		}
	}
	return false
}
