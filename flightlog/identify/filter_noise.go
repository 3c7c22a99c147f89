package identify

import (
	"math"

	"wingproof/flightlog/statistic"
)

// noises are the variances that a filter needs: of the outputs, common to all segments, and of the gusts of each flight.
type noises struct {
	outputs []float64
	levels  [][]float64 // [flight]: variance of each gust, and of a noisy input
	flight  []int       // of each segment
}

// Limits of the search for them; common practice, no source.
const (
	leastLevel   = 0.01 // m/s of a gust or m/s² of an input: below this nothing of it shows
	usualInput   = 0.15 // m/s², of an accelerometer
	usualGust    = 0.3  // m/s, where the flight showed nothing
	noiseRounds  = 4
	noiseStep    = 1e-4 // relative, of the differences
	farthest     = 3.0  // in the logarithm of a variance
	noiseSettled = 0.03 // of a logarithm
)

// newNoises starts from what is quick in the outputs and from the gusts that the flights showed.
func newNoises(p *problem) *noises {
	n := &noises{outputs: p.quickNoise(), flight: make([]int, len(p.tracks))}
	index := map[string]int{}
	for i, t := range p.tracks {
		at, seen := index[t.segment.Flight]
		if !seen {
			at = len(n.levels)
			index[t.segment.Flight] = at
			n.levels = append(n.levels, firstLevels(t.segment.Gusts, p.layout))
		}
		n.flight[i] = at
	}
	return n
}

// quickNoise is the variance of each output's noise from second differences, of which white noise makes six times its variance, and a
// motion that is slow beside the samples nothing. Half of them, the smaller ones, are free of the input's edges.
func (p *problem) quickNoise() []float64 {
	const middle = 0.4549 // median of a squared standard normal variable
	outputs := len(p.layout.outputs)
	out := make([]float64, outputs)
	for o := range out {
		var squares []float64
		for _, t := range p.tracks {
			v := t.readingsOf(o, outputs)
			for k := 2; k < len(v); k++ {
				d := v[k] - 2*v[k-1] + v[k-2]
				squares = append(squares, d*d)
			}
		}
		out[o] = statistic.Median(squares) / (6 * middle)
	}
	return out
}

// readingsOf are the samples of an output that are readings of its own.
func (t *track) readingsOf(output, outputs int) []float64 {
	var out []float64
	for k := range t.samples {
		if t.read(output, k, 1) {
			out = append(out, t.measured[k*outputs+output])
		}
	}
	return out
}

// firstLevels starts from what the flight showed.
func firstLevels(gusts float64, l *layout) []float64 {
	level := math.Max(gusts, usualGust)
	var out []float64
	for range l.gusts {
		out = append(out, level*level)
	}
	if l.noisyInput {
		out = append(out, usualInput*usualInput)
	}
	return out
}

// tune sets a filter's gains.
func (n *noises) tune(f *gustFilter) {
	for i := range f.segments {
		f.segments[i].tune(f.gusts, n.levels[n.flight[i]], n.outputs)
	}
}
