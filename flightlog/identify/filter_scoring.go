package identify

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// scoring is the search for the noises that make the residuals most likely: Fisher's scoring in the logarithms of the variances,
//
//	gradient   −½ Σ (∂s/s − ν²·∂s/s² + 2ν·∂ν/s)
//	information  Σ (½ ∂s·∂s'/s² + ∂ν·∂ν'/s)
//
// over all innovations ν and their variances s, the derivatives by differences.
//
// Source: Gupta and Mehra, IEEE Transactions on Automatic Control 19, 1974 (from memory).
type scoring struct {
	n           *noises
	f           *gustFilter
	residuals   [][]float64
	innovations [][]float64 // of each segment at the present noises
	variances   []float64   // theirs, of one segment
	moved       []float64   // innovations at other noises
	sums        []float64
	slopes      whitened // of one segment: a row for each noise, ∂s/(√2·s) of all innovations and then ∂ν/√s
}

// estimate improves the noises until they rest.
func (n *noises) estimate(f *gustFilter, residuals [][]float64, floor []float64) {
	s := scoring{n: n, f: f, residuals: residuals, innovations: make([][]float64, len(residuals))}
	n.tune(f)
	cost := s.cost()
	for range noiseRounds {
		gradient, information := s.score()
		for j := range gradient {
			information.SetSym(j, j, information.At(j, j)*1.001+1e-3)
		}
		var factor mat.Cholesky
		step := mat.NewVecDense(len(gradient), nil)
		if !factor.Factorize(information) || factor.SolveVecTo(step, mat.NewVecDense(len(gradient), gradient)) != nil {
			return
		}
		was := n.copy()
		most := 0.0
		share := 1.0
		for range 6 {
			*n = was.copy()
			most = n.move(step.RawVector().Data, share, floor)
			n.tune(f)
			if now := s.cost(); now <= cost {
				cost = now
				break
			}
			share /= 3
		}
		if most < noiseSettled {
			return
		}
	}
}

// cost filters all residuals.
func (s *scoring) cost() float64 {
	sum := 0.0
	for i, r := range s.residuals {
		s.innovations[i] = sized(s.innovations[i], len(r))
		sum += s.f.pass(i, r, s.innovations[i])
	}
	return sum
}

func sized[T any](v []T, n int) []T {
	if cap(v) < n {
		return make([]T, n)
	}
	return v[:n]
}

func (n *noises) copy() noises {
	out := noises{outputs: append([]float64(nil), n.outputs...), flight: n.flight}
	for _, g := range n.levels {
		out.levels = append(out.levels, append([]float64(nil), g...))
	}
	return out
}

// move takes a step in the logarithms, outputs first, and returns the largest change.
func (n *noises) move(step []float64, share float64, floor []float64) float64 {
	most := 0.0
	change := func(v *float64, by, least float64) {
		by = math.Max(-farthest, math.Min(farthest, share*by))
		was := *v
		*v = math.Max(least, was*math.Exp(by))
		most = math.Max(most, math.Abs(math.Log(*v/was)))
	}
	for i := range n.outputs {
		change(&n.outputs[i], step[i], floor[i])
	}
	at := len(n.outputs)
	for f := range n.levels {
		for k := range n.levels[f] {
			change(&n.levels[f][k], step[at], leastLevel*leastLevel)
			at++
		}
	}
	return most
}

// score gives gradient and information at the present noises.
func (s *scoring) score() ([]float64, *mat.SymDense) {
	n := s.n
	outputs, levels := len(n.outputs), len(n.levels[0])
	total := outputs + len(n.levels)*levels
	gradient, information := make([]float64, total), mat.NewSymDense(total, nil)
	local := outputs + levels
	place := make([]int, local)
	for i, r := range s.residuals {
		for a := range local {
			place[a] = a
			if a >= outputs {
				place[a] = outputs + n.flight[i]*levels + a - outputs
			}
		}
		s.segment(i, r, place, gradient, information)
	}
	return gradient, information
}

// segment adds one segment's share. With e = ((1 − ν²/s)/√2, ν/√s), and each noise's row of slopes R = (∂s/(√2·s), ∂ν/√s), the information
// is R·Rᵀ and the gradient −R·e.
func (s *scoring) segment(i int, r []float64, place []int, gradient []float64, information *mat.SymDense) {
	f, n := s.f, s.n
	g, innovations := &f.segments[i], s.innovations[i]
	s.variances = variancesOf(g, s.variances) // f is tuned to the present noises
	s.moved = sized(s.moved, len(r))
	s.slopes.shape(len(place)+1, 2*len(r))
	for a := range place {
		noise, levels := slices.Clone(n.outputs), slices.Clone(n.levels[n.flight[i]])
		if a < f.outputs {
			noise[a] *= 1 + noiseStep
		} else {
			levels[a-f.outputs] *= 1 + noiseStep
		}
		g.tune(f.gusts, levels, noise)
		f.pass(i, r, s.moved)
		row := s.slopes.row(a)
		for k, v := range s.variances {
			row[k] = (g.gains[k].variance - v) / noiseStep / (math.Sqrt2 * v)
			row[len(r)+k] = (s.moved[k] - innovations[k]) / noiseStep / math.Sqrt(v)
		}
	}
	e := s.slopes.residuals()
	for k, v := range s.variances {
		nu := innovations[k]
		e[k], e[len(r)+k] = (1-nu*nu/v)/math.Sqrt2, nu/math.Sqrt(v)
	}
	s.sums = s.slopes.normal(s.sums)
	width := len(place) + 1
	for a, into := range place {
		gradient[into] -= s.sums[a*width+width-1]
		for b := a; b < len(place); b++ {
			j := place[b]
			information.SetSym(into, j, information.At(into, j)+s.sums[a*width+b])
		}
	}
}

func variancesOf(g *gustSegment, into []float64) []float64 {
	into = sized(into, len(g.gains))
	for i := range g.gains {
		into[i] = g.gains[i].variance
	}
	return into
}
