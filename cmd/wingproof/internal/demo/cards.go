package demo

import "wingproof/flightlog/rehearse"

// cardsOf are what the crew flies in one sortie, for a model with a stalling speed (calibrated, m/s): steady points first, then inputs on
// every control and sideslips, and on some days slow flight, turns and pull-ups.
func cardsOf(s sortie, stall float64) []rehearse.Card {
	cards := rehearse.TrimCards(stall)
	cards = append(cards, inputs(stall)...)
	if s.slow {
		cards = append(cards, slowAndTurning(stall)...)
	}
	return cards
}

// Inputs of the invented crew: half widths and units near what the model answers most to.
const (
	nose, noseWidth, noseUnit = 3 * degree, 0.35, 0.25
	roll, rollWidth           = 5 * degree, 0.5
	yaw, yawWidth, yawUnit    = 8 * degree, 0.5, 0.4
)

func inputs(stall float64) []rehearse.Card {
	climb := rehearse.Card{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 20, Altitude: 135}
	at := func(kind rehearse.Kind, control string, k, size, width, duration float64) rehearse.Card {
		return rehearse.Card{Kind: kind, Speed: k * stall, Duration: duration, Control: control, Size: size, Width: width}
	}
	slip := func(size float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.Sideslip, Speed: 1.6 * stall, Duration: 12.5, Size: size, Crossed: true}
	}
	return []rehearse.Card{
		climb,
		at(rehearse.Doublet, "elevator", 1.6, nose, noseWidth, 9.5), at(rehearse.Multistep, "elevator", 1.75, nose, noseUnit, 10.5),
		at(rehearse.Doublet, "rudder", 1.6, yaw, yawWidth, 11), at(rehearse.Doublet, "aileron", 1.6, roll, rollWidth, 8.5),
		climb,
		at(rehearse.Multistep, "rudder", 1.7, -yaw, yawUnit, 12.5), at(rehearse.Doublet, "aileron", 1.7, -roll, rollWidth, 8.5),
		slip(yaw), slip(-yaw),
	}
}

func slowAndTurning(stall float64) []rehearse.Card {
	climb := rehearse.Card{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 20, Altitude: 135}
	slow := func(rate float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.Deceleration, Speed: 1.4 * stall, Duration: 26, Size: rate}
	}
	turn := func(bank float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.Turn, Speed: 1.7 * stall, Duration: 15, Bank: bank}
	}
	pull := func(k, loadFactor float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.PullUp, Speed: k * stall, Duration: 10, Size: loadFactor}
	}
	return []rehearse.Card{climb, slow(1), turn(0.65), turn(-0.9), pull(1.7, 1.5), climb, slow(0.7), pull(1.9, 2)}
}
