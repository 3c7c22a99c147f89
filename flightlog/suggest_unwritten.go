package flightlog

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// unwritten tries a quantity on a column with neither word nor unit: two things that have nothing to do with each other must speak for
// it, a size that shows by itself and what physics gives from other columns. The guess keeps the correlation in r.
func (d *draft) unwritten(q Quantity, i int, g *Guess) bool {
	u, ok := unit.Lookup(g.Unit, q.Dimension())
	values, _ := d.numbers(i)
	if !ok || len(values) == 0 {
		return false
	}
	least, middle, most := g.Scale*u.SI(statistic.Quantile(values, 0.01)), g.Scale*u.SI(statistic.Median(values)), g.Scale*u.SI(statistic.Quantile(values, 0.99))
	r := relation{is: q, least: math.Inf(1)}
	column := d.si(i, q, *g)
	smooth := func(x []float64, half float64) []float64 { return d.grid.smooth(x, half) }
	switch {
	case q == DownAcceleration && math.Abs(math.Abs(middle)-gravity) < 0.25*gravity:
		r.of, r.least, r.trust = "gravity and what the pitch rate adds to it", 0.3, 0.5
		r.expected, r.actual = smooth(d.loadFactor(), 0.5), smooth(column, 0.5)
	case q == StaticPressure && least > 6e4 && most < 1.08e5:
		r.of, r.least, r.trust = "the altitude", 3, 0.95
		r.expected = smooth(d.series(Altitude), 0.5)
		r.actual = smooth(each(func(v []float64) float64 { return -scaleHeight * math.Log(v[0]/1e5) }, column), 0.5)
	case q == Heading && most-least > 1:
		r.of, r.least, r.trust = "the yaw rate, as a ground track nearly does", 0.03, 0.9
		r.expected, r.actual = smooth(d.series(YawRate), 0.5), d.grid.slope(column, 0.5)
	case q == GroundTrack && most-least > 1:
		r.of, r.least, r.trust = "the heading", 0.03, 0.9
		r.expected, r.actual = d.grid.slope(d.inFlight(d.series(Heading)), 1), d.grid.slope(d.inFlight(column), 1)
	case q == GroundSpeed && least > -1 && most < 130:
		r.of, r.least, r.trust = "the airspeed", 1, 0.7
		r.expected, r.actual = smooth(d.series(Airspeed), 0.5), smooth(column, 0.5)
	case q == Throttle && least > -0.01 && most < 1.01 && most > 0.5:
		r.of, r.least, r.trust, r.signOnly = "gaining height and speed", 0.5, 0.9, true
		r.expected, r.actual = d.energyRate(), smooth(column, 1)
	default:
		return false
	}
	o := compare(r.expected, r.actual)
	size := math.Abs(o.size)
	if o.n == 0 || o.moved < r.least || math.Abs(o.r) < r.trust || !r.signOnly && (size > sizeTolerance || size < 1/sizeTolerance) || !q.hasDirection() && o.r < 0 {
		return false
	}
	g.r = o.r
	g.Why = fmt.Sprintf("no word of the head is known, but its numbers follow %s (correlation %.2f): taken as %s in %s", r.of, math.Abs(o.r), q, g.Unit)
	return true
}

// loadFactor is the force along Z that a path bent by the pitch rate asks for, −(g·cos θ·cos φ + V·q); angles that are not known count
// as nought, and the sign of the pitch rate is that of its column.
func (d *draft) loadFactor() []float64 {
	rate, speed := d.series(PitchRate), d.series(Airspeed)
	if rate == nil || speed == nil {
		return nil
	}
	roll := make([]float64, len(rate))
	if s := d.series(RollAngle); s != nil {
		roll = s
	}
	return each(func(v []float64) float64 {
		if !(v[1] > leastFlying) {
			return math.NaN()
		}
		return -(gravity*math.Cos(v[2]) + v[0]*v[1])
	}, rate, speed, roll)
}
