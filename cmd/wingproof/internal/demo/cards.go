package demo

import "wingproof/flightlog/rehearse"

// cardsOf are what the crew flies in one sortie, for a model with a stalling speed (calibrated, m/s): steady points first, then inputs on
// every control and sideslips, and on some days slow flight, turns and pull-ups. Every card stays at 1.25 times the stalling speed and more, but
// for the decelerations.
func cardsOf(s sortie, stall float64) []rehearse.Card {
	cards := steady(stall)
	cards = append(cards, inputs(stall)...)
	if s.slow {
		cards = append(cards, slowAndTurning(stall)...)
	}
	return cards
}

// highest is where climbs end, m above the field: the highest that the crew sees the model's attitude from.
const highest = 135

// steady are five glides, the fast ones shorter since they sink by 6 m/s, each after a climb, and two level runs.
func steady(stall float64) []rehearse.Card {
	climb := rehearse.Card{Kind: rehearse.Climb, Speed: 1.35 * stall, Duration: 22, Altitude: highest}
	level := func(k float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.Level, Speed: k * stall, Duration: 18}
	}
	var cards []rehearse.Card
	for _, glide := range [...]struct{ k, duration float64 }{{1.55, 18}, {1.25, 20}, {1.85, 16}, {1.4, 20}, {1.7, 17}} {
		cards = append(cards, climb, rehearse.Card{Kind: rehearse.Glide, Speed: glide.k * stall, Duration: glide.duration})
		if glide.k == 1.25 {
			cards = append(cards, level(1.3))
		}
	}
	return append(cards, level(1.65))
}

// Inputs of the invented crew: half widths and units near what the model answers most to.
const (
	nose, noseWidth, noseUnit = 3 * degree, 0.30, 0.22
	roll, rollWidth           = 5 * degree, 0.4
	yaw, yawWidth, yawUnit    = 8 * degree, 0.45, 0.35
)

func inputs(stall float64) []rehearse.Card {
	climb := rehearse.Card{Kind: rehearse.Climb, Speed: 1.35 * stall, Duration: 20, Altitude: highest}
	at := func(kind rehearse.Kind, control string, k, size, width, duration float64) rehearse.Card {
		return rehearse.Card{Kind: kind, Speed: k * stall, Duration: duration, Control: control, Size: size, Width: width}
	}
	slip := func(size float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.Sideslip, Speed: 1.4 * stall, Duration: 12.5, Size: size, Crossed: true}
	}
	return []rehearse.Card{
		climb,
		at(rehearse.Doublet, "elevator", 1.4, nose, noseWidth, 9.5), at(rehearse.Multistep, "elevator", 1.55, nose, noseUnit, 10.5),
		at(rehearse.Doublet, "rudder", 1.4, yaw, yawWidth, 11), at(rehearse.Doublet, "aileron", 1.4, roll, rollWidth, 8.5),
		climb,
		at(rehearse.Multistep, "rudder", 1.5, -yaw, yawUnit, 12.5), at(rehearse.Doublet, "aileron", 1.5, -roll, rollWidth, 8.5),
		slip(yaw), slip(-yaw),
	}
}

func slowAndTurning(stall float64) []rehearse.Card {
	climb := rehearse.Card{Kind: rehearse.Climb, Speed: 1.35 * stall, Duration: 20, Altitude: highest}
	slow := func(rate float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.Deceleration, Speed: 1.4 * stall, Duration: 26, Size: rate}
	}
	turn := func(bank float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.Turn, Speed: 1.6 * stall, Duration: 15, Bank: bank}
	}
	pull := func(k, loadFactor float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.PullUp, Speed: k * stall, Duration: 10, Size: loadFactor}
	}
	return []rehearse.Card{climb, slow(1), turn(0.65), turn(-0.9), pull(1.6, 1.5), climb, slow(0.7), pull(1.8, 2)}
}
