package identify

import (
	"math"

	"wingproof/flightlog"
)

// sharedPart is the part of a standard deviation that figures are moved by, so that one step goes as far as it should: a CG that is moved
// puts the model out of trim. Derived from comparing with whole fits.
const sharedPart = 0.05

// shared fills in what one standard deviation of each shared source does to every derivative: one step of Gauss and Newton with the
// figures as they would then have been reported, from where the fit came to rest.
func (it *iteration) shared(g *gathered, q quoted, derivatives []Derivative) {
	var base *remembered
	for _, s := range g.shifts() {
		if base == nil {
			base = it.remember(q.weigh)
		}
		moved := shifted{reported: s.figure.part(sharedPart)}
		if s.servos != nil {
			moved.slow = map[flightlog.Quantity]float64{}
			for control, servo := range s.servos {
				moved.slow[control] = sharedPart * (servo.Lag - g.setup.Servos[control].Lag)
			}
		}
		step, ok := it.stepWith(moved, base, q)
		if !ok {
			continue
		}
		for j := range derivatives {
			change := step[j] / sharedPart
			if math.Abs(change) > 1e-9*math.Abs(derivatives[j].Value) {
				derivatives[j].Common[s.source] = change
			}
		}
	}
}

// remembered are the whitened sensitivities of a fit at rest, and its whitened residuals, sample by sample.
type remembered struct {
	rows      [][]float64 // per segment: samples × outputs × parameters
	residuals [][]float64 // per segment: samples × outputs
}

// remember goes once through all segments.
func (it *iteration) remember(w whitener) *remembered {
	p := it.p
	out := &remembered{rows: make([][]float64, len(p.tracks)), residuals: make([][]float64, len(p.tracks))}
	for i, t := range p.tracks {
		outputs, width := len(p.layout.outputs), p.commons()+len(t.own)+1
		out.rows[i] = make([]float64, 0, t.samples*outputs*(width-1))
		it.r.visit(p, i, w, func(rows []float64) {
			for o := range outputs {
				row := rows[o*width : (o+1)*width]
				out.rows[i] = append(out.rows[i], row[:width-1]...)
				out.residuals[i] = append(out.residuals[i], row[width-1])
			}
		})
	}
	return out
}

// part goes only a part of the way from what was reported to the moved figures.
func (r reported) part(k float64) reported {
	factor := func(v float64) float64 { return 1 + k*(v-1) }
	return reported{
		airspeed: factor(r.airspeed), mass: factor(r.mass), inertiaX: factor(r.inertiaX), inertiaY: factor(r.inertiaY), inertiaZ: factor(r.inertiaZ),
		elevator: factor(r.elevator), aileron: factor(r.aileron), rudder: factor(r.rudder), density: factor(r.density), cg: k * r.cg, mounting: k * r.mounting,
	}
}

// stepWith is the step of Gauss and Newton of the common parameters that other figures would ask for, beyond that of the figures as they are. What
// other figures do to the sensitivities is of second order and left out.
func (it *iteration) stepWith(s shifted, base *remembered, q quoted) ([]float64, bool) {
	p := it.p
	other := *p
	other.shift, other.tracks = s, make([]*track, len(p.tracks))
	for i, t := range p.tracks {
		moved := newTrack(t.segment, p.layout, p.setup, s)
		moved.own, moved.mean, moved.sd = t.own, t.mean, t.sd
		moved.keep(t)
		other.tracks[i] = moved
	}
	other.place()
	again := iteration{p: &other, residuals: make([][]float64, len(other.tracks))}
	rights := make([][]float64, len(other.tracks))
	for i, t := range other.tracks {
		again.residuals[i] = make([]float64, len(t.measured))
		if !again.r.residuals(t, p.layout, again.residuals[i]) {
			return nil, false
		}
	}
	for i, r := range again.whitened(q.weigh) {
		width := p.commons() + len(p.tracks[i].own)
		rights[i] = make([]float64, width)
		for k, v := range r {
			if change := v - base.residuals[i][k]; change != 0 {
				subtract(rights[i], -change, base.rows[i][k*width:(k+1)*width])
			}
		}
	}
	return q.equations.answer(rights)
}

// keep takes over the points from which the terms of another track count.
func (t *track) keep(from *track) {
	switch m := t.plant.(type) {
	case *longitudinal:
		other := from.plant.(*longitudinal)
		m.alpha, m.elevator = other.alpha, other.elevator
	case *lateral:
		other := from.plant.(*lateral)
		m.aileron, m.rudder = other.aileron, other.rudder
	}
}
