package identify

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"wingproof/flightlog"
)

// sharedPart is the part of a standard deviation that figures are moved by, so that one step goes as far as it should: a CG that is moved
// puts the model out of trim. Derived from comparing with whole fits.
const sharedPart = 0.05

// shared fills in what one standard deviation of each shared source does to every derivative: one step of Gauss and Newton with the
// figures as they would then have been reported, from where the fit came to rest, with the sensitivities of the quoted road there.
func (it *iteration) shared(g *gathered, q quoted, derivatives []Derivative) {
	for _, s := range g.shifts() {
		moved := shifted{reported: s.figure.part(sharedPart)}
		if s.servos != nil {
			moved.slow = map[flightlog.Quantity]float64{}
			for control, servo := range s.servos {
				moved.slow[control] = sharedPart * (servo.Lag - g.setup.Servos[control].Lag)
			}
		}
		step, ok := it.stepWith(moved, q)
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
func (it *iteration) stepWith(s shifted, q quoted) ([]float64, bool) {
	p := it.p
	other := *p
	other.shift, other.tracks = s, make([]*track, len(p.tracks))
	for i, t := range p.tracks {
		other.tracks[i] = t.as(s, p.layout, p.setup)
	}
	other.place()
	again := iteration{p: &other, modelled: newModelled(&other)}
	if !other.fly(&again.modelled) {
		return nil, false
	}
	rights := make([][]float64, len(other.tracks))
	for i, change := range again.whitened(q.weigh) {
		floats.Sub(change, it.rows[i].residuals())
		rights[i] = it.rows[i].against(change)
	}
	return q.equations.answer(rights)
}

// as is a track with other figures and the parameters that it has. Mass, inertia and CG change the constants of its motion and nothing
// of what was recorded, so that all else is shared then.
func (t *track) as(s shifted, l *layout, setup *Setup) *track {
	var moved *track
	if s.constantsOnly() {
		same := *t
		moved = &same
		moved.plant = newPlant(t.segment, l.axis, setup, &s)
	} else {
		moved = newTrack(t.segment, l, setup, s)
		moved.own, moved.mean, moved.sd = t.own, t.mean, t.sd
	}
	moved.keep(t)
	return moved
}

// constantsOnly tells whether no figure differs from what was reported but mass, inertia and CG.
func (e *shifted) constantsOnly() bool {
	rest := e.reported
	rest.mass, rest.inertiaX, rest.inertiaY, rest.inertiaZ, rest.cg = 1, 1, 1, 1, 0
	return rest == asReported() && len(e.slow) == 0
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
