package identify

import "math"

// Rounds of noise and parameters; common practice, no source.
const (
	filterRounds = 6
	filterSteps  = 3
	noiseSample  = 0.04 // s: samples closer than this tell nothing more of gusts, and enough of noise
	restless     = 0.1  // standard deviations that a round moves a parameter by
)

// fitFilterError goes on from output error: noises from the residuals, then parameters from the innovations, until neither moves. The gain
// is held while the parameters move, see the package comment.
func (it *iteration) fitFilterError() (*gustFilter, *noises, error) {
	p := it.p
	n := newNoises(p)
	floor := it.noiseFloors()
	for i := range floor {
		n.outputs[i] = math.Max(n.outputs[i], floor[i])
	}
	every := max(1, int(math.Round(noiseSample/p.tracks[0].segment.Step)))
	var f *gustFilter
	for round := range filterRounds {
		f = it.gustFilter(1)
		if round > 0 {
			thin := f
			if every > 1 {
				thin = it.gustFilter(every)
			}
			n.estimate(thin, it.thinned(every), floor)
		}
		n.tune(f)
		total := 0.0
		for range filterSteps {
			moved, err := it.improve(f)
			if err != nil {
				return nil, nil, err
			}
			total += moved
			if moved < settled {
				break
			}
		}
		if round > 0 && total < restless {
			break
		}
	}
	return f, n, nil
}

// thinned are every n-th of the residuals.
func (it *iteration) thinned(every int) [][]float64 {
	if every == 1 {
		return it.residuals
	}
	outputs := len(it.p.layout.outputs)
	out := make([][]float64, len(it.residuals))
	for i, r := range it.residuals {
		for k := 0; k*outputs < len(r); k += every {
			out[i] = append(out[i], r[k*outputs:(k+1)*outputs]...)
		}
	}
	return out
}

// noiseFloors are the smallest variances that an output is credited with.
func (it *iteration) noiseFloors() []float64 {
	outputs := len(it.p.layout.outputs)
	out, n := make([]float64, outputs), 0
	for _, t := range it.p.tracks {
		for k, v := range t.measured {
			out[k%outputs] += v * v
		}
		n += t.samples
	}
	for i := range out {
		out[i] *= noiseFloor / float64(n)
	}
	return out
}
