package quality

import (
	"wingproof/flightlog"
)

// standardGravity in m/s², ISO 80000-3.
const standardGravity = 9.80665

// evidence is a recording under inspection: its channels on one time base, put right as far as a mistake is known, and what
// was found so far.
type evidence struct {
	rec       *flightlog.Recording
	scans     map[flightlog.Quantity]scan
	spikes    map[flightlog.Quantity][]int
	s         *series
	found     []flightlog.Finding
	stops     []flightlog.Finding // controls that rest as at an end stop, by a guess at where it is
	condemned map[flightlog.Quantity]bool
	blocks    map[blockKey][]float64
	wind      *triangle // with a good airspeed; nil when it has to be worked out
}

type blockKey struct {
	q flightlog.Quantity
	k int
}

// mean is a channel's averages over blocks of k cells; all missing when the recording lacks it.
func (e *evidence) mean(q flightlog.Quantity, k int) []float64 {
	key := blockKey{q, k}
	if v, ok := e.blocks[key]; ok {
		return v
	}
	v := e.s.values[q]
	if v == nil {
		v = missing(e.s.n)
	}
	out := means(v, k)
	e.blocks[key] = out
	return out
}

// forget drops what was worked out from a channel that has been put right since.
func (e *evidence) forget(q flightlog.Quantity) {
	for key := range e.blocks {
		if key.q == q {
			delete(e.blocks, key)
		}
	}
}

// correct multiplies a channel by what puts it right.
func (e *evidence) correct(q flightlog.Quantity, by float64) {
	if q == flightlog.GroundTrack || q == flightlog.GroundSpeed || q == flightlog.Airspeed {
		e.wind = nil
	}
	e.s.scale(q, by)
	e.forget(q)
}

// drop leaves a channel out of every later comparison.
func (e *evidence) drop(q flightlog.Quantity) {
	delete(e.s.values, q)
	e.forget(q)
}

// condemn notes a finding about a whole channel.
func (e *evidence) condemn(q flightlog.Quantity, severity flightlog.Severity, what, consequence string) {
	start, end := overall(e.rec.Channels[q])
	e.condemned[q] = true
	e.found = append(e.found, flightlog.Finding{Severity: severity, Channel: q, Start: start, End: end, What: what, Consequence: consequence})
}
