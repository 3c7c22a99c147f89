package lattice

import (
	"runtime"
	"sync"
)

// forRows calls work for every row from 0 to n−1 on all processors. Rows must not share results, so
// that the outcome does not depend on the number of processors.
func forRows(n int, work func(row int)) {
	workers := min(runtime.GOMAXPROCS(0), n)
	var group sync.WaitGroup
	for w := range workers {
		group.Go(func() {
			for row := w; row < n; row += workers {
				work(row)
			}
		})
	}
	group.Wait()
}
