package manoeuvre

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// control is one control's deflection on the fast clock.
type control struct {
	clock
	is     flightlog.Quantity
	value  []float64 // rad
	sums   sums      // of value
	moves  []float64 // rad: how far it goes within edgeReach about each instant
	travel float64   // rad, between the extremes that a two-hundredth of the flight exceeds on either side
	wander float64   // rad: median over the flight of its spread within wanderSpan
}

// controls gives elevator, aileron and rudder, those that were recorded.
func controls(rec *flightlog.Recording, k clock) []control {
	var out []control
	for _, q := range [...]flightlog.Quantity{flightlog.Elevator, flightlog.Aileron} {
		if c := rec.Channels[q]; len(c.Time) > 1 && len(c.Time) == len(c.Value) {
			out = append(out, newControl(q, held(c, k), k))
		}
	}
	if q, value := rudder(rec, k); value != nil {
		out = append(out, newControl(q, value, k))
	}
	return out
}

// rudder is the deflection that yaws the model: of one rudder where only that was recorded; the mean of both where they
// move together; else the sum off their medians, since then one works at a time. Both out together, an airbrake,
// cancel.
func rudder(rec *flightlog.Recording, k clock) (flightlog.Quantity, []float64) {
	var sides []control
	for _, q := range [...]flightlog.Quantity{flightlog.RudderLeft, flightlog.RudderRight} {
		if c := rec.Channels[q]; len(c.Time) > 1 && len(c.Time) == len(c.Value) {
			sides = append(sides, control{is: q, value: held(c, k)})
		}
	}
	switch len(sides) {
	case 0:
		return "", nil
	case 1:
		return sides[0].is, sides[0].value
	}
	left, right := sides[0].value, sides[1].value
	var x, y []float64
	for i := range left {
		if statistic.Finite(left[i]) && statistic.Finite(right[i]) {
			x, y = append(x, left[i]), append(y, right[i])
		}
	}
	a, b, share := statistic.Median(x), statistic.Median(y), 1.0
	if statistic.Correlation(x, y) > linkedRudders {
		share = 0.5
	}
	out := empty(k.n)
	for i := range out {
		out[i] = share * ((left[i] - a) + (right[i] - b))
	}
	return sides[0].is, out
}

func newControl(q flightlog.Quantity, value []float64, k clock) control {
	c := control{clock: k, is: q, value: value, sums: newSums(value)}
	c.moves = c.movement()
	all := picked(value, run{0, len(value)})
	c.travel = statistic.Quantile(all, 0.995) - statistic.Quantile(all, 0.005)
	var wanders []float64
	for i, span := 0, c.count(wanderSpan); i+span <= c.n; i += span {
		if w := spread(c.value, run{i, i + span}); !math.IsNaN(w) {
			wanders = append(wanders, w)
		}
	}
	if c.wander = statistic.Median(wanders); len(wanders) == 0 {
		c.wander = 0
	}
	return c
}

// movement is how far the control goes within edgeReach about each instant, between means of three instants.
func (c control) movement() []float64 {
	out := empty(c.n)
	reach := c.count(edgeReach / 2)
	for i := reach + 1; i+reach+2 <= c.n; i++ {
		out[i] = c.sums.mean(i+reach-1, i+reach+2) - c.sums.mean(i-reach-1, i-reach+2)
	}
	return out
}

// least is the smallest step that counts as an input.
func (c control) least() float64 {
	return math.Max(leastStep, math.Max(leastTravel*c.travel, leastWander*c.wander))
}

// edges are the instants at which the control moves fastest, where it moves by more than half the least step. The first
// of equals counts.
func (c control) edges() []int {
	least, reach := c.least()/2, c.count(edgeReach)
	var out []int
	for i := 0; i < c.n; i++ {
		size := math.Abs(c.moves[i])
		if !(size >= least) {
			continue
		}
		top := true
		for j := max(0, i-reach); j < min(c.n, i+reach+1) && top; j++ {
			other := math.Abs(c.moves[j])
			top = !(other > size || other == size && j < i)
		}
		if top {
			out = append(out, i)
		}
	}
	return out
}
