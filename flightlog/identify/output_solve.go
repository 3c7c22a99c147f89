package identify

import (
	"gonum.org/v1/gonum/mat"
)

// equations are the normal equations of all segments with each segment's own parameters eliminated.
type equations struct {
	common   int
	reduced  *mat.SymDense // of the common parameters
	right    *mat.VecDense
	segments []segmentEquations
	dead     []bool // common parameters that change no output at all
}

// segmentEquations are those of one segment: own by own, own by common, and their right side.
type segmentEquations struct {
	factor mat.Cholesky
	cross  *mat.Dense
	right  *mat.VecDense
	ok     bool
}

// deadShare is the share of information below which a column counts as zero: round-off. Derived from float64.
const deadShare = 1e-18

// equate sets up the equations from the sums of each segment, with prior knowledge and Levenberg's damping.
func (p *problem) equate(sums [][]float64, damping float64) *equations {
	n := p.commons()
	e := &equations{common: n, reduced: mat.NewSymDense(n, nil), right: mat.NewVecDense(n, nil), segments: make([]segmentEquations, len(p.tracks)), dead: make([]bool, n)}
	for i, t := range p.tracks {
		width := n + len(t.own) + 1
		for a := range n {
			for b := a; b < n; b++ {
				e.reduced.SetSym(a, b, e.reduced.At(a, b)+sums[i][a*width+b])
			}
			e.right.SetVec(a, e.right.AtVec(a)+sums[i][a*width+width-1])
		}
	}
	for j := range n {
		information := e.reduced.At(j, j)
		if known := p.knownOf(j); known.sd > 0 {
			information += 1 / (known.sd * known.sd)
			e.right.SetVec(j, e.right.AtVec(j)-(p.common[j]-known.mean)/(known.sd*known.sd))
		}
		information *= 1 + damping
		if e.dead[j] = !(information > deadShare); e.dead[j] {
			information = 1
		}
		e.reduced.SetSym(j, j, information)
	}
	for i := range p.tracks {
		p.eliminate(e, i, sums[i], damping)
	}
	return e
}

// eliminate takes a segment's own parameters out of the common equations: the Schur complement.
func (p *problem) eliminate(e *equations, segment int, sum []float64, damping float64) {
	t, n := p.tracks[segment], e.common
	m := len(t.own)
	width := n + m + 1
	s := &e.segments[segment]
	own := mat.NewSymDense(m, nil)
	s.cross, s.right = mat.NewDense(m, n, nil), mat.NewVecDense(m, nil)
	for a := range m {
		row := sum[(n+a)*width : (n+a+1)*width]
		for b := a; b < m; b++ {
			own.SetSym(a, b, row[n+b])
		}
		s.right.SetVec(a, row[width-1])
		if sd := t.sd[a]; sd > 0 {
			own.SetSym(a, a, own.At(a, a)+1/(sd*sd))
			s.right.SetVec(a, s.right.AtVec(a)-(t.own[a]-t.mean[a])/(sd*sd))
		}
		own.SetSym(a, a, own.At(a, a)*(1+damping))
		for j := range n {
			s.cross.Set(a, j, sum[j*width+n+a])
		}
	}
	if s.ok = s.factor.Factorize(own); !s.ok {
		return
	}
	solved, right := mat.NewDense(m, n, nil), mat.NewVecDense(m, nil)
	_ = s.factor.SolveTo(solved, s.cross) // a condition beyond 1e16 is caught by the damping of the next try
	_ = s.factor.SolveVecTo(right, s.right)
	var product mat.Dense
	product.Mul(s.cross.T(), solved)
	var taken mat.VecDense
	taken.MulVec(s.cross.T(), right)
	for a := range n {
		for b := a; b < n; b++ {
			e.reduced.SetSym(a, b, e.reduced.At(a, b)-product.At(a, b))
		}
		e.right.SetVec(a, e.right.AtVec(a)-taken.AtVec(a))
	}
}

// step solves for the change of all parameters; false when the equations are not positive definite.
func (p *problem) step(e *equations) (point, bool) {
	var factor mat.Cholesky
	if !factor.Factorize(e.reduced) {
		return point{}, false
	}
	common := mat.NewVecDense(e.common, nil)
	_ = factor.SolveVecTo(common, e.right)
	out := point{common: common.RawVector().Data}
	for j, dead := range e.dead {
		if dead {
			out.common[j] = 0
		}
	}
	for i := range e.segments {
		s := &e.segments[i]
		if !s.ok {
			return point{}, false
		}
		var rest mat.VecDense
		rest.MulVec(s.cross, common)
		rest.SubVec(s.right, &rest)
		own := mat.NewVecDense(rest.Len(), nil)
		_ = s.factor.SolveVecTo(own, &rest)
		out.own = append(out.own, own.RawVector().Data)
	}
	return out, true
}

// answer solves for the change of the common parameters that other right sides ask for, one a segment with its own parameters behind the common
// ones; false when the equations are not positive definite.
func (e *equations) answer(rights [][]float64) ([]float64, bool) {
	sum := mat.NewVecDense(e.common, nil)
	for i, right := range rights {
		s := &e.segments[i]
		if !s.ok {
			return nil, false
		}
		var own, taken mat.VecDense
		_ = s.factor.SolveVecTo(&own, mat.NewVecDense(len(right)-e.common, right[e.common:])) // the same factor gave the fit
		taken.MulVec(s.cross.T(), &own)
		for j := range e.common {
			sum.SetVec(j, sum.AtVec(j)+right[j]-taken.AtVec(j))
		}
	}
	var factor mat.Cholesky
	if !factor.Factorize(e.reduced) {
		return nil, false
	}
	out := mat.NewVecDense(e.common, nil)
	_ = factor.SolveVecTo(out, sum)
	for j, dead := range e.dead {
		if dead {
			out.SetVec(j, 0)
		}
	}
	return out.RawVector().Data, true
}

// covariance of the common parameters, with zeros for what is dead; nil when the equations are not positive definite.
func (e *equations) covariance() *mat.SymDense {
	var factor mat.Cholesky
	if !factor.Factorize(e.reduced) {
		return nil
	}
	inverse := mat.NewSymDense(e.common, nil)
	_ = factor.InverseTo(inverse)
	for j, dead := range e.dead {
		if dead {
			for k := range e.common {
				inverse.SetSym(j, k, 0)
			}
		}
	}
	return inverse
}
