package estimate

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// leastToTell is the number of flights from which it can be told which of them is off.
const leastToTell = 3

// farLimit is the distance from the other flights, in standard deviations that stand on so many degrees of freedom, from which a
// flight is played down: as rare as outlierFrom is with a known standard deviation.
func farLimit(degrees float64) float64 {
	if degrees > 1e6 {
		return outlierFrom
	}
	tail := distuv.UnitNormal.CDF(-outlierFrom)
	return -distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degrees}.Quantile(tail)
}

// playDownFlights multiplies the weight of a flight that lies z standard deviations from the mean of the others, z over
// farLimit, by (limit/z)², the farthest first. Nothing is left out. Two flights cannot tell which of them is off. The standard deviation is
// the pooled one, or, without a pool, what the other flights show.
//
// Source: the weights are those of playDown; leaving the flight out of its own yardstick, R. D. Cook and S. Weisberg, Residuals and
// Influence in Regression, Chapman and Hall 1982, section 2.2 (from memory).
func playDownFlights(values []flightValue, pooled flightScatter) []flightValue {
	if pooled.degrees > float64(len(values)-1) && pooled.factor > 0 {
		return playDownWith([][]flightValue{values}, func([][]flightValue) flightScatter { return pooled })[0]
	}
	return playDownPool([][]flightValue{values})[0]
}

// playDownPool is playDownFlights for all configurations at once: the yardstick is the scatter of all the others.
func playDownPool(sets [][]flightValue) [][]flightValue { return playDownWith(sets, estimateFlights) }

func playDownWith(sets [][]flightValue, yardstick func([][]flightValue) flightScatter) [][]flightValue {
	out := make([][]flightValue, len(sets))
	for i, values := range sets {
		out[i] = append([]flightValue(nil), values...)
	}
	for {
		i, j := farthest(out, yardstick(out))
		if i < 0 {
			return out
		}
		rest := append([]flightValue(nil), out[i][:j]...)
		rest = append(rest, out[i][j+1:]...)
		others := append([][]flightValue(nil), out...)
		others[i] = rest
		c := yardstick(others)
		if c.degrees < 1 || c.factor <= 0 {
			return out
		}
		z := distanceFrom(out[i][j], rest, c)
		limit := farLimit(c.degrees)
		if !(z > limit) || math.IsInf(z, 0) {
			return out
		}
		out[i][j].weight, out[i][j].distance = square(limit/z), z
	}
}

// farthest is the flight of full weight that lies farthest from its set's mean for its leverage, among sets that can tell.
func farthest(sets [][]flightValue, c flightScatter) (set, place int) {
	set, place = -1, -1
	most := 0.0
	for i, values := range sets {
		if len(values) < leastToTell {
			continue
		}
		m, total, _ := weighted(values, c)
		for j, v := range values {
			own := c.of(v)
			left := own - 1/total
			if v.weight < 1 || left <= 1e-12*own {
				continue
			}
			if z := math.Abs(v.value-m) / math.Sqrt(left); z > most {
				set, place, most = i, j, z
			}
		}
	}
	return set, place
}

// distanceFrom is how many standard deviations a flight lies from the mean of the others.
func distanceFrom(v flightValue, others []flightValue, c flightScatter) float64 {
	m, total, _ := weighted(others, c)
	return math.Abs(v.value-m) / math.Sqrt(c.factor*(c.of(v)+1/total))
}
