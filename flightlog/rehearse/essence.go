package rehearse

import "math"

// How a run is told to have settled. Invented; about what a reader of a strip chart would call steady.
const (
	steadyFor      = 2.0        // s
	smoothing      = 1.0        // s: lag of the eye, which looks past gusts
	steadySpeed    = 0.04       // of the card's speed
	steadyBank     = 5 * degree // from the bank asked for
	steadyPath     = 3 * degree // of a level run, from level
	steadyYawRate  = 3 * degree // of a sideslip, rad/s
	steadyRollRate = 4 * degree // rad/s
	response       = 3.0        // s that the free response to an input is watched
)

// essence finds the part of a card that matters while it is flown.
type essence struct {
	from, to float64 // s from the start of the recording; zero while not known
	since    float64 // when the steady state that still lasts began
	steady   bool
	eye      seen // the sight, smoothed where it is compared
	open     bool
	last     float64
}

// sees smooths what gusts disturb.
func (e *essence) sees(s seen) seen {
	if !e.open {
		e.open, e.eye, e.last = true, s, s.time
	}
	share := math.Min(1, (s.time-e.last)/smoothing)
	e.last = s.time
	e.eye.indicated += (s.indicated - e.eye.indicated) * share
	e.eye.climb += (s.climb - e.eye.climb) * share
	e.eye.roll += (s.roll - e.eye.roll) * share
	e.eye.rollRate += (s.rollRate - e.eye.rollRate) * share
	e.eye.yawRate += (s.yawRate - e.eye.yawRate) * share
	return e.eye
}

// look takes one step of a card.
func (e *essence) look(r *run, s seen) {
	switch r.card.Kind {
	case Doublet, Multistep:
		if r.holding && e.from == 0 {
			e.from, e.to = s.time, s.time+r.course.length()+response
		}
		return
	case PullUp:
		if r.holding && e.from == 0 {
			e.from, e.to = s.time, s.time+r.course.length()
		}
		return
	case Deceleration:
		if r.slowing.began && e.from == 0 {
			e.from = s.time
		}
		if r.slowing.broken && e.to == 0 {
			e.to = s.time
		}
		return
	case Circle:
		r.circle(s)
	}
	if e.from != 0 {
		return
	}
	switch now := r.isSteady(e.sees(s)); {
	case now && !e.steady:
		e.steady, e.since = true, s.time
	case !now:
		e.steady = false
	case s.time-e.since >= steadyFor:
		e.from = e.since
	}
}

// span is the essential part of a card that ended at a time; empty, at the end, when the card never came to it.
func (e *essence) span(end float64) (from, to float64) {
	from, to = e.from, e.to
	if from == 0 {
		from = end
	}
	if to == 0 || to > end {
		to = end
	}
	return from, to
}

// isSteady tells whether the flight is near what the card asks for.
func (r *run) isSteady(s seen) bool {
	if r.liningUp || math.Abs(s.indicated-r.card.Speed) > steadySpeed*r.card.Speed || math.Abs(s.rollRate) > steadyRollRate {
		return false
	}
	switch r.card.Kind {
	case Turn, Circle:
		return math.Abs(s.roll-r.card.Bank) < steadyBank
	case Climb:
		return math.Abs(s.roll) < climbBank
	case Sideslip:
		return r.slipping() > r.card.slipEntry() && math.Abs(s.yawRate) < steadyYawRate && (!r.card.Crossed || math.Abs(s.roll-r.slip.bank) < steadyBank)
	case Glide:
		return math.Abs(s.roll) < 2*steadyBank
	}
	return math.Abs(s.roll) < 2*steadyBank && math.Abs(s.climb) < steadyPath*s.speed
}

// circle counts how far a circle has gone, from the bank it asks for on.
func (r *run) circle(s seen) {
	if r.essence.steady || r.essence.from != 0 {
		r.turned += wrap(s.heading - r.facing)
	}
	if !r.essence.steady && r.essence.from == 0 {
		r.turned = 0
	}
	r.facing = s.heading
}

// turns tells whether the card is flown at a bank.
func (c Card) turns() bool { return c.Kind == Turn || c.Kind == Circle }
