package lattice

import (
	"errors"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// Levels of a choice change one surface and leave the others. The unknowns of an airframe therefore stand in blocks,
// first the block of surfaces that most airframes share, and are eliminated block by block: what belongs to shared
// blocks alone is worked out once. With A the influence, B_k the block eliminated at step k,
//
//	A⁽⁰⁾ = A,   A⁽ᵏ⁺¹⁾_rc = A⁽ᵏ⁾_rc − A⁽ᵏ⁾_rk (A⁽ᵏ⁾_kk)⁻¹ A⁽ᵏ⁾_kc,
//
// which depends on the blocks r, c and B_0 … B_k only (block Gaussian elimination, as in Golub & Van Loan, Matrix
// Computations, section on block LU). A single airframe is one block: plain LU.

// block is a set of parts that occur together in every airframe of a family.
type block struct {
	parts  []part
	key    string // of its parts, in order
	panels int
	starts []int // of each part within the block
}

// pool keeps values by name; each is computed once, whoever asks first. Its methods may be called at once.
type pool struct {
	influences memo[*influence]
	matrices   memo[blas64.General]
	pivots     memo[*pivot]
	washes     memo[*washes]
	traces     memo[*trace]
	inverses   memo[blas64.General]
}

// memo keeps values of one kind.
type memo[V any] struct {
	mu    sync.Mutex
	known map[string]func() V
}

// get returns the value of a name, computed by the first who asks; others wait.
func (m *memo[V]) get(name string, compute func() V) V {
	m.mu.Lock()
	if m.known == nil {
		m.known = make(map[string]func() V)
	}
	value, ok := m.known[name]
	if !ok {
		value = sync.OnceValue(compute)
		m.known[name] = value
	}
	m.mu.Unlock()
	return value()
}

// pivot is the factorised diagonal block of one elimination step.
type pivot struct {
	lu    blas64.General
	swaps []int
	err   error
}

// errDegenerate says that the panels do not determine the circulation.
var errDegenerate = errors.New("the panels do not determine the circulation: two surfaces lie on each other, or panels have no width")

// newPivot factorises a matrix in place. Pivots that differ by thirteen digits mean that its rows do not determine the unknowns.
func newPivot(a blas64.General) *pivot {
	p := &pivot{lu: a, swaps: make([]int, a.Rows)}
	determined := lapack64.Getrf(a, p.swaps)
	least, most := math.Inf(1), 0.0
	for i := range a.Rows {
		d := math.Abs(a.Data[i*a.Stride+i])
		least, most = math.Min(least, d), math.Max(most, d)
	}
	if !determined || !(least > 1e-13*most) {
		p.err = errDegenerate
	}
	return p
}

// solveRows overwrites b, columns × unknowns, with the solution: A x = b as xᵀ = bᵀ Pᵀ L⁻ᵀ U⁻ᵀ, which runs along rows.
func (p *pivot) solveRows(b blas64.General) {
	if p.err != nil {
		return
	}
	for i, j := range p.swaps {
		for row := 0; row < b.Rows && i != j; row++ {
			line := b.Data[row*b.Stride:]
			line[i], line[j] = line[j], line[i]
		}
	}
	n := p.lu.Rows
	lower := blas64.Triangular{Uplo: blas.Lower, Diag: blas.Unit, N: n, Stride: p.lu.Stride, Data: p.lu.Data}
	upper := blas64.Triangular{Uplo: blas.Upper, Diag: blas.NonUnit, N: n, Stride: p.lu.Stride, Data: p.lu.Data}
	blas64.Trsm(blas.Right, blas.Trans, 1, lower, b)
	blas64.Trsm(blas.Right, blas.Trans, 1, upper, b)
}

// system is the equations of one airframe and one symmetry.
type system struct {
	*model
	side int // 0 symmetric, 1 antisymmetric
}

// name joins the symmetry, blocks r and c, and the blocks eliminated before.
func (s *system) name(r, c, depth int) string {
	text := string(rune('0'+s.side)) + s.blocks[r].key + s.blocks[c].key
	for _, b := range s.blocks[:depth] {
		text += b.key
	}
	return text
}

// pool is where a value belongs that depends on blocks r, c and those eliminated before: with the family when another
// airframe asks for the same, else with this airframe.
func (s *system) pool(r, c, depth int) *pool {
	keys := []string{s.blocks[r].key, s.blocks[c].key}
	for _, b := range s.blocks[:depth] {
		keys = append(keys, b.key)
	}
	if s.family.uses(keys...) {
		return &s.family.pool
	}
	return &s.own
}

// reduced is A⁽ᵈᵉᵖᵗʰ⁾ between two blocks; it must not be changed.
func (s *system) reduced(r, c, depth int) blas64.General {
	if depth == 0 {
		return s.influence(r, c).normal[s.side]
	}
	return s.pool(r, c, depth).matrices.get("reduced"+s.name(r, c, depth), func() blas64.General {
		k := depth - 1
		out := clone(s.reduced(r, c, k))
		blas64.Gemm(blas.NoTrans, blas.Trans, -1, s.reduced(r, k, k), s.carried(k, c), 1, out)
		return out
	})
}

// carried is (A⁽ᵏ⁾_kk)⁻¹ A⁽ᵏ⁾_kc, transposed, so that substitution and products run along rows.
func (s *system) carried(k, c int) blas64.General {
	return s.pool(k, c, k).matrices.get("carried"+s.name(k, c, k), func() blas64.General {
		out := transposed(s.reduced(k, c, k))
		s.pivot(k, k).solveRows(out)
		return out
	})
}

// pivot is the factorised A⁽ᵈᵉᵖᵗʰ⁾_rr. A block that no other airframe asks for is overwritten: nobody needs it again.
func (s *system) pivot(r, depth int) *pivot {
	keeper := s.pool(r, r, depth)
	return keeper.pivots.get(s.name(r, r, depth), func() *pivot {
		a := s.reduced(r, r, depth)
		if keeper != &s.own {
			a = clone(a)
		}
		return newPivot(a)
	})
}

// solve returns the circulation by block for right-hand sides by block (states × panels), which it overwrites.
//
// Where two or more blocks differ from one airframe to the next (a winglet and a foreplane), each of them is known to the family
// but the pair is not. Such blocks hardly feel one another, so that iterating between them is cheaper than eliminating; should that
// not converge quickly, they are eliminated like the others.
func (s *system) solve(right []blas64.General) ([]blas64.General, error) {
	depth := s.pairedFrom()
	if err := s.forward(right, 0, depth); err != nil {
		return nil, err
	}
	if depth < len(s.blocks) {
		done, err := s.iterate(right, depth)
		if err != nil {
			return nil, err
		}
		if done {
			s.backward(right, depth)
			return right, nil
		}
	}
	if err := s.forward(right, depth, len(s.blocks)); err != nil {
		return nil, err
	}
	s.backward(right, len(s.blocks))
	return right, nil
}

// pairedFrom is the first of the blocks that other airframes share each by itself, but not together; the number of blocks when
// there are no such.
func (s *system) pairedFrom() int {
	n := len(s.blocks)
	for depth := 1; depth < n-1; depth++ {
		each := true
		for r := depth; r < n; r++ {
			each = each && s.pool(r, r, depth) != &s.own
		}
		if each && s.pool(depth, n-1, depth) == &s.own {
			return depth
		}
	}
	return n
}

// forward eliminates blocks from … to−1: right[k] becomes (A⁽ᵏ⁾_kk)⁻¹ b⁽ᵏ⁾_k for them, b⁽ᵗᵒ⁾ for the others.
func (s *system) forward(right []blas64.General, from, to int) error {
	for k := from; k < to; k++ {
		if err := s.divide(&right[k], k, k); err != nil {
			return err
		}
		for r := k + 1; r < len(s.blocks); r++ {
			subtract(right[r], s.reduced(r, k, k), right[k])
		}
	}
	return nil
}

// backward finishes the blocks before to, the later ones being known.
func (s *system) backward(right []blas64.General, to int) {
	for k := to - 1; k >= 0; k-- {
		for c := k + 1; c < len(s.blocks); c++ {
			blas64.Gemm(blas.NoTrans, blas.NoTrans, -1, right[c], s.carried(k, c), 1, right[k])
		}
	}
}

// divide replaces b, states × panels, by (A⁽ᵈᵉᵖᵗʰ⁾_rr)⁻¹ b. What a family shares is inverted once, since many short products
// are faster than many short substitutions.
func (s *system) divide(b *blas64.General, r, depth int) error {
	p := s.pivot(r, depth)
	if p.err != nil {
		return p.err
	}
	keeper := s.pool(r, r, depth)
	if keeper == &s.own {
		p.solveRows(*b)
		return nil
	}
	inverse := keeper.inverses.get(s.name(r, r, depth), func() blas64.General {
		out := clone(p.lu)
		work := make([]float64, max(1, 64*out.Rows))
		lapack64.Getri(out, p.swaps, work, len(work))
		return out
	})
	out := newGeneral(b.Rows, b.Cols)
	blas64.Gemm(blas.NoTrans, blas.Trans, 1, *b, inverse, 0, out)
	*b = out
	return nil
}

// Iteration stops when no circulation changes by more than this share of the largest, and is given up after so many rounds.
const (
	iterationChange = 1e-13
	iterationRounds = 15
)

// iterate solves the blocks from depth on, all others being eliminated, by Gauss and Seidel's iteration: each in turn with what the
// others do to it. It tells whether that converged; if not, right is as before.
func (s *system) iterate(right []blas64.General, depth int) (bool, error) {
	n := len(s.blocks)
	x := make([]blas64.General, n)
	for r := depth; r < n; r++ {
		x[r] = newGeneral(right[r].Rows, right[r].Cols)
	}
	for range iterationRounds {
		change, size := 0.0, 0.0
		for r := depth; r < n; r++ {
			next := clone(right[r])
			for c := depth; c < n; c++ {
				if c != r {
					s.subtractReduced(next, r, c, depth, x[c])
				}
			}
			if err := s.divide(&next, r, depth); err != nil {
				return false, err
			}
			for i, v := range next.Data {
				change = math.Max(change, math.Abs(v-x[r].Data[i]))
				size = math.Max(size, math.Abs(v))
			}
			x[r] = next
		}
		if change <= iterationChange*size {
			copy(right[depth:], x[depth:])
			return true, nil
		}
	}
	return false, nil
}

// subtractReduced takes A⁽ᵈᵉᵖᵗʰ⁾_rc x from b without forming it: A_rc x − Σ A⁽ᵏ⁾_rk (A⁽ᵏ⁾_kk)⁻¹ A⁽ᵏ⁾_kc x.
func (s *system) subtractReduced(b blas64.General, r, c, depth int, x blas64.General) {
	subtract(b, s.reduced(r, c, 0), x)
	for k := range depth {
		carried := s.carried(k, c)
		part := newGeneral(x.Rows, carried.Cols)
		blas64.Gemm(blas.NoTrans, blas.NoTrans, -1, x, carried, 0, part)
		subtract(b, s.reduced(r, k, k), part)
	}
}

// subtract takes a·x from b; x and b are states × panels.
func subtract(b, a, x blas64.General) {
	blas64.Gemm(blas.NoTrans, blas.Trans, -1, x, a, 1, b)
}

func transposed(a blas64.General) blas64.General {
	out := newGeneral(a.Cols, a.Rows)
	for i := range a.Rows {
		for j, v := range a.Data[i*a.Stride : i*a.Stride+a.Cols] {
			out.Data[j*out.Stride+i] = v
		}
	}
	return out
}

func newGeneral(rows, columns int) blas64.General {
	return blas64.General{Rows: rows, Cols: columns, Stride: max(1, columns), Data: make([]float64, rows*columns)}
}

func clone(a blas64.General) blas64.General {
	a.Data = slices.Clone(a.Data)
	return a
}
