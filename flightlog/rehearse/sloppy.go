package rehearse

import (
	"math"
	"math/rand/v2"
)

// How far a sloppy pilot departs from a card, as the half-width of a uniform draw.
//
// A stick moves by feel, so its amplitude is off by as much as 40 %, and times counted in the head by 30 %. Airspeed
// is read from an instrument and called out, and a model 40 % slow would not fly at all: 8 % of speed is already 16 % of
// dynamic pressure, and leaves a run planned at 1.25 of the stalling speed above it. A bank is judged from the
// ground: 25 % takes the firmest card from 34° to 43°, a load factor from 1.2 to 1.37. All invented.
const (
	sloppySize  = 0.4
	sloppyTime  = 0.3
	sloppySpeed = 0.08
	sloppyBank  = 0.25
	sloppyStep  = 0.2 // the steps of one input against each other, in size; in length it is sloppyTime
)

// Sloppy gives the cards as a careless pilot would fly them: sizes off by up to 40 %, times by 30 %, banks by 25 %
// and speeds by 8 %; halves and steps of an input uneven in size and length; sticks that slope instead of step, stop for a
// moment at the middle, and tremble by 0.05° to 0.25°. A single step stays within 40 % and 30 % of the card, too.
//
// Limits stay out of the way: the longest times of climbs, circles and decelerations grow and never shrink, and
// circles go full circle or up to 30 % beyond. Of a pull-up the load factor above one is off by 40 %. What a card asks for in words stays: kind, control, direction, order.
// Everything random comes from rng, so that Fly's own stream is not touched.
func Sloppy(cards []Card, rng *rand.Rand) []Card {
	out := make([]Card, len(cards))
	for i, c := range cards {
		out[i] = c.sloppy(rng)
	}
	return out
}

// sloppy draws in the order of the lines.
func (c Card) sloppy(rng *rand.Rand) Card {
	off := func(most float64) float64 { return most * (2*rng.Float64() - 1) }
	rest := c.Duration - c.settling()
	switch c.Kind {
	case Doublet, Multistep:
		rest -= c.input().length()
	case PullUp:
		rest -= c.pull(0).length() + pullRecovery
	}
	size, time, longer := 1+off(sloppySize), 1+off(sloppyTime), 1+sloppyTime*rng.Float64()
	c.Speed *= 1 + off(sloppySpeed)
	c.Bank *= 1 + off(sloppyBank)
	width := 1 + off(sloppyTime)
	c.Width *= width
	if c.Kind == Deceleration && c.Size == 0 {
		c.Size = 1
	}
	if c.Kind == PullUp {
		c.Size = math.Min(greatestPull, 1+(c.Size-1)*size) // the stick goes with the load factor above one
	} else {
		c.Size *= size
	}
	c.Hand = drawHand(c, size, width, rng)
	switch c.Kind {
	case Doublet, Multistep:
		c.Duration = c.settling() + c.input().length() + math.Max(0, rest)*time
	case PullUp:
		c.Duration = c.settling() + c.pull(0).length() + pullRecovery + math.Max(0, rest)*time
	case Climb:
		c.Duration *= longer
	case Circle:
		c.Duration *= longer * longer
		c.Turns = math.Max(c.Turns, 1) * longer
	case Deceleration:
		c.Size = math.Min(c.Size, steepestDeceleration)
		c.Duration *= longer / math.Min(1, size)
	default:
		c.Duration *= time
	}
	return c
}

// drawHand draws the hand for a card whose size and width have been changed by factors.
func drawHand(c Card, size, width float64, rng *rand.Rand) Hand {
	off := func(most float64) float64 { return most * (2*rng.Float64() - 1) }
	// no step is further off the card than its bound, its input's share included
	within := func(common, step, bound float64) float64 {
		return math.Max(1-bound, math.Min(1+bound, common*(1+step)))/common - 1
	}
	h := Hand{Settling: off(sloppyTime)}
	for i := range h.Times {
		h.Times[i] = within(width, off(sloppyTime), sloppyTime)
		h.Sizes[i] = within(size, off(sloppyStep), sloppySize)
	}
	slope, pause := 0.1+0.3*rng.Float64(), rng.Float64()
	h.Slope = slope // s, of a throttle that closes and a rudder that goes in
	if c.Width > 0 {
		h.Slope = slope * c.Width
		if pause < 0.3 { // a third of inputs hesitate, for up to a quarter of their width
			h.Pause = pause / 0.3 * 0.25 * c.Width
		}
	}
	h.Noise = (0.05 + 0.2*rng.Float64()) * degree
	h.Seed = rng.Uint64()
	return h
}
