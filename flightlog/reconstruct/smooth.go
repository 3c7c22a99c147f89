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
	first, last int      // gains
	restart     *restart // after the measurements; nil when there is none
}

// smoother goes back over a filtered flight.
type smoother struct {
	f     *forward
	steps [part]step
	gains []gain
	back  adjoint
}

// advance runs the filter on to before an event and keeps checkpoints: the belief before the events of each part.
func (f *forward) advance(to int) {
	if f.verdicts == nil {
		f.verdicts = make([]verdict, len(f.tl.measured))
	}
	for f.reached < to && !f.lost {
		f.belief.square()
		f.checkpoints = append(f.checkpoints, checkpoint{f.reached, f.belief})
		end := min(f.reached+part, to)
		f.pass(f.reached, end)
		f.reached = end
	}
}

// finish runs the filter on to the end.
func (f *forward) finish() { f.advance(len(f.tl.events)) }

// run goes back over the whole flight. At each event on the grid it tells the belief there and what later measurements say.
func (s *smoother) run(tell func(e *event, b *belief, a *adjoint)) {
	s.back = adjoint{n: s.f.belief.n}
	checkpoints := s.f.checkpoints
	for c := len(checkpoints) - 1; c >= 0; c-- {
		from := checkpoints[c].event
		to := len(s.f.tl.events)
		if c+1 < len(checkpoints) {
			to = checkpoints[c+1].event
		}
		s.again(&checkpoints[c], to)
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
	switch {
	case st.restart == nil:
	case st.restart.step:
		s.back.forget(atAttitudeBias + int(st.restart.kind-rollAngle))
	default: // nothing is carried across a fresh start
		s.back = adjoint{n: s.back.n}
	}
	for m := st.last - 1; m >= st.first; m-- {
		s.back.undo(&s.gains[m])
	}
	if s.f.startsAt(i) {
		s.back = adjoint{n: s.back.n}
	} else {
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
		st.first, st.restart = len(s.gains), f.restartAt(i)
		if f.startsAt(i) {
			b = f.fresh(i, &b)
		} else {
			st.transition = b.propagate(&e.stride, f.noise)
		}
		for m := e.first; m < e.last; m++ {
			if f.verdicts[m] == used {
				s.repeat(&b, e, f.tl.measured[m])
			}
		}
		if st.restart != nil {
			b = f.after(st.restart, &b)
		}
		st.last, st.belief = len(s.gains), b
	}
}

// repeat takes in one measurement and keeps its gain.
func (s *smoother) repeat(b *belief, e *event, z measurement) {
	s.gains = append(s.gains, gain{})
	g := &s.gains[len(s.gains)-1]
	s.f.expect(b, e, z, g)
	b.update(g)
}
