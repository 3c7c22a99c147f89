package lattice

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// forRows calls work for every row from 0 to n−1 on all processors. Rows must not share results, so
// that the outcome does not depend on the number of processors.
func forRows(n int, work func(row int)) {
	forEach(n, func() struct{} { return struct{}{} }, func(_ struct{}, row int) { work(row) })
}

// forEach is forRows with a working space for every worker.
func forEach[T any](n int, space func() T, work func(space T, row int)) {
	workers := min(runtime.GOMAXPROCS(0), n)
	var next atomic.Int64
	var group sync.WaitGroup
	for range workers {
		group.Go(func() {
			own := space()
			for row := int(next.Add(1)) - 1; row < n; row = int(next.Add(1)) - 1 {
				work(own, row)
			}
		})
	}
	group.Wait()
}
