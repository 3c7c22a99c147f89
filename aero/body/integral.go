package body

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// How fine the strip integral is taken.
const (
	gaussPoints  = 5       // per piece: exact for w² times a polynomial of degree 7
	leastPieces  = 20      // equal shares of the length that no piece exceeds at the start, so that a root chord is not overlooked
	relativeGoal = 1e-9    // change on halving a piece that is let stand, over the integral in free air
	mostHalvings = 48      // down to the spacing of numbers; an edge or a pole of the flow ends there
	mostPieces   = 100_000 // guard against a flow that is noise
)

// strips integrates section(station)² · flow from nose to tail.
//
// Pieces between stations are halved until halving changes nothing, because the flow may jump (edge of a root) or grow
// beyond bounds like 1/√distance (leading edge of a wing). The order of summation depends on the body
// and the flow only. A flow that is not a number makes the sum not a number.
func (b Body) strips(size func(Station) float64, flow Flow) float64 {
	weight := func(x float64) float64 {
		w := size(b.section(x))
		return w * w
	}
	r := newRule()
	free := 0.0
	for i := 1; i < len(b.Stations); i++ {
		free += r.over(weight, b.Stations[i-1].X, b.Stations[i].X)
	}
	if flow == nil {
		return free
	}
	f := func(x float64) float64 { return weight(x) * flow(x) }
	h := halving{rule: r, f: f, goal: relativeGoal * free, left: mostPieces}
	sum := 0.0
	for i := 1; i < len(b.Stations); i++ {
		from, to := b.Stations[i-1].X, b.Stations[i].X
		n := int(math.Ceil(leastPieces * (to - from) / b.Length()))
		for k := range n {
			left := from + (to-from)*float64(k)/float64(n)
			right := from + (to-from)*float64(k+1)/float64(n)
			sum += h.integral(left, right, r.over(f, left, right), mostHalvings)
		}
	}
	return sum
}

// rule is Gauss–Legendre integration on −1 … 1.
type rule struct{ at, weight []float64 }

func newRule() rule {
	r := rule{make([]float64, gaussPoints), make([]float64, gaussPoints)}
	quad.Legendre{}.FixedLocations(r.at, r.weight, -1, 1)
	return r
}

// over integrates f from a to b.
func (r rule) over(f func(float64) float64, a, b float64) float64 {
	sum := 0.0
	for i, t := range r.at {
		sum += r.weight[i] * f((a+b)/2+(b-a)/2*t)
	}
	return sum * (b - a) / 2
}

// halving integrates by bisection.
type halving struct {
	rule rule
	f    func(float64) float64
	goal float64
	left int // halvings that may still be made
}

// integral halves the piece a … b, whose one-piece value is whole, until that changes it by no more than the goal.
func (h *halving) integral(a, b, whole float64, depth int) float64 {
	middle := (a + b) / 2
	first, second := h.rule.over(h.f, a, middle), h.rule.over(h.f, middle, b)
	h.left--
	if depth == 0 || h.left <= 0 || !(math.Abs(first+second-whole) > h.goal) {
		return first + second
	}
	return h.integral(a, middle, first, depth-1) + h.integral(middle, b, second, depth-1)
}
