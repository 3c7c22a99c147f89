package rehearse

import "fmt"

// Kind is what a card asks of the pilot.
type Kind string

// The kinds of card.
const (
	Climb        Kind = "climb"        // full throttle at a speed until Altitude or Duration; turns home on the way
	Level        Kind = "level"        // height held by elevator, speed by throttle
	Glide        Kind = "glide"        // throttle closed, speed held by elevator
	Turn         Kind = "turn"         // level turn at Bank
	Circle       Kind = "circle"       // level turn at Bank through Turns full circles, to see the wind from all sides
	Sideslip     Kind = "sideslip"     // level, rudder held at Size, heading held by bank
	PullUp       Kind = "pull_up"      // level, then the elevator step that brings Size load factors, held for Width, then level again
	Doublet      Kind = "doublet"      // level, then Size and −Size for Width each on Control, then hands off
	Multistep    Kind = "multistep"    // level, then Size, −Size, Size, −Size for 3, 2, 1 and 1 Width on Control, then hands off
	Deceleration Kind = "deceleration" // level at Speed, then throttle closed and Size slower each second until the nose drops
)

// Card is one entry of a test sheet.
type Card struct {
	Kind     Kind
	Speed    float64 // calibrated airspeed, m/s; a deceleration begins there
	Duration float64 // s; the longest for a climb, a circle and a deceleration; turning onto the heading is not counted
	Altitude float64 // m above the field; a climb ends there; 0 means 135 m
	Bank     float64 // rad, turn and circle; positive right
	Turns    float64 // circle: how many full circles; 0 means one
	Control  string  // doublet, multistep: elevator, aileron or rudder
	Size     float64 // doublet, multistep, sideslip: deflection in rad; deceleration: m/s per s, 0 means 1; pull-up: load factor
	Width    float64 // doublet: length of each half in s; multistep: of the shortest step; pull-up: of the step, 0 means 1.5 s
	Crossed  bool    // sideslip: level first, then rudder together with the bank and the aileron that balance it; else the bank follows the heading
	Hand     Hand    // how the pilot departs from the card; the zero Hand does not
}

// The band of heights that a flight keeps to, m above the field.
const (
	ceiling = 135.0
	floor   = 45.0
)

// settling is how long a card with an input or a deceleration flies level before it, s.
const settling = 4.0

// settling of this card by this pilot, s.
func (c Card) settling() float64 { return settling * (1 + c.Hand.Settling) }

func (c Card) check() error {
	if !(c.Speed > 0 && c.Duration > 0) {
		return fmt.Errorf("speed %g m/s and duration %g s must be positive", c.Speed, c.Duration)
	}
	if err := c.Hand.check(); err != nil {
		return err
	}
	switch c.Kind {
	case Climb, Level, Glide, Sideslip:
		return c.checkCrossed()
	case PullUp:
		return c.checkPullUp()
	case Turn, Circle:
		if !(c.Bank > -1.1 && c.Bank < 1.1 && c.Bank != 0) {
			return fmt.Errorf("bank %g rad is not between −1.1 and 1.1, zero excluded", c.Bank)
		}
		if !(c.Turns >= 0) {
			return fmt.Errorf("%g turns; write 0 for one, or a positive number", c.Turns)
		}
		return nil
	case Doublet, Multistep:
		return c.checkInput()
	case Deceleration:
		if !(c.Size >= 0 && c.Size <= steepestDeceleration) {
			return fmt.Errorf("a deceleration of %g m/s per second is not between 0 (for 1) and %g", c.Size, steepestDeceleration)
		}
		if !(c.Duration > c.settling()) {
			return fmt.Errorf("%g s leave no time to slow down; level flight before it takes %g s", c.Duration, c.settling())
		}
		return nil
	}
	return fmt.Errorf("kind %q; write climb, level, glide, turn, circle, sideslip, pull_up, doublet, multistep or deceleration", c.Kind)
}

// checkInput looks at what a doublet and a multistep share.
func (c Card) checkInput() error {
	switch c.Control {
	case "elevator", "aileron", "rudder":
	default:
		return fmt.Errorf("control %q; write elevator, aileron or rudder", c.Control)
	}
	if !(c.Width > 0) {
		return fmt.Errorf("width %g s is not positive", c.Width)
	}
	if length := c.input().length(); !(c.Duration >= c.settling()+length) {
		return fmt.Errorf("a %s of %g s does not fit into %g s; level flight before it takes %g s", c.Kind, length, c.Duration, c.settling())
	}
	return nil
}
