package rehearse

// input is a course of stick movements about the held position: steps of alternating sign, each reached on a straight slope.
type input struct {
	steps []inputStep
	slope float64 // s from one position to the next
}

// inputStep is one position and how long it is asked for, slope included.
type inputStep struct{ size, time float64 }

// input gives the course that a doublet or multistep card asks for, as its hand does it.
func (c Card) input() input {
	widths := []float64{1, 1}
	if c.Kind == Multistep {
		widths = []float64{3, 2, 1, 1}
	}
	in := input{slope: c.Hand.Slope}
	for i, width := range widths {
		if i > 0 && c.Hand.Pause > 0 {
			in.steps = append(in.steps, inputStep{time: c.Hand.Pause})
		}
		size := c.Size * (1 + c.Hand.Sizes[i])
		if i%2 == 1 {
			size = -size
		}
		in.steps = append(in.steps, inputStep{size: size, time: width * c.Width * (1 + c.Hand.Times[i])})
	}
	return in
}

// length is the time from the first movement to rest in the middle, s.
func (in input) length() float64 {
	sum := in.slope
	for _, s := range in.steps {
		sum += s.time
	}
	return sum
}

// at is the deflection at a time after the first movement. The stick moves on from wherever a short step let it get.
func (in input) at(t float64) float64 {
	from, start := 0.0, 0.0
	for _, s := range in.steps {
		if end := start + s.time; t < end {
			return in.reach(from, s.size, t-start)
		}
		from = in.reach(from, s.size, s.time)
		start += s.time
	}
	return in.reach(from, 0, t-start)
}

// reach is where the stick is a time after it left one position for another.
func (in input) reach(from, to, t float64) float64 {
	if t >= in.slope {
		return to
	}
	return from + (to-from)*t/in.slope
}

// input freezes the controls after settling and adds the input. The ailerons go on holding the wings level in an
// input on the elevator.
func (r *run) input(c commands) commands {
	t := r.time - r.card.settling()
	if t < 0 {
		return c
	}
	if !r.holding {
		r.holding, r.held = true, c
	}
	input := r.course.at(t)
	out := r.held
	switch r.card.Control {
	case "elevator":
		out.aileron = c.aileron
		out.elevator += input
	case "aileron":
		out.aileron += input
	case "rudder":
		out.rudder += input
	}
	return out
}
