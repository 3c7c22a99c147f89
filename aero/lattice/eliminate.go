package lattice

import (
	"errors"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack"
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

// newPivot factorises a matrix in place.
func newPivot(a blas64.General) *pivot {
	p := &pivot{lu: a, swaps: make([]int, a.Rows)}
	size := lapack64.Lange(lapack.MaxRowSum, a, make([]float64, a.Rows))
	if !lapack64.Getrf(a, p.swaps) || math.IsNaN(size) {
		p.err = errDegenerate
		return p
	}
	work, spare := make([]float64, 4*a.Rows), make([]int, a.Rows)
	if condition := lapack64.Gecon(lapack.MaxRowSum, a, size, work, spare); !(condition > 1e-13) {
		p.err = errDegenerate
	}
	return p
}

// solve overwrites b with the solution.
func (p *pivot) solve(b blas64.General) {
	if p.err == nil && b.Cols > 0 {
		lapack64.Getrs(blas.NoTrans, p.lu, b, p.swaps)
	}
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
		blas64.Gemm(blas.NoTrans, blas.NoTrans, -1, s.reduced(r, k, k), s.carried(k, c), 1, out)
		return out
	})
}

// carried is (A⁽ᵏ⁾_kk)⁻¹ A⁽ᵏ⁾_kc.
func (s *system) carried(k, c int) blas64.General {
	return s.pool(k, c, k).matrices.get("carried"+s.name(k, c, k), func() blas64.General {
		out := clone(s.reduced(k, c, k))
		s.pivot(k).solve(out)
		return out
	})
}

// pivot is the factorised A⁽ᵏ⁾_kk. A block that no other airframe asks for is overwritten: nobody needs it again.
func (s *system) pivot(k int) *pivot {
	keeper := s.pool(k, k, k)
	return keeper.pivots.get(s.name(k, k, k), func() *pivot {
		a := s.reduced(k, k, k)
		if keeper != &s.own {
			a = clone(a)
		}
		return newPivot(a)
	})
}

// solve returns the circulation by block for right-hand sides by block (panels × columns), which it overwrites.
func (s *system) solve(right []blas64.General) ([]blas64.General, error) {
	last := len(s.blocks) - 1
	for k := range s.blocks {
		p := s.pivot(k)
		if p.err != nil {
			return nil, p.err
		}
		p.solve(right[k])
		for r := k + 1; r <= last; r++ {
			blas64.Gemm(blas.NoTrans, blas.NoTrans, -1, s.reduced(r, k, k), right[k], 1, right[r])
		}
	}
	for k := last; k >= 0; k-- {
		for c := k + 1; c <= last; c++ {
			blas64.Gemm(blas.NoTrans, blas.NoTrans, -1, s.carried(k, c), right[c], 1, right[k])
		}
	}
	return right, nil
}

func newGeneral(rows, columns int) blas64.General {
	return blas64.General{Rows: rows, Cols: columns, Stride: max(1, columns), Data: make([]float64, rows*columns)}
}

func clone(a blas64.General) blas64.General {
	a.Data = slices.Clone(a.Data)
	return a
}
