package identify

import "math"

// How the search for the time of a servo goes. The first guess is that of a usual hobby servo; the longest lag is that of a servo that
// nobody would fly. Common practice, no source.
const (
	firstDelay    = 0.03 // s
	firstLag      = 0.04 // s
	shortestLag   = 0.01 // s; between samples nobody sees a shorter one, and it counts as delay
	longestLag    = 0.30 // s
	followVary    = 2e-3 // s by which a time is varied to see what it does
	followSettled = 5e-4 // s; a sixth of what a flight can tell
	mostFollow    = 20   // iterations
	longestChange = 0.03 // s in one iteration
)

// followed is one segment in the search.
type followed struct {
	smooth    smoothed
	base      block
	movements []stickMovement
}

// flight finds the time of one flight by Gauss and Newton: what the surface does per second of lag, and per second by which each movement
// came later, is one regressor more, whose value over that of the surface is what the time lacks. A lag that wants to be shorter than
// the shortest stays there.
func (f *follower) flight(name string) (Servo, error) {
	c := course{segments: f.ofFlight(name), lag: firstLag, free: true, share: 1}
	for i := range mostFollow {
		if i >= mostFollow/2 { // delay and lag trade against each other, or a movement jumps to and fro over a sample
			c.free, c.share = false, 0.5
		}
		r, err := regress(f.blocks(&c))
		if notDetermined(err) {
			return Servo{}, f.vague(math.Inf(1))
		}
		if err != nil {
			return Servo{}, err
		}
		if c.correct(r.values[0]) < followSettled {
			return c.answer(&r), nil
		}
	}
	return Servo{}, f.vague(math.Inf(1))
}

// course is the search in one flight: its segments, the lag, and whether that is still sought.
type course struct {
	segments []followed
	lag      float64
	free     bool
	share    float64 // of a correction that is taken
}

// movements counts those of all segments, which stand last among the columns.
func (c *course) movements() int {
	n := 0
	for _, s := range c.segments {
		n += len(s.movements)
	}
	return n
}

// power is the place of the control among the columns; the lag follows it when it is free.
func (c *course) power(columns int) int {
	at := columns - 1 - c.movements()
	if c.free {
		at--
	}
	return at
}

// correct moves lag and movements on, and returns the largest change, s.
func (c *course) correct(values []float64) float64 {
	at := c.power(len(values))
	step := func(i int) float64 {
		return math.Max(-longestChange, math.Min(longestChange, c.share*values[i]/values[at]))
	}
	largest, k := 0.0, at+1
	if c.free {
		next := math.Min(longestLag, c.lag+step(k))
		if next <= shortestLag {
			next, c.free = shortestLag, false
		}
		largest, c.lag = math.Max(followSettled, math.Abs(next-c.lag)), next
		if c.free {
			largest = math.Abs(step(k))
		}
		k++
	}
	for s := range c.segments {
		for m := range c.segments[s].movements {
			c.segments[s].movements[m].later += step(k)
			largest = math.Max(largest, math.Abs(step(k)))
			k++
		}
	}
	return largest
}

// answer is the servo of a flight: the mean time of its movements, and the lag.
func (c *course) answer(r *regression) Servo {
	n, later, step := float64(c.movements()), 0.0, 0.0
	for _, s := range c.segments {
		step = s.base.step
		for _, m := range s.movements {
			later += m.later / n
		}
	}
	at := c.power(len(r.values[0]))
	weights := make([]float64, len(r.values[0])) // of the errors of lag and movements in the time
	for i := at + 1; i < len(weights); i++ {
		weights[i] = 1 / n
	}
	if c.free {
		weights[at+1] = 1
	}
	variance := inner(weights, applied(r.coloured(), weights)) / (r.values[0][at] * r.values[0][at])
	// a movement may be anywhere between two samples
	return Servo{Delay: firstDelay + later, Lag: c.lag, LagSD: math.Sqrt(math.Max(0, variance) + step*step/(12*n))}
}

// ofFlight are the segments of one flight, with their control's column still missing.
func (f *follower) ofFlight(name string) []followed {
	g := f.gathered
	var out []followed
	for i := range g.segments {
		s := g.segments[i]
		if s.segment.Flight == name {
			s.edges = nil
			out = append(out, followed{smooth: s, base: s.block(g.axis, g.setup, asReported()), movements: stickMovements(s.segment.command(f.control))})
		}
	}
	return out
}

// blocks have the columns that moved, the control's last, then what the surface does per second of lag while that is free, then of each movement of the flight.
func (f *follower) blocks(c *course) []block {
	segments := c.segments
	samples := make([]block, len(segments))
	for i := range segments {
		samples[i] = segments[i].base
	}
	var others []int
	for _, j := range movedColumns(samples, axisTerms(f.gathered.axis)) {
		if j != f.column {
			others = append(others, j)
		}
	}
	out := narrowed(samples, others)
	all, at := c.movements(), 0
	for i := range out {
		s := &segments[i]
		n := len(out[i].columns[0])
		out[i].columns = append(out[i].columns, s.surface(f, c.lag))
		if c.free {
			out[i].columns = append(out[i].columns, slopeOf(s.surface(f, c.lag-followVary), s.surface(f, c.lag+followVary), 2*followVary))
		}
		for k := range all {
			column := make([]float64, n)
			if m := k - at; m >= 0 && m < len(s.movements) {
				column = s.byMovement(f, c.lag, m)
			}
			out[i].columns = append(out[i].columns, column)
		}
		at += len(s.movements)
		out[i].responses = samples[i].responses[f.response : f.response+1]
	}
	return out
}

// surface is where the surface is, smoothed, for a lag and the present times of the movements.
func (s *followed) surface(f *follower, lag float64) []float64 {
	segment := s.smooth.segment
	d := drawnApart(segment.command(f.control), segment.Step, s.movements)
	return newKernel(segment.Step).value(d.behind(Servo{Delay: firstDelay, Lag: lag}))
}

// byMovement is what the surface does per second by which a movement comes later. Without a rate limit the surface is linear in its
// command, so that the change of the command is sent through the servo alone.
func (s *followed) byMovement(f *follower, lag float64, m int) []float64 {
	segment := s.smooth.segment
	command := segment.command(f.control)
	change := drawn(make([]float64, len(command)), segment.Step)
	early, late := s.movements[m], s.movements[m]
	early.later -= followVary
	late.later += followVary
	early.addTo(&change, command, segment.Step, -0.5/followVary)
	late.addTo(&change, command, segment.Step, 0.5/followVary)
	return newKernel(segment.Step).value(change.behind(Servo{Delay: firstDelay, Lag: lag}))
}

func slopeOf(before, after []float64, time float64) []float64 {
	out := make([]float64, len(before))
	for i := range out {
		out[i] = (after[i] - before[i]) / time
	}
	return out
}
