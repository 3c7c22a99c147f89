package identify

// whitener turns rows of outputs into rows of unit variance that do not depend on one another.
type whitener interface {
	// begin starts a segment with rows of a width.
	begin(segment, width int)
	// whiten changes the rows [outputs × width] of a sample in place.
	whiten(sample int, rows []float64)
}

// modelled is the motion that a model makes of all segments with one set of parameters.
type modelled struct {
	residuals [][]float64 // per segment: samples × outputs, measured less modelled
	course    [][]state   // per segment: states at each place of the grid of integration
}

// newModelled gives memory for a problem.
func newModelled(p *problem) modelled {
	f := modelled{residuals: make([][]float64, len(p.tracks)), course: make([][]state, len(p.tracks))}
	for i, t := range p.tracks {
		f.residuals[i], f.course[i] = make([]float64, len(t.measured)), make([]state, len(t.inputs))
	}
	return f
}

// fly integrates all segments with the present parameters. It tells whether the motion stayed finite.
func (p *problem) fly(into *modelled) bool {
	for i, t := range p.tracks {
		if !t.fly(p.layout, into.residuals[i], into.course[i]) {
			return false
		}
	}
	return true
}

// fly integrates the motion of a track and writes measured minus modelled outputs, sample by sample, and the states, place by place. It tells
// whether the motion stayed finite.
func (t *track) fly(l *layout, residuals []float64, course []state) bool {
	x := t.initial(l)
	outputs := len(l.outputs)
	course[0] = x
	for k := range t.samples {
		at := k * t.parts
		y := t.plant.outputs(&x, &t.inputs[at])
		for i := range outputs {
			residuals[k*outputs+i] = t.measured[k*outputs+i] - y[i]
		}
		for i, biased := range l.biased {
			residuals[k*outputs+biased] -= t.own[l.bias()+i]
		}
		if k+1 == t.samples {
			break
		}
		for i := at; i < at+t.parts; i++ {
			t.advance(&x, i)
			course[i+1] = x
		}
		if !x.finite() {
			return false
		}
	}
	return true
}

func (t *track) initial(l *layout) (x state) {
	copy(x[:], t.own[l.initial():l.initial()+states])
	return x
}

// advance moves the state on by one step of the classical Runge–Kutta rule, inputs straight between places of the grid.
func (t *track) advance(x *state, at int) {
	s, h := &t.scratch, t.step
	t.plant.rate(x, &t.inputs[at], &s.k1)
	s.y.along(x, h/2, &s.k1)
	t.plant.rate(&s.y, &t.middles[at], &s.k2)
	s.y.along(x, h/2, &s.k2)
	t.plant.rate(&s.y, &t.middles[at], &s.k3)
	s.y.along(x, h, &s.k3)
	t.plant.rate(&s.y, &t.inputs[at+1], &s.k4)
	for i := range x {
		x[i] += h / 6 * (s.k1[i] + 2*s.k2[i] + 2*s.k3[i] + s.k4[i])
	}
}

// scratch is what one step needs; kept here so that nothing is allocated on the way.
type scratch struct {
	k1, k2, k3, k4, y state
}

func (y *state) along(x *state, h float64, k *state) {
	for i := range y {
		y[i] = x[i] + h*k[i]
	}
}
