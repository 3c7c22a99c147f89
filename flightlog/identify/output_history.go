package identify

import "strings"

// histories are the outputs as measured and as the model moves by itself, without gusts. Autocorrelation is that of what the quoted road
// leaves over: residuals, or innovations where gusts are accounted for.
func (it *iteration) histories(q quoted) []History {
	p := it.p
	outputs := len(p.layout.outputs)
	left := it.whitened(q.weigh)
	var out []History
	for i, t := range p.tracks {
		s := t.segment
		h := History{Flight: s.Flight, Kind: s.Kind, Control: s.Control, Start: s.Start, Step: s.Step, Input: t.input(p.layout.axis)}
		for o, c := range p.layout.outputs {
			signal := Signal{Name: c.name, Unit: c.unit, Measured: make([]float64, t.samples), Fitted: make([]float64, t.samples)}
			var rest []float64
			for k := range t.samples {
				if t.read(o, k, 1) {
					rest = append(rest, left[i][k*outputs+o])
				}
				signal.Measured[k] = t.measured[k*outputs+o]
				signal.Fitted[k] = signal.Measured[k] - it.residuals[i][k*outputs+o]
			}
			signal.Autocorrelation = neighbours(rest)
			h.Signals = append(h.Signals, signal)
		}
		out = append(out, h)
	}
	return out
}

// input is the surface that the segment was flown with, at each sample.
func (t *track) input(axis Axis) []float64 {
	at := 0
	if axis == Lateral && strings.HasPrefix(string(t.segment.Control), "rudder") {
		at = inRudder
	}
	out := make([]float64, t.samples)
	for k := range out {
		out[k] = t.inputs[k*t.parts][at]
	}
	return out
}
