package stall

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// block is the response of some strips to one another, factorised as P L U. Its storage serves one set of strips after another.
//
// mat.LU would do, but estimates a condition number each time, which costs as much as the factors of so small a block.
type block struct {
	held     []int // the strips, by rising number
	singular bool  // the strips do not answer independently
	lu       blas64.General
	swaps    []int
	x        []float64
}

// leastPivot is the share of the largest pivot below which the smallest one is round-off.
const leastPivot = 1e-13

// factor takes the rows and columns of some strips from the response of all.
func (b *block) factor(response *mat.Dense, held []int) {
	n := len(held)
	b.held = append(b.held[:0], held...)
	if cap(b.swaps) < n {
		most := response.RawMatrix().Rows
		b.lu.Data, b.swaps, b.x = make([]float64, most*most), make([]int, most), make([]float64, most)
	}
	b.swaps, b.x = b.swaps[:n], b.x[:n]
	b.lu = blas64.General{Rows: n, Cols: n, Stride: max(1, n), Data: b.lu.Data[:cap(b.lu.Data)][:n*n]}
	for k, i := range held {
		row, to := response.RawRowView(i), b.lu.Data[k*n:][:n]
		for l, j := range held {
			to[l] = row[j]
		}
	}
	if n == 0 {
		b.singular = false
		return
	}
	complete := lapack64.Getrf(b.lu, b.swaps)
	least, most := math.Inf(1), 0.0
	for k := range n {
		pivot := math.Abs(b.lu.Data[k*n+k])
		least, most = math.Min(least, pivot), math.Max(most, pivot)
	}
	b.singular = !complete || !(least > leastPivot*most)
}

// solve puts the turns down that use up the room of the strips into turn; of all others it leaves turn as it is.
func (b *block) solve(turn, room []float64) {
	if len(b.held) == 0 {
		return
	}
	for k, i := range b.held {
		b.x[k] = -room[i]
	}
	for k, j := range b.swaps {
		b.x[k], b.x[j] = b.x[j], b.x[k]
	}
	x := blas64.Vector{N: len(b.x), Data: b.x, Inc: 1}
	factor := func(uplo blas.Uplo, diag blas.Diag) blas64.Triangular {
		return blas64.Triangular{Uplo: uplo, Diag: diag, N: b.lu.Rows, Data: b.lu.Data, Stride: b.lu.Stride}
	}
	blas64.Trsv(blas.NoTrans, factor(blas.Lower, blas.Unit), x)
	blas64.Trsv(blas.NoTrans, factor(blas.Upper, blas.NonUnit), x)
	for k, i := range b.held {
		turn[i] = b.x[k]
	}
}
