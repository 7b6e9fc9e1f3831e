// Package parallel shares a job out over a few goroutines.
//
// A count of numbers comes in, each is worked on once, and all is done when the call
// returns. It must not know what is worked on; whose results stand in places of their
// own are the same on one processor and on many.
package parallel

import (
	"sync"
	"sync/atomic"
)

// Each does a job for the numbers below n on so many goroutines, the caller's among
// them. Each goroutine takes the next number when it is done with one: the other
// processor may be busy with something else, and nobody waits for half of the work to
// be begun. worker, from 0, is the goroutine's own, for the memory that it works in.
func Each(workers, n int, do func(worker, i int)) {
	var next atomic.Int64
	work := func(worker int) {
		for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
			do(worker, i)
		}
	}
	var others sync.WaitGroup
	for worker := 1; worker < min(workers, n); worker++ {
		others.Go(func() { work(worker) })
	}
	work(0)
	others.Wait()
}
