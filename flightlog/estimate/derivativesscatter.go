package estimate

import (
	"math"

	"wingproof/flightlog/identify"
)

// DerivativeScatter is how much flights disagree about each derivative beyond what their fits state, estimated over all
// configurations of a program.
type DerivativeScatter struct {
	scatter map[string]flightScatter
	sets    map[string][]poolSet // by quantity, in the order of the configurations
}

// poolSet is what one configuration says about a quantity in one power state.
type poolSet struct {
	configuration int
	power         string
	values        []flightValue
}

// PoolDerivatives estimates the scatter between flights from all configurations of a program together, one slice a configuration in
// a fixed order. Each configuration and power state keeps its own mean, so nothing of the values is pooled, only the scatter about
// them. Degrees of freedom are flights minus one, summed.
func PoolDerivatives(configurations [][]identify.Fit) *DerivativeScatter {
	out := &DerivativeScatter{scatter: map[string]flightScatter{}, sets: map[string][]poolSet{}}
	for i, fits := range configurations {
		for _, s := range append(collect(fits, nil), marginSets(fits, 0)...) {
			if s.apart <= sameCG && len(s.values) > 0 {
				out.sets[s.quantity] = append(out.sets[s.quantity], poolSet{i, s.power, s.values})
			}
		}
	}
	for quantity, sets := range out.sets { // each entry on its own: the order of the map reaches nothing
		var values [][]flightValue
		for _, s := range sets {
			values = append(values, s.values)
		}
		values = playDownPool(values)
		for i := range sets {
			sets[i].values = values[i]
		}
		out.scatter[quantity] = estimateFlights(values)
	}
	return out
}

// Between is the standard deviation of a quantity between flights beyond what their fits state, factor is φ, by which those
// variances are multiplied, degrees the degrees of freedom behind both; NaN and 0 where no configuration was flown twice.
func (s *DerivativeScatter) Between(quantity string) (sd, factor, degrees float64) {
	c := s.of(quantity)
	if c.degrees <= 0 {
		return math.NaN(), math.NaN(), 0
	}
	return math.Sqrt(c.between * c.factor), c.factor, c.degrees
}

// of is the component of a quantity; that of no scatter at all has no degrees of freedom.
func (s *DerivativeScatter) of(quantity string) flightScatter {
	if s == nil {
		return flightScatter{}
	}
	return s.scatter[quantity]
}
