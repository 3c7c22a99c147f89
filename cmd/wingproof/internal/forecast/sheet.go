package forecast

import (
	"fmt"

	"wingproof/aero/atmosphere"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/rehearse"
)

// Sheet is what a flight with the given kinds of manoeuvre holds where no plan says more: five glides and two level runs over the speeds, inputs
// on every control, sideslips, turns and decelerations to both sides or at two rates. steady stands for glides and level runs.
func Sheet(kinds []string) ([]Card, error) {
	var out []Card
	times := func(n int, c Card) {
		for range n {
			out = append(out, c)
		}
	}
	for _, kind := range kinds {
		c := Card{Kind: rehearse.Kind(kind)}
		switch c.Kind {
		case rehearse.Glide:
			times(len(usualSpeeds(rehearse.Glide)), c)
		case rehearse.Level, rehearse.Sideslip, rehearse.Turn, rehearse.Deceleration:
			times(2, c)
		case rehearse.Circle, rehearse.Climb, rehearse.PullUp:
			times(1, c)
		case rehearse.Doublet, rehearse.Multistep:
			for _, control := range [...]string{"elevator", "rudder", "aileron"} {
				c.Control = control
				times(1, c)
			}
		case "steady":
			times(len(usualSpeeds(rehearse.Glide)), Card{Kind: rehearse.Glide})
			times(2, Card{Kind: rehearse.Level})
		default:
			return nil, fmt.Errorf("no manoeuvre %q", kind)
		}
	}
	return out, nil
}

// usualSpeeds of a kind over the stalling speed, as the sheets of rehearse fly them.
func usualSpeeds(kind rehearse.Kind) []float64 {
	switch kind {
	case rehearse.Glide:
		return []float64{1.7, 1.25, 2.2, 1.45, 1.95}
	case rehearse.Level:
		return []float64{1.4, 1.8}
	case rehearse.Deceleration:
		return []float64{1.4}
	case rehearse.Climb, rehearse.Circle:
		return []float64{1.55}
	case rehearse.Turn:
		return []float64{1.7}
	}
	return []float64{1.6, 1.75}
}

// slowestCard is how near to the stalling speed a card may ask the simulated pilot to fly. Gusts of a calm day take a tenth of the speed.
const slowestCard = 1.1

// cardsFor turns what is asked for into cards, climbs between them, for a model with a stalling speed (calibrated, m/s).
func cardsFor(cards []Card, stall float64) ([]rehearse.Card, error) {
	var out []rehearse.Card
	number := map[string]int{}
	for _, c := range cards {
		kind := c.Kind
		if kind == "steady" {
			kind = rehearse.Level
		}
		key := string(kind) + c.Control
		n := number[key]
		number[key]++
		speed := c.Speed
		if speed == 0 {
			speeds := usualSpeeds(kind)
			speed = speeds[n%len(speeds)] * stall
		}
		if speed < slowestCard*stall {
			return nil, &study.InputError{What: fmt.Sprintf("a %s at %.1f m/s is too slow: the model is believed to stall at %.1f m/s", kind, speed, stall),
				Right: fmt.Sprintf("plan it at %.1f m/s or faster", slowestCard*stall)}
		}
		one, err := rehearse.Usual(kind, c.Control, speed, c.Bank, n)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return rehearse.WithClimbs(out, stall), nil
}

// StallingSpeed is that of the model in the rehearsals (calibrated, m/s): what cards without a speed are flown by.
func StallingSpeed(st *study.Study, levels map[string]string) (float64, error) {
	r := rehearsal{study: st, scales: scalesOf(st)}
	c, err := configurationOf(st, levels)
	if err != nil {
		return 0, err
	}
	ac, err := r.model(c, c.Derivatives.MomentPoint, r.scales.cgZ, r.scales.body)
	return ac.StallSpeed(atmosphere.SeaLevelDensity), err
}
