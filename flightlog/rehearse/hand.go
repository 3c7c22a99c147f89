package rehearse

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// Hand is how a pilot's hand departs from a card. The zero Hand is exact. Sloppy draws plausible ones.
type Hand struct {
	Settling float64    // relative change of the time flown level before an input or a deceleration
	Times    [4]float64 // relative change of the length of each step of an input
	Sizes    [4]float64 // relative change of the size of each step of an input
	Slope    float64    // s that the stick takes from one position to the next
	Pause    float64    // s of hesitation at the middle between the steps of an input
	Noise    float64    // rad: sd of what a restless hand adds to elevator, aileron and rudder
	Seed     uint64     // of the stream behind Noise
}

func (h Hand) check() error {
	if !(h.Slope >= 0 && h.Pause >= 0 && h.Noise >= 0 && h.Settling > -1) {
		return fmt.Errorf("slope %g s, pause %g s, noise %g rad or settling %g of the hand is out of range", h.Slope, h.Pause, h.Noise, h.Settling)
	}
	for i := range h.Times {
		if !(h.Times[i] > -1 && h.Sizes[i] > -1) {
			return fmt.Errorf("step %d of the hand has no length or size: changes %g and %g must be above −1", i+1, h.Times[i], h.Sizes[i])
		}
	}
	return nil
}

// restless is the correlation time of hand noise, s. Invented, of the order of a hand's corrections.
const restless = 0.3

// tremor is hand noise in motion.
type tremor struct {
	rng  *rand.Rand
	sd   float64
	held [3]float64
}

func newTremor(h Hand) tremor {
	t := tremor{sd: h.Noise}
	if t.sd > 0 {
		t.rng = rand.New(rand.NewPCG(h.Seed, 0x7265_6d6f_7200))
	}
	return t
}

// on adds the noise of one step of dt [s] to the commands.
func (t *tremor) on(c commands, dt float64) commands {
	if t.rng == nil {
		return c
	}
	keep := math.Exp(-dt / restless)
	fresh := t.sd * math.Sqrt(1-keep*keep)
	for i := range t.held {
		t.held[i] = keep*t.held[i] + fresh*t.rng.NormFloat64()
	}
	c.elevator += t.held[0]
	c.aileron += t.held[1]
	c.rudder += t.held[2]
	return c
}
