package flightlog

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// gravityAxis looks which of three acceleration columns holds gravity. Loggers lie in models as there is room, so that a
// column called z need not point down: where another axis holds it, the names of the axes are not believed.
func (d *draft) gravityAxis() {
	forces := []Quantity{ForwardAcceleration, RightAcceleration, DownAcceleration}
	middle := map[Quantity]float64{}
	for _, q := range forces {
		i, there := d.taken[q]
		if !there {
			return
		}
		values, _ := d.numbers(i)
		middle[q] = math.Abs(statistic.Median(values))
	}
	rest := math.Max(middle[ForwardAcceleration], middle[RightAcceleration])
	if !(rest > 2*middle[DownAcceleration]) {
		return
	}
	holds := ForwardAcceleration
	if middle[RightAcceleration] > middle[ForwardAcceleration] {
		holds = RightAcceleration
	}
	d.exchange(holds, DownAcceleration, fmt.Sprintf("its middle is %.3g, three times that of the others: this axis holds gravity and points down or up, whatever its name", middle[holds]))
}

// exchange swaps the columns of two quantities; neither name is believed any more.
func (d *draft) exchange(a, b Quantity, why string) {
	i, j := d.taken[a], d.taken[b]
	d.taken[a], d.taken[b] = j, i
	for _, pair := range []struct {
		q  Quantity
		at int
	}{{a, j}, {b, i}} {
		g := &d.guesses[pair.at]
		g.Is, g.strong = pair.q, false
		g.Why += "; " + why
		why = "the other axis took its place"
	}
	d.guesses[i].Why, d.guesses[j].Why = d.guesses[j].Why, d.guesses[i].Why
}

// sortAxes exchanges the columns of two axes where the numbers of each follow what physics gives for the other.
func (d *draft) sortAxes() {
	for _, pair := range [][2]Quantity{{RollRate, PitchRate}, {RollRate, YawRate}, {PitchRate, YawRate}, {ForwardAcceleration, RightAcceleration}} {
		i, ok := d.taken[pair[0]]
		j, ok2 := d.taken[pair[1]]
		if !ok || !ok2 || !d.guesses[i].Mapped || !d.guesses[j].Mapped {
			continue
		}
		follows := func(q Quantity, column int) float64 {
			r := d.relationOf(q, d.si(column, q, Guess{Unit: d.guesses[column].Unit, Sign: 1, Scale: d.guesses[column].Scale}))
			o := compare(r.expected, r.actual)
			if o.moved < r.least {
				return 0
			}
			return math.Abs(o.r)
		}
		own, other := follows(pair[0], i), follows(pair[0], j)
		second := follows(pair[1], i)
		if pair[1] == RightAcceleration {
			second = other // nothing tells about the side force itself
		}
		if own < 0.5 && other > 0.8 && second > 0.8 {
			d.exchange(pair[0], pair[1], fmt.Sprintf("the numbers of this column are those of %s (correlation %.2f), whatever its name", pair[0], other))
		}
	}
}
