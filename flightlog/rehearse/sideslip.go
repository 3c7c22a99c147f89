package rehearse

import (
	"errors"
	"math"

	"wingproof/aero/atmosphere"
)

// slipSwing is how long the nose swings after the rudder stands, before the pilot takes the heading to hold, s. Invented.
const slipSwing = 1.0

func (c Card) checkCrossed() error {
	switch {
	case c.Crossed && c.Kind != Sideslip:
		return errors.New("crossed controls belong to a sideslip")
	case c.Crossed && !(c.Duration > c.settling()+c.slipEntry()+slipSwing):
		return errors.New("no time to slip; level flight before it and the entry take longer than the card")
	}
	return nil
}

// slipEntry is how long the rudder takes to go in, s.
func (c Card) slipEntry() float64 { return 1 + c.Hand.Slope }

// balance is what a steady sideslip at a constant heading takes.
type balance struct{ aileron, bank float64 }

// balance is aileron and bank for a rudder [rad] held at a calibrated speed: no rolling and no yawing moment without rates, side force
// against the weight's share along Y.
func (p *pilot) balance(speed, rudder float64) balance {
	d, a, r := &p.f.d.ByBeta, &p.f.aileron, &p.f.rudd
	det := d.Roll*a.Yaw - a.Roll*d.Yaw
	if det == 0 {
		return balance{}
	}
	slip := (a.Roll*r.Yaw - r.Roll*a.Yaw) * rudder / det
	aileron := (r.Roll*d.Yaw - d.Roll*r.Yaw) * rudder / det
	side := d.Side*slip + a.Side*aileron + r.Side*rudder
	lift := p.f.Body.Mass * atmosphere.Gravity / (0.5 * atmosphere.SeaLevelDensity * speed * speed * p.f.area)
	return balance{aileron: aileron, bank: math.Asin(math.Max(-0.5, math.Min(0.5, -side/lift)))}
}

// slipping is the time since the rudder began to go in, s; negative ahead of it.
func (r *run) slipping() float64 {
	if r.card.Crossed {
		return r.time - r.card.settling()
	}
	return r.time
}

// slipShare is how far the rudder is in, 0 to 1.
func (r *run) slipShare() float64 {
	return math.Max(0, math.Min(1, r.slipping()/r.card.slipEntry()))
}

// crossedBank leans into the sideslip with the rudder. The heading is let go while the nose swings out, and held as it is then.
func (p *pilot) crossedBank(r *run, s seen) float64 {
	if since := r.slipping(); since > 0 && since < r.card.slipEntry()+slipSwing {
		p.heading = s.heading
	}
	return r.slip.bank*r.slipShare() + p.bankFor(s, p.heading, smallBank)
}
