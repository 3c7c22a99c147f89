package rehearse

// Inputs for derivatives of a quarter-scale model at 1.5 to 1.9 times its stalling speed, whose short period is then at 6 to 10 rad/s and
// whose Dutch roll at 4 to 5.5 rad/s. A doublet of half width w is strongest at 2.3/w, a 3-2-1-1 of unit w about 1.6/w with a wider
// band (both from the transform of the input). Sizes are about a half of what would leave the linear range, so that responses stand
// well above gusts. Sizes: common practice, no source.
const (
	pitchDoublet   = 0.35 // s: 6.6 rad/s
	pitchMultistep = 0.25 // s: 6.4 rad/s
	yawDoublet     = 0.5  // s: 4.6 rad/s
	yawMultistep   = 0.4  // s: 4 rad/s
	rollDoublet    = 0.5  // s: some 15° of bank each way
	rollMultistep  = 0.3  // s

	pitchSize = 3 * degree
	rollSize  = 5 * degree
	yawSize   = 8 * degree

	pitchFree = 4.5 // s hands off behind the elevator: the short period is over and the phugoid has begun
	rollFree  = 3.0 // s behind the ailerons
	yawFree   = 5.5 // s behind the rudder: three to four swings of Dutch roll
)

// inputCard is an input with level flight before it and a free response behind it.
func inputCard(kind Kind, control string, speed, size, width, free float64) Card {
	c := Card{Kind: kind, Speed: speed, Control: control, Size: size, Width: width}
	c.Duration = c.settling() + c.input().length() + free
	return c
}

// TrimAndElevatorCards is the first of three sheets of a programme, for a model with a stalling speed (calibrated, m/s): the steady points of
// TrimCards, and three doublets and two 3-2-1-1 on the elevator at three speeds, each with hands off for 4.5 s behind it.
// Each of the three takes at most eight minutes.
func TrimAndElevatorCards(stallSpeed float64) []Card {
	climb := climbing(stallSpeed)
	climb.Duration = 18
	cards := append(TrimCards(stallSpeed), climb)
	for _, k := range [...]float64{1.55, 1.75} {
		cards = append(cards,
			inputCard(Doublet, "elevator", k*stallSpeed, pitchSize, pitchDoublet, pitchFree),
			inputCard(Multistep, "elevator", k*stallSpeed, pitchSize, pitchMultistep, pitchFree))
	}
	return append(cards, inputCard(Doublet, "elevator", 1.95*stallSpeed, -pitchSize, pitchDoublet, pitchFree))
}

// LateralCards is the second sheet: doublets and 3-2-1-1 on rudder and aileron at two speeds, the rudder's with 5.5 s of free Dutch roll,
// and steady sideslips to both sides with crossed controls.
func LateralCards(stallSpeed float64) []Card {
	var cards []Card
	for i, k := range [...]float64{1.55, 1.8} {
		speed, side := k*stallSpeed, float64(1-2*i)
		slip := func(share float64) Card {
			return Card{Kind: Sideslip, Speed: speed, Duration: 12.5, Size: side * share * yawSize, Crossed: true}
		}
		cards = append(cards,
			climbing(stallSpeed),
			inputCard(Doublet, "rudder", speed, yawSize, yawDoublet, yawFree),
			inputCard(Doublet, "aileron", speed, rollSize, rollDoublet, rollFree),
			slip(1), slip(-1),
			climbing(stallSpeed),
			inputCard(Multistep, "rudder", speed, -yawSize, yawMultistep, yawFree),
			inputCard(Multistep, "aileron", speed, -rollSize, rollMultistep, rollFree),
			slip(-0.7), slip(0.7))
	}
	return cards
}

// SlowAndTurningCards is the third sheet: decelerations at three rates, turns to both sides and pull-ups for the manoeuvre point.
func SlowAndTurningCards(stallSpeed float64) []Card {
	const gentle, steep = 0.65, 0.9 // rad: load factors of 1.26 and 1.6; common practice, no source
	climb := climbing(stallSpeed)
	slow := func(rate float64) Card {
		return Card{Kind: Deceleration, Speed: slowFrom * stallSpeed, Duration: slowFor, Size: rate}
	}
	turn := func(bank float64) Card { return Card{Kind: Turn, Speed: 1.7 * stallSpeed, Duration: 16, Bank: bank} }
	pull := func(k, loadFactor float64) Card {
		return Card{Kind: PullUp, Speed: k * stallSpeed, Duration: 10, Size: loadFactor}
	}
	return []Card{
		climb, slow(1), turn(gentle), turn(-steep), pull(1.7, 1.5),
		climb, slow(0.7), turn(steep), turn(-gentle), pull(1.9, 2),
		climb, slow(1), pull(1.8, 1.75), {Kind: Level, Speed: 1.7 * stallSpeed, Duration: 14},
	}
}
