package identify

import (
	"errors"
	"math"
)

// Limits of the iteration; common practice, no source.
const (
	mostIterations = 20
	mostTries      = 12
	nearRest       = 0.2  // of a standard deviation: where no step helps any more, so near is near enough
	settled        = 0.02 // of a standard deviation: what is left to gain changes no printed digit
	fineStep       = 1e-9 // of a usual value: round-off
	noiseFloor     = 1e-8 // of the mean square of an output: no sensor of a model is that good, and what was known beforehand keeps its weight
)

// errDiverged says that no step made the fit better.
var errDiverged = errors.New("the model's motion runs away from the measured one; check the signs of surfaces and rates, and leave out segments near the stall")

// state of an iteration.
type iteration struct {
	p *problem
	r runner
	modelled
	spare modelled // memory for a trial
	rows  []whitened
	sums  [][]float64 // of products of rows, by segment
	count int
}

func newIteration(p *problem) *iteration {
	n := len(p.tracks)
	return &iteration{p: p, modelled: newModelled(p), spare: newModelled(p), rows: make([]whitened, n), sums: make([][]float64, n)}
}

// begin integrates from the starting values.
func (it *iteration) begin() error {
	it.p.place()
	if !it.p.fly(&it.modelled) {
		return errDiverged
	}
	return nil
}

// cost is the sum of squares of the whitened residuals and of prior knowledge.
func (it *iteration) cost(residuals [][]float64, w whitener) float64 {
	outputs := len(it.p.layout.outputs)
	sum := it.p.priorCost()
	var row [mostOutputs]float64
	for i, r := range residuals {
		w.begin(i, 1)
		for k := 0; k*outputs < len(r); k++ {
			copy(row[:outputs], r[k*outputs:])
			w.whiten(k, row[:outputs])
			for _, e := range row[:outputs] {
				sum += e * e
			}
		}
	}
	return sum
}

// linearise adds up the normal equations of all segments about the present parameters.
func (it *iteration) linearise(w whitener) {
	for i := range it.p.tracks {
		it.r.sensitivities(it.p, i, &it.modelled, w, &it.rows[i])
		it.sums[i] = it.rows[i].normal(it.sums[i])
	}
}

// linearisedCost is the cost where the equations were set up: they hold the squares of the residuals too.
func (it *iteration) linearisedCost() float64 {
	sum := it.p.priorCost()
	for _, s := range it.sums {
		sum += s[len(s)-1]
	}
	return sum
}

// improve takes one step of Gauss and Newton, damped after Levenberg and Marquardt until it lowers the cost. It tells how large the
// step was, in standard deviations of the common parameters; zero when the fit is at rest.
func (it *iteration) improve(w whitener) (moved float64, err error) {
	p := it.p
	it.count++
	it.linearise(w)
	before, from := it.linearisedCost(), p.point()
	damping, whole := 0.0, math.Inf(1)
	for range mostTries {
		e := p.equate(it.sums, damping)
		if step, ok := p.step(e); ok {
			size := p.size(step, e)
			if damping == 0 {
				whole = size
			}
			p.move(from, step)
			if p.fly(&it.spare) && it.cost(it.spare.residuals, w) <= before*(1+1e-12) {
				it.modelled, it.spare = it.spare, it.modelled
				return size, nil
			}
			if whole < settled { // what the derivatives of edges are good for, and below what anybody sees
				p.set(from)
				return 0, nil
			}
		}
		damping = math.Max(1e-3, 8*damping)
	}
	p.set(from)
	if whole < nearRest {
		return 0, nil
	}
	return math.Inf(1), errDiverged
}

// size is the largest part of a step, in standard deviations of the common parameters; parts that are round-off of the value do not count.
func (p *problem) size(step point, e *equations) float64 {
	c := e.covariance()
	if c == nil {
		return math.Inf(1)
	}
	most := 0.0
	for j, v := range step.common {
		if sd := math.Sqrt(c.At(j, j)); sd > 0 && math.Abs(v) > fineStep*math.Max(math.Abs(p.common[j]), 0.1) {
			most = math.Max(most, math.Abs(v)/sd)
		}
	}
	return most
}

// outputError weighs each output by its own residuals.
type outputError struct {
	tracks []*track
	weight []float64
	now    *track
	width  int
}

func (o *outputError) begin(segment, width int) { o.now, o.width = o.tracks[segment], width }

func (o *outputError) whiten(sample int, rows []float64) {
	for i, w := range o.weight {
		row := rows[i*o.width : (i+1)*o.width]
		if !o.now.read(i, sample, 1) {
			clear(row)
			continue
		}
		for j := range row {
			row[j] *= w
		}
	}
}

// weights are those of the present noise.
func (p *problem) weights() *outputError {
	o := &outputError{tracks: p.tracks, weight: make([]float64, len(p.noise))}
	for i, v := range p.noise {
		o.weight[i] = 1 / math.Sqrt(v)
	}
	return o
}

// estimateNoise sets the variance of each output to the mean square of its residuals.
func (it *iteration) estimateNoise() {
	p := it.p
	outputs := len(p.layout.outputs)
	var sum, signal, n [mostOutputs]float64
	for i, r := range it.residuals {
		for k, v := range r {
			o := k % outputs
			if !p.tracks[i].read(o, k/outputs, 1) {
				continue
			}
			sum[o] += v * v
			signal[o] += p.tracks[i].measured[k] * p.tracks[i].measured[k]
			n[o]++
		}
	}
	for i := range p.noise {
		p.noise[i] = (sum[i] + noiseFloor*signal[i]) / n[i]
	}
}

// fitOutputError brings the parameters to rest with the noise that is given, and then again with that of the residuals, until neither moves:
// the maximum of the likelihood. Were the noise taken from the first residuals, an output that is still far off would count for little
// and might stay so.
func (it *iteration) fitOutputError(noise []float64) error {
	copy(it.p.noise, noise)
	for range noiseRounds {
		total := 0.0
		for range mostIterations {
			moved, err := it.improve(it.p.weights())
			if err != nil {
				return err
			}
			total += moved
			if moved < settled {
				break
			}
		}
		it.estimateNoise()
		if total < 2*settled {
			break
		}
	}
	return nil
}
