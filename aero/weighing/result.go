package weighing

import (
	"cmp"
	"math"
	"slices"
)

// Quantity is a result of a weighing.
type Quantity string

// The results, in the order in which they are reported.
const (
	Mass Quantity = "mass"
	CGX  Quantity = "cg_x"
	CGY  Quantity = "cg_y"
	CGZ  Quantity = "cg_z"
	Ix   Quantity = "ix"
	Iy   Quantity = "iy"
	Iz   Quantity = "iz"
	Ixz  Quantity = "ixz"
)

func quantities() []Quantity { return []Quantity{Mass, CGX, CGY, CGZ, Ix, Iy, Iz, Ixz} }

// Number is one result.
type Number struct {
	Quantity Quantity
	Value    float64 // kg, m at model size, kg·m²
	SD       float64
	Air      float64 // what was taken off for the air that swings along; 0 for mass and CG
	Parts    []Part  // what the standard deviation is made of, largest first
}

// Part is what one input adds to the standard deviation of a result.
type Part struct {
	Source  Source
	Input   float64 // the input itself, SI
	InputSD float64 // its standard deviation
	SD      float64 // signed: what one standard deviation of the input does to the result
}

// Share is the part of the variance that comes from one input, 0 to 1.
func (n Number) Share(p Part) float64 {
	if n.SD == 0 {
		return 0
	}
	return p.SD * p.SD / (n.SD * n.SD)
}

// Covariance of two results of one weighing: the sum over the inputs that both rest on.
func Covariance(a, b Number) float64 {
	var sum float64
	for _, p := range a.Parts {
		for _, q := range b.Parts {
			if p.Source == q.Source {
				sum += p.SD * q.SD
			}
		}
	}
	return sum
}

// leastFactor is how far a reading's error may be asked to come down: to less than a quarter is another instrument, not more care.
const leastFactor = 0.25

// Halving names the fewest inputs whose errors, all brought down by one factor, halve the standard deviation of the result; largest
// part first. The air's estimate and the gravity of the place cannot be bettered by reading anything. nil: no bettering by a factor of up to four does it.
func (n Number) Halving() (inputs []Part, factor float64) {
	goal, group, rest := n.SD*n.SD/4, 0.0, n.SD*n.SD
	for _, p := range n.Parts {
		if p.Source.Kind == AirEstimate || p.Source.Kind == LocalGravity {
			continue
		}
		inputs = append(inputs, p)
		group += p.SD * p.SD
		rest -= p.SD * p.SD
		if left := goal - math.Max(0, rest); left > 0 && left >= leastFactor*leastFactor*group {
			return inputs, math.Sqrt(left / group)
		}
	}
	return nil, 0
}

// Swung is the inertia that one swing gave, about its own axis through the CG.
type Swung struct {
	Name   string
	Number // Quantity is empty
	Arm    float64
	Period float64 // s, of vanishing swings
}

// Result is what a session gave.
type Result struct {
	Numbers  []Number // of those that follow from the readings
	Swings   []Swung
	Missing  []string // what would give the others
	Warnings []string
}

// Number finds a result.
func (r Result) Number(q Quantity) (Number, bool) {
	for _, n := range r.Numbers {
		if n.Quantity == q {
			return n, true
		}
	}
	return Number{}, false
}

// number collects one result from its propagated parts.
func (p *plan) number(q Quantity, value float64, parts []float64) Number {
	n := Number{Quantity: q, Value: value, SD: math.Sqrt(sumOfSquares(parts))}
	for i, part := range parts {
		if part == 0 {
			continue
		}
		n.Parts = append(n.Parts, Part{p.sources[i], p.values[i], p.sds[i], part})
		if entry(i) == p.air {
			n.Air = -part / p.sds[i] * p.values[i] // results are linear in the estimate
		}
	}
	slices.SortStableFunc(n.Parts, func(a, b Part) int { return cmp.Compare(math.Abs(b.SD), math.Abs(a.SD)) })
	return n
}
