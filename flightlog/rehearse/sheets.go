package rehearse

// TrimCards is a sheet of steady points for a model with a stalling speed (calibrated, m/s): five glides
// from 1.25 to 2.2 times that speed, each after a climb, and two level runs. It takes at most six
// minutes.
func TrimCards(stallSpeed float64) []Card {
	climb := climbing(stallSpeed)
	var cards []Card
	for i, k := range [...]float64{1.7, 1.25, 2.2, 1.45, 1.95} {
		cards = append(cards, climb, Card{Kind: Glide, Speed: k * stallSpeed, Duration: 20})
		if i == 1 {
			cards = append(cards, Card{Kind: Level, Speed: 1.4 * stallSpeed, Duration: 18})
		}
	}
	return append(cards, Card{Kind: Level, Speed: 1.8 * stallSpeed, Duration: 18})
}

// ManoeuvreCards are the sheets of three flights with most kinds of card, for a model with a stalling speed (calibrated,
// m/s): inputs on every control; turns, circles and sideslips to both sides; glides, level runs and decelerations.
// Each takes at most eight minutes.
func ManoeuvreCards(stallSpeed float64) [][]Card {
	return [][]Card{inputCards(stallSpeed), turningCards(stallSpeed), slowCards(stallSpeed)}
}

// Sizes and widths of inputs for a quarter-scale model whose short period and Dutch roll last one to two seconds. Invented.
const (
	elevatorStep = 3 * degree
	aileronStep  = 4 * degree
	rudderStep   = 8 * degree
	halfWidth    = 0.5 // s, of a doublet
	unitWidth    = 0.3 // s, of a multistep
)

// inputCards has doublets and multisteps on every control, at three speeds.
func inputCards(stallSpeed float64) []Card {
	var cards []Card
	for _, k := range [...]float64{1.5, 1.8, 1.65} {
		cards = append(cards, climbing(stallSpeed))
		for _, control := range [...]struct {
			name string
			size float64
		}{{"elevator", elevatorStep}, {"aileron", aileronStep}, {"rudder", rudderStep}} {
			cards = append(cards,
				Card{Kind: Doublet, Speed: k * stallSpeed, Duration: 9, Control: control.name, Size: control.size, Width: halfWidth},
				Card{Kind: Multistep, Speed: k * stallSpeed, Duration: 10, Control: control.name, Size: control.size, Width: unitWidth})
		}
	}
	return cards
}

// turningCards has turns, circles and sideslips, left and right, with a level run and a glide between.
func turningCards(stallSpeed float64) []Card {
	const gentle, firm = 0.45, 0.6 // rad, common practice, no source
	speed := 1.55 * stallSpeed
	cards := []Card{climbing(stallSpeed)}
	for _, side := range [...]float64{1, -1} {
		cards = append(cards,
			Card{Kind: Circle, Speed: speed, Duration: 60, Bank: side * gentle},
			Card{Kind: Sideslip, Speed: speed, Duration: 14, Size: side * rudderStep},
			Card{Kind: Sideslip, Speed: speed, Duration: 14, Size: -side * 1.2 * rudderStep},
			Card{Kind: Turn, Speed: 1.1 * speed, Duration: 14, Bank: -side * firm},
			Card{Kind: Level, Speed: speed, Duration: 16},
			Card{Kind: Glide, Speed: speed, Duration: 14},
			climbing(stallSpeed))
	}
	return cards[:len(cards)-1]
}

// How decelerations on the sheets begin, over the stalling speed, and how long they may take, s.
const (
	slowFrom = 1.4
	slowFor  = 26.0
)

// slowCards has decelerations, glides and level runs.
func slowCards(stallSpeed float64) []Card {
	slow := Card{Kind: Deceleration, Speed: slowFrom * stallSpeed, Duration: slowFor, Size: 1}
	slower := slow
	slower.Size = 0.7
	level := func(k float64) Card { return Card{Kind: Level, Speed: k * stallSpeed, Duration: 16} }
	glide := func(k float64) Card { return Card{Kind: Glide, Speed: k * stallSpeed, Duration: 18} }
	climb := climbing(stallSpeed)
	return []Card{
		climb, glide(1.5), climb, slow, level(1.5), slower,
		climb, glide(1.9), climb, slow, level(1.8), glide(1.35), climb, slower,
	}
}

// climbing leads back up between runs.
func climbing(stallSpeed float64) Card {
	return Card{Kind: Climb, Speed: 1.55 * stallSpeed, Duration: 24, Altitude: ceiling}
}
