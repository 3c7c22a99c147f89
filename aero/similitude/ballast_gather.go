package similitude

import "math"

// gathered is the cost that one lump in a tray may have over several: a third of a percent of one inertia. Common practice, no source.
const gathered = 0.1

// gather puts the ballast of a tray into one lump at its common centre, to the millimetre, where that hardly costs anything:
// mass and CG stay, and only the inertia of its spread is lost. A shop rather fixes one lump than three.
func (b Ballasting) gather(at []spot, masses []float64) ([]spot, []float64) {
	for bay := range b.Bays {
		one, own := b.oneLump(at, masses, bay)
		if len(own) >= len(masses) || b.cost(b.Now.with(one, own)) > b.cost(b.Now.with(at, masses))+gathered {
			continue
		}
		at, masses = one, own
	}
	return at, masses
}

// oneLump are the places with those of one bay drawn together.
func (b Ballasting) oneLump(at []spot, masses []float64, bay int) ([]spot, []float64) {
	var places []spot
	var own []float64
	sum, moment, first := 0.0, 0.0, -1
	for i, s := range at {
		if s.bay != bay {
			places, own = append(places, s), append(own, masses[i])
			continue
		}
		if first < 0 {
			first = len(places)
			places, own = append(places, s), append(own, 0)
		}
		sum, moment = sum+masses[i], moment+masses[i]*s.x
	}
	if first >= 0 && sum > 0 {
		x := math.Round(1000*moment/sum) / 1000
		places[first].x, own[first] = math.Max(b.Bays[bay].From, math.Min(b.Bays[bay].To, x)), sum
	}
	return places, own
}
