package reconstruct

import (
	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/gonum"
)

// matrix is square and symmetric, of which the first n rows and columns count; row by row in one array, as gonum's kernels want it. Vectors that a
// kernel is given go to the heap unless they are there: filter and smoother keep room for them.
type matrix [most * most]float64

// row is a row of the matrix.
func (p *matrix) row(i int) *vector { return (*vector)(p[i*most:]) }

// at is an entry of the matrix.
func (p *matrix) at(i, j int) *float64 { return &p[i*most+j] }

// times puts P·v into another vector.
func (p *matrix) times(v, to *vector, n int) {
	gonum.Implementation{}.Dgemv(blas.NoTrans, n, n, 1, p[:], most, v[:n], 1, 0, to[:n], 1)
}

// less replaces P by P − w·wᵀ. Entries that mirror each other get one and the same product, so that P stays symmetric to the last bit.
func (p *matrix) less(w *vector, n int) {
	gonum.Implementation{}.Dger(n, n, -1, w[:n], 1, w[:n], 1, p[:], most)
}

// mirror makes the columns before one of the rows before it, so that they are symmetric to the last bit.
func (p *matrix) mirror(before, n int) {
	for i := range before {
		row := p.row(i)
		for j := i + 1; j < n; j++ {
			p[j*most+i] = row[j]
		}
	}
}

func (p *matrix) transpose(n int) {
	for i := 1; i < n; i++ {
		for j := range i {
			*p.at(i, j), *p.at(j, i) = *p.at(j, i), *p.at(i, j)
		}
	}
}

// addBoth adds to an entry and to the one that mirrors it.
func (p *matrix) addBoth(i, j int, v float64) {
	*p.at(i, j) += v
	if i != j {
		*p.at(j, i) += v
	}
}
