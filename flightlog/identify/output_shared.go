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
func (it *iteration) shared(g *gathered, w whitener, derivatives []Derivative) {
	p := it.p
	base, ok := it.stepWith(p.shift, w)
	if !ok {
		return
	}
	for _, s := range g.shifts() {
		moved := shifted{reported: s.figure.part(sharedPart)}
		if s.servos != nil {
			moved.slow = map[flightlog.Quantity]float64{}
			for control, servo := range s.servos {
				moved.slow[control] = sharedPart * (servo.Lag - g.setup.Servos[control].Lag)
			}
		}
		step, ok := it.stepWith(moved, w)
		if !ok {
			continue
		}
		for j := range derivatives {
			change := (step.common[j] - base.common[j]) / sharedPart
			if math.Abs(change) > 1e-9*math.Abs(derivatives[j].Value) {
				derivatives[j].Common[s.source] = change
			}
		}
	}
}

// part goes only a part of the way from what was reported to the moved figures.
func (r reported) part(k float64) reported {
	factor := func(v float64) float64 { return 1 + k*(v-1) }
	return reported{
		airspeed: factor(r.airspeed), mass: factor(r.mass), inertiaX: factor(r.inertiaX), inertiaY: factor(r.inertiaY), inertiaZ: factor(r.inertiaZ),
		elevator: factor(r.elevator), aileron: factor(r.aileron), rudder: factor(r.rudder), density: factor(r.density), cg: k * r.cg, mounting: k * r.mounting,
	}
}

// stepWith is the step of Gauss and Newton that other figures would ask for.
func (it *iteration) stepWith(s shifted, w whitener) (point, bool) {
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
	again := iteration{p: &other, sums: make([][]float64, len(other.tracks))}
	again.linearise(w)
	return other.step(other.equate(again.sums, 0))
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
