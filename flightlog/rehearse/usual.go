package rehearse

import "fmt"

// Sizes of cards whose plan does not give them. Invented, like those of the sheets.
const (
	glideFor    = 20.0 // s
	levelFor    = 18.0
	turnFor     = 16.0
	circleFor   = 75.0
	sideslipFor = 12.5
	usualTurn   = 0.65 // rad of bank
	usualCircle = 0.45
)

// Usual is a card of a kind as the sheets fly it, at a calibrated speed [m/s]. control is that of a doublet or a multistep, bank [rad] that of
// a turn or a circle; 0 is the usual bank. Every other one, by its number, goes to the other side.
func Usual(kind Kind, control string, speed, bank float64, number int) (Card, error) {
	side := float64(1 - 2*(number%2))
	at := Card{Kind: kind, Speed: speed}
	switch kind {
	case Glide:
		at.Duration = glideFor
	case Level:
		at.Duration = levelFor
	case Climb:
		at.Duration, at.Altitude = climbing(speed).Duration, ceiling
	case Turn, Circle:
		at.Duration, at.Bank = turnFor, side*usualTurn
		if kind == Circle {
			at.Duration, at.Bank = circleFor, side*usualCircle
		}
		if bank != 0 {
			at.Bank = bank
		}
	case Sideslip:
		at.Duration, at.Size, at.Crossed = sideslipFor, side*yawSize, true
	case Deceleration:
		at.Duration, at.Size = slowFor, 1-0.15*float64(number%3) // gentler ones tell how much the rate matters
	case PullUp:
		at.Duration, at.Size = 10, 1.5
	case Doublet, Multistep:
		return usualInput(kind, control, speed, side)
	default:
		return at, fmt.Errorf("rehearse: kind %q has no usual card", kind)
	}
	return at, at.check()
}

// usualInput has the sizes and widths of the sheets of a programme.
func usualInput(kind Kind, control string, speed, side float64) (Card, error) {
	type of struct{ size, doublet, multistep, free float64 }
	u, ok := map[string]of{
		"elevator": {pitchSize, pitchDoublet, pitchMultistep, pitchFree},
		"aileron":  {rollSize, rollDoublet, rollMultistep, rollFree},
		"rudder":   {yawSize, yawDoublet, yawMultistep, yawFree},
	}[control]
	if !ok {
		return Card{}, fmt.Errorf("rehearse: control %q; write elevator, aileron or rudder", control)
	}
	width := u.doublet
	if kind == Multistep {
		width = u.multistep
	}
	c := inputCard(kind, control, speed, side*u.size, width, u.free)
	return c, c.check()
}

// cardsAClimb is how many cards in a row are flown from one height: inputs, sideslips and turns lose some.
const cardsAClimb = 4

// WithClimbs puts climbs between cards, for a model with a stalling speed (calibrated, m/s): before every glide and every deceleration, at the
// beginning, and wherever four other cards have gone by.
func WithClimbs(cards []Card, stallSpeed float64) []Card {
	var out []Card
	since := cardsAClimb
	for _, c := range cards {
		if c.Kind == Climb {
			since = 0
			out = append(out, c)
			continue
		}
		if lower := c.Kind == Glide || c.Kind == Deceleration; lower || since >= cardsAClimb {
			out = append(out, climbing(stallSpeed))
			since = 0
		}
		out = append(out, c)
		if since++; c.Kind == Glide || c.Kind == Deceleration {
			since = cardsAClimb
		}
	}
	return out
}
