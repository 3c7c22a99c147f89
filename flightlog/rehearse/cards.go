package rehearse

import "fmt"

// Kind is what a card asks of the pilot.
type Kind string

// The kinds of card.
const (
	Climb    Kind = "climb"    // full throttle at a speed until Altitude or Duration; turns home on the way
	Level    Kind = "level"    // height held by elevator, speed by throttle
	Glide    Kind = "glide"    // throttle closed, speed held by elevator
	Turn     Kind = "turn"     // level turn at Bank
	Sideslip Kind = "sideslip" // level, rudder held at Size, heading held by bank
	Doublet  Kind = "doublet"  // level, then Size and −Size for Width each on Control, then hands off
)

// Card is one entry of a test sheet.
type Card struct {
	Kind     Kind
	Speed    float64 // calibrated airspeed, m/s
	Duration float64 // s; the longest for a climb; turning onto the heading is not counted
	Altitude float64 // m above the field; a climb ends there; 0 means 135 m
	Bank     float64 // rad, turn; positive right
	Control  string  // doublet: elevator, aileron or rudder
	Size     float64 // doublet, sideslip: deflection in rad
	Width    float64 // doublet: length of each half in s
}

// The band of heights that a flight keeps to, m above the field.
const (
	ceiling = 135.0
	floor   = 45.0
)

// settling is how long a doublet card flies level before the input, s.
const settling = 4.0

func (c Card) check() error {
	if !(c.Speed > 0 && c.Duration > 0) {
		return fmt.Errorf("speed %g m/s and duration %g s must be positive", c.Speed, c.Duration)
	}
	switch c.Kind {
	case Climb, Level, Glide:
		return nil
	case Turn:
		if !(c.Bank > -1.1 && c.Bank < 1.1 && c.Bank != 0) {
			return fmt.Errorf("bank %g rad is not between −1.1 and 1.1, zero excluded", c.Bank)
		}
		return nil
	case Sideslip:
		return nil
	case Doublet:
		switch c.Control {
		case "elevator", "aileron", "rudder":
		default:
			return fmt.Errorf("control %q; write elevator, aileron or rudder", c.Control)
		}
		if !(c.Width > 0 && c.Duration >= settling+2*c.Width) {
			return fmt.Errorf("a doublet of two halves of %g s does not fit into %g s; level flight before it takes %g s", c.Width, c.Duration, settling)
		}
		return nil
	}
	return fmt.Errorf("kind %q; write climb, level, glide, turn, sideslip or doublet", c.Kind)
}

// TrimCards is a sheet of steady points for a model with a stalling speed (calibrated, m/s): five glides
// from 1.25 to 2.2 times that speed, each after a climb, and two level runs. It takes at most six
// minutes.
func TrimCards(stallSpeed float64) []Card {
	climb := Card{Kind: Climb, Speed: 1.55 * stallSpeed, Duration: 24, Altitude: ceiling}
	var cards []Card
	for i, k := range [...]float64{1.7, 1.25, 2.2, 1.45, 1.95} {
		cards = append(cards, climb, Card{Kind: Glide, Speed: k * stallSpeed, Duration: 20})
		if i == 1 {
			cards = append(cards, Card{Kind: Level, Speed: 1.4 * stallSpeed, Duration: 18})
		}
	}
	return append(cards, Card{Kind: Level, Speed: 1.8 * stallSpeed, Duration: 18})
}
