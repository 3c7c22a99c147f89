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
	course    input   // of a doublet, multistep or pull-up
	slip      balance // of a sideslip with crossed controls
	slowing   slowing
	turned    float64 // rad through which a circle has gone, right positive
	facing    float64 // heading at the last step of a circle
	tremor    tremor
	stall     float64 // stalling speed
	essence   essence
}

// start takes up a card at the present place.
func (p *pilot) start(card Card, s seen) *run {
	p.begin(s)
	r := &run{
		card: card, height: math.Max(floor+15, math.Min(ceiling, s.height)), facing: s.heading,
		tremor: newTremor(card.Hand), stall: p.f.StallSpeed(atmosphere.SeaLevelDensity),
	}
	if card.Altitude > 0 && card.Kind != Climb {
		r.height = card.Altitude
	}
	throttle := -1.0
	switch card.Kind {
	case Climb:
		throttle = 1
	case Glide:
		throttle = 0
	case Doublet, Multistep:
		r.course = card.input()
	case PullUp:
		r.course = card.pull(p.pullStep(card.Speed, card.Size))
	case Sideslip:
		if card.Crossed {
			r.slip = p.balance(card.Speed, card.Size)
		}
	}
	r.aim = p.expect(card.Speed, 0, throttle)
	r.turnSpeed = math.Min(card.Speed, slowTurn*r.stall)
	r.turnAim = p.expect(r.turnSpeed, turnBank, -1)
	if card.turns() {
		r.aim = p.expect(card.Speed, card.Bank, throttle)
	}
	if s.leaving() {
		p.heading = s.homeward()
		r.liningUp = card.Kind != Climb && !card.turns()
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
	case Circle:
		full := 2 * math.Pi * math.Max(r.card.Turns, 0)
		if r.card.Turns == 0 {
			full = 2 * math.Pi
		}
		return math.Abs(r.turned) >= full || r.time >= r.card.Duration
	case Deceleration:
		return r.slowing.over(r, s, r.stall)
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
	c := p.commands(r, s, dt)
	r.essence.look(r, s)
	return r.tremor.on(c, dt)
}

// commands are what an exact hand would give.
func (p *pilot) commands(r *run, s seen, dt float64) commands {
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
	case Deceleration:
		c.elevator, c.throttle = p.deceleration(r, s, dt)
	default:
		c.elevator, c.throttle = p.byHeight(s, r.card.Speed, r.aim, r.height, dt)
	}
	switch r.card.Kind {
	case Sideslip:
		share := r.slipShare()
		c.rudder = r.card.Size * share
		c.aileron += r.slip.aileron * share
	case Doublet, Multistep:
		c = r.input(c)
	case PullUp:
		c = p.pull(r, s, c)
	}
	return c
}

// bank is what the card wants of the wings.
func (p *pilot) bank(r *run, s seen) float64 {
	switch {
	case r.liningUp:
		return p.bankFor(s, p.heading, turnBank)
	case r.card.turns():
		return r.card.Bank
	case r.card.Kind == Climb:
		if s.leaving() {
			p.heading = s.homeward()
		}
		return p.bankFor(s, p.heading, climbBank)
	case r.card.Kind == Sideslip && r.card.Crossed:
		return p.crossedBank(r, s)
	case r.card.Kind == Sideslip:
		return p.bankFor(s, p.heading, 2*smallBank)
	}
	return p.bankFor(s, p.heading, smallBank)
}
