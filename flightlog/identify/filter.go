package identify

// gustLength is the correlation length of gusts near the ground, m. Common practice, no source.
const gustLength = 30.0

const (
	mostFiltered = states + mostGusts
	mostLevels   = mostGusts + 1
)

// filtered is a state of the filter, its motion first and gusts last.
type filtered [mostFiltered]float64

// gustFilter whitens what output error leaves over: a Kalman filter for the motion that gusts cause about the model's own. Its outputs
// are innovations over their standard deviation, one output after the other (sequential processing), so that they are independent.
type gustFilter struct {
	segments []gustSegment
	outputs  int
	gusts    int

	now       *gustSegment
	width     int
	estimates []float64 // mostFiltered × width
	moved     []float64
	single    filtered // the estimate of rows that are one wide
}

// gustSegment are the filter's matrices of one segment.
type gustSegment struct {
	transition [][mostFiltered]filtered           // over each sample
	unit       [mostLevels][mostFiltered]filtered // process covariance over one sample for a variance of one, of each level
	output     [][mostOutputs]filtered            // of each sample
	gains      []gain                             // outputs of each sample, one after another
	unread     []bool                             // likewise: no reading there
}

// gain is that of one output at one sample.
type gain struct {
	k        filtered
	variance float64 // of the innovation
}

// gustFilter linearises each segment along its present motion, for every n-th sample.
func (it *iteration) gustFilter(every int) *gustFilter {
	p := it.p
	f := &gustFilter{segments: make([]gustSegment, len(p.tracks)), outputs: len(p.layout.outputs), gusts: p.layout.gusts}
	for i, t := range p.tracks {
		f.segments[i] = newGustSegment(t, p.layout, it.course[i], every)
	}
	return f
}

func newGustSegment(t *track, l *layout, course []state, every int) (g gustSegment) {
	var m linearised
	n := states + l.gusts
	samples := (t.samples + every - 1) / every
	g.transition = make([][mostFiltered]filtered, samples)
	g.output = make([][mostOutputs]filtered, samples)
	g.gains, g.unread = make([]gain, samples*len(l.outputs)), make([]bool, samples*len(l.outputs))
	rate := mean(t.segment.Airspeed) / gustLength
	for k := range t.samples {
		at := k * t.parts
		x, in := &course[at], &t.inputs[at]
		if k%every == 0 {
			t.plant.observe(x, in, &m)
			g.look(k/every, &m, l)
			for o := range l.outputs {
				g.unread[k/every*len(l.outputs)+o] = !t.read(o, k, every)
			}
		}
		if k+1 == t.samples {
			break
		}
		t.plant.linearise(x, in, &m)
		a := withGusts(&m, l, rate)
		step := power(exponentialOf(&a, n, t.step), t.parts, n)
		if k%every == 0 {
			g.transition[k/every] = step
		} else {
			g.transition[k/every] = product(&step, &g.transition[k/every], n)
		}
		if k == 0 {
			g.disturb(&a, &m.byInput, t, l, every)
		}
	}
	return g
}

// look takes the outputs at a sample.
func (g *gustSegment) look(k int, m *linearised, l *layout) {
	for i := range l.outputs {
		copy(g.output[k][i][:], m.outState[i][:])
		for j := range l.gusts {
			g.output[k][i][states+j] = m.outGust[j][i]
		}
	}
}

// withGusts is the continuous model of motion and gusts, which forget themselves at a rate [1/s].
func withGusts(m *linearised, l *layout, rate float64) (a [mostFiltered]filtered) {
	for i := range states {
		copy(a[i][:], m.byState[i][:])
		for j := range l.gusts {
			a[i][states+j] = m.gust[j][i]
		}
	}
	for j := range l.gusts {
		a[states+j][states+j] = -rate
	}
	return a
}

// disturb works out the covariance that one step of the filter adds, for a variance of one of each level: a gust of that variance is kept up
// by white noise of the intensity 2/τ, integrated by Simpson's rule over each step of integration; a noisy input, straight between
// samples, acts with each sample's error for one step in all.
func (g *gustSegment) disturb(a *[mostFiltered]filtered, by *state, t *track, l *layout, every int) {
	n := states + l.gusts
	half := exponentialOf(a, n, t.step/2)
	whole := product(&half, &half, n)
	for j := range l.gusts {
		column := states + j
		var one [mostFiltered]filtered
		for i := range n {
			for k := range n {
				first := 0.0
				if i == column && k == column {
					first = 1
				}
				one[i][k] = -2 * a[column][column] * t.step / 6 * (first + 4*half[i][column]*half[k][column] + whole[i][column]*whole[k][column])
			}
		}
		g.unit[j] = gathering(&whole, &one, t.parts*every, n)
	}
	if l.noisyInput {
		var one [mostFiltered]filtered
		step := t.segment.Step
		for i, x := range by {
			for k, y := range by {
				one[i][k] = step * step * x * y
			}
		}
		whole = power(whole, t.parts, n)
		g.unit[l.gusts] = gathering(&whole, &one, every, n)
	}
}
