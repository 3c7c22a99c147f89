package identify

import "math"

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

// newGustFilter linearises each segment along its present motion, for every n-th sample.
func newGustFilter(p *problem, every int) *gustFilter {
	f := &gustFilter{segments: make([]gustSegment, len(p.tracks)), outputs: len(p.layout.outputs), gusts: p.layout.gusts}
	for i, t := range p.tracks {
		f.segments[i] = newGustSegment(t, p.layout, every)
	}
	return f
}

func newGustSegment(t *track, l *layout, every int) (g gustSegment) {
	var m linearised
	x := t.initial(l)
	n := states + l.gusts
	samples := (t.samples + every - 1) / every
	g.transition = make([][mostFiltered]filtered, samples)
	g.output = make([][mostOutputs]filtered, samples)
	g.gains, g.unread = make([]gain, samples*len(l.outputs)), make([]bool, samples*len(l.outputs))
	for k := range t.samples {
		at := k * t.parts
		t.plant.linearise(&x, &t.inputs[at], &m)
		if k%every == 0 {
			g.look(k/every, &m, l)
			for o := range l.outputs {
				g.unread[k/every*len(l.outputs)+o] = !t.read(o, k, every)
			}
		}
		if k+1 == t.samples {
			break
		}
		for i := range t.parts {
			t.advance(&x, at+i)
		}
		a := withGusts(&m, l, mean(t.segment.Airspeed)/gustLength)
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

// tune works out the gains for the variances of gusts, then of a noisy input, and of outputs.
func (g *gustSegment) tune(gusts int, levels, noise []float64) {
	n := states + gusts
	var p, q [mostFiltered]filtered
	for k, v := range levels {
		if k < gusts {
			p[states+k][states+k] = v
		}
		for i := range n {
			for j := range n {
				q[i][j] += v * g.unit[k][i][j]
			}
		}
	}
	for sample := range g.transition {
		for o, r := range noise {
			to := &g.gains[sample*len(noise)+o]
			if g.unread[sample*len(noise)+o] {
				*to = gain{variance: 1}
				continue
			}
			g.observe(&p, &g.output[sample][o], r, n, to)
		}
		p = congruent(&g.transition[sample], &p, n)
		for i := range n {
			for j := range n {
				p[i][j] += q[i][j]
			}
		}
	}
}

func (f *gustFilter) begin(segment, width int) {
	f.now, f.width = &f.segments[segment], width
	if n := (states + f.gusts) * width; cap(f.estimates) < n {
		f.estimates, f.moved = make([]float64, n), make([]float64, n)
	}
	f.estimates = f.estimates[:(states+f.gusts)*width]
	f.moved = f.moved[:len(f.estimates)]
	clear(f.estimates)
}

func (f *gustFilter) whiten(sample int, rows []float64) {
	g, w, n := f.now, f.width, states+f.gusts
	at := sample * f.outputs
	for o := range f.outputs {
		gain := &g.gains[at+o]
		row := rows[o*w : (o+1)*w]
		if g.unread[at+o] {
			clear(row)
			continue
		}
		for i := range n {
			if h := g.output[sample][o][i]; h != 0 {
				subtract(row, h, f.estimates[i*w:(i+1)*w])
			}
		}
		for i := range n {
			subtract(f.estimates[i*w:(i+1)*w], -gain.k[i], row)
		}
		scale := 1 / math.Sqrt(gain.variance)
		for j := range row {
			row[j] *= scale
		}
	}
	clear(f.moved)
	for i := range n {
		into := f.moved[i*w : (i+1)*w]
		for j := range n {
			if a := g.transition[sample][i][j]; a != 0 {
				subtract(into, -a, f.estimates[j*w:(j+1)*w])
			}
		}
	}
	f.estimates, f.moved = f.moved, f.estimates
}

// subtract takes k·x off y.
func subtract(y []float64, k float64, x []float64) {
	x = x[:len(y)]
	for i := range y {
		y[i] -= k * x[i]
	}
}
