package rehearse

import (
	"math"

	"wingproof/aero/atmosphere"
)

// Bank angles of the pilot, rad.
const (
	turnBank  = 0.6  // turning onto a heading
	climbBank = 0.45 // turning home in a climb
	smallBank = 0.12 // holding a heading on a test run
)

// slowTurn is the fastest speed of lining up, over the stalling speed.
const slowTurn = 1.6

// longestLineUp is how long the pilot turns onto the heading of a run before starting it anyway, s.
const longestLineUp = 12.0

// run is a card being flown.
type run struct {
	card      Card
	aim       aim
	turnAim   aim     // lining up is a level turn, also ahead of a glide, so that it costs no height
	height    float64 // to hold
	turnSpeed float64
	liningUp  bool
	time      float64 // on the card, lining up excluded
	lineUp    float64 // spent lining up
	held      commands
	holding   bool
}

// start takes up a card at the present place.
func (p *pilot) start(card Card, s seen) *run {
	p.begin(s)
	r := &run{card: card, height: math.Max(floor+15, math.Min(ceiling, s.height))}
	if card.Altitude > 0 && card.Kind != Climb {
		r.height = card.Altitude
	}
	throttle := -1.0
	switch card.Kind {
	case Climb:
		throttle = 1
	case Glide:
		throttle = 0
	}
	r.aim = p.expect(card.Speed, 0, throttle)
	r.turnSpeed = math.Min(card.Speed, slowTurn*p.f.StallSpeed(atmosphere.SeaLevelDensity))
	r.turnAim = p.expect(r.turnSpeed, turnBank, -1)
	if card.Kind == Turn {
		r.aim = p.expect(card.Speed, card.Bank, throttle)
	}
	if s.leaving() {
		p.heading = s.homeward()
		r.liningUp = card.Kind != Climb && card.Kind != Turn
	}
	return r
}

// done tells whether the card is finished.
func (r *run) done(s seen) bool {
	switch r.card.Kind {
	case Climb:
		top := ceiling
		if r.card.Altitude > 0 {
			top = r.card.Altitude
		}
		return s.height >= top || r.time >= r.card.Duration
	case Glide:
		return s.height <= floor || r.time >= r.card.Duration
	}
	return r.time >= r.card.Duration
}

// fly gives the commands of one step of a card.
func (p *pilot) fly(r *run, s seen, dt float64) commands {
	if r.liningUp {
		r.lineUp += dt
		if math.Abs(wrap(p.heading-s.heading)) < 0.1 || r.lineUp > longestLineUp {
			r.liningUp = false
			p.sumPitch, p.sumThrottle = 0, 0
		}
	} else {
		r.time += dt
	}
	var c commands
	c.aileron = p.aileron(s, p.bank(r, s), dt)
	if r.liningUp {
		c.elevator, c.throttle = p.byHeight(s, r.turnSpeed, r.turnAim, r.height, dt)
		return c
	}
	switch r.card.Kind {
	case Climb, Glide:
		c.throttle = r.aim.throttle
		c.elevator = p.bySpeed(s, r.card.Speed, r.aim, dt)
	default:
		c.elevator, c.throttle = p.byHeight(s, r.card.Speed, r.aim, r.height, dt)
	}
	switch r.card.Kind {
	case Sideslip:
		c.rudder = r.card.Size * math.Min(1, r.time)
	case Doublet:
		c = r.doublet(c)
	}
	return c
}

// bank is what the card wants of the wings.
func (p *pilot) bank(r *run, s seen) float64 {
	switch {
	case r.liningUp:
		return p.bankFor(s, p.heading, turnBank)
	case r.card.Kind == Turn:
		return r.card.Bank
	case r.card.Kind == Climb:
		if s.leaving() {
			p.heading = s.homeward()
		}
		return p.bankFor(s, p.heading, climbBank)
	case r.card.Kind == Sideslip:
		return p.bankFor(s, p.heading, 2*smallBank)
	}
	return p.bankFor(s, p.heading, smallBank)
}

// doublet freezes the controls after settling and adds the two halves of the input. The ailerons go on holding the wings
// level in an elevator doublet.
func (r *run) doublet(c commands) commands {
	t := r.time - settling
	if t < 0 {
		return c
	}
	if !r.holding {
		r.holding, r.held = true, c
	}
	input := 0.0
	switch {
	case t < r.card.Width:
		input = r.card.Size
	case t < 2*r.card.Width:
		input = -r.card.Size
	}
	out := r.held
	switch r.card.Control {
	case "elevator":
		out.aileron = c.aileron
		out.elevator += input
	case "aileron":
		out.aileron += input
	case "rudder":
		out.rudder += input
	}
	return out
}
