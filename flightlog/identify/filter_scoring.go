package identify

import (
	"math"

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
	n         *noises
	f         *gustFilter
	residuals [][]float64
	base      []float64
	moved     [][]float64
	change    [][]float64 // of variances, by parameter
}

// estimate improves the noises until they rest.
func (n *noises) estimate(f *gustFilter, residuals [][]float64, floor []float64) {
	s := scoring{n: n, f: f, residuals: residuals}
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

func (s *scoring) cost() float64 {
	sum := 0.0
	for i, r := range s.residuals {
		s.base = sized(s.base, len(r))
		sum += s.f.pass(i, r, s.base)
	}
	return sum
}

func sized(v []float64, n int) []float64 {
	if cap(v) < n {
		return make([]float64, n)
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

// segment adds one segment's share.
func (s *scoring) segment(i int, r []float64, place []int, gradient []float64, information *mat.SymDense) {
	f, n := s.f, s.n
	g := &f.segments[i]
	outputs := f.outputs
	s.base = sized(s.base, len(r))
	f.pass(i, r, s.base)
	variance := variancesOf(g, nil)
	if s.moved == nil {
		s.moved, s.change = make([][]float64, len(place)), make([][]float64, len(place))
	}
	for a := range place {
		levels := [2][]float64{append([]float64(nil), n.outputs...), append([]float64(nil), n.levels[n.flight[i]]...)}
		if a < outputs {
			levels[0][a] *= 1 + noiseStep
		} else {
			levels[1][a-outputs] *= 1 + noiseStep
		}
		g.tune(f.gusts, levels[1], levels[0])
		s.moved[a] = sized(s.moved[a], len(r))
		f.pass(i, r, s.moved[a])
		s.change[a] = variancesOf(g, s.change[a])
		for k := range r {
			s.moved[a][k] = (s.moved[a][k] - s.base[k]) / noiseStep
		}
		for k, v := range variance {
			s.change[a][k] = (s.change[a][k] - v) / noiseStep
		}
	}
	g.tune(f.gusts, n.levels[n.flight[i]], n.outputs)
	for k, nu := range s.base {
		v := variance[k]
		for a, into := range place {
			da, na := s.change[a][k]/v, s.moved[a][k]
			gradient[into] -= 0.5 * (da - nu*nu/v*da + 2*nu*na/v)
			for b := a; b < len(place); b++ {
				j := place[b]
				information.SetSym(into, j, information.At(into, j)+0.5*da*s.change[b][k]/v+na*s.moved[b][k]/v)
			}
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
