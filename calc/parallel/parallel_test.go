package parallel

import (
	"sync/atomic"
	"testing"
)

// Every number is worked on once, and no two at the same time by one worker.
func TestEachNumberOnce(t *testing.T) {
	for _, c := range []struct{ workers, n int }{{1, 5}, {2, 0}, {2, 1}, {2, 1000}, {7, 3}, {0, 4}} {
		var times [1000]atomic.Int32
		var busy [7]atomic.Bool
		Each(c.workers, c.n, func(worker, i int) {
			if !busy[worker].CompareAndSwap(false, true) {
				t.Errorf("%+v: worker %d does two at once", c, worker)
			}
			times[i].Add(1)
			busy[worker].Store(false)
		})
		for i := range times {
			want := int32(0)
			if i < c.n {
				want = 1
			}
			if got := times[i].Load(); got != want {
				t.Errorf("%+v: %d was done %d times", c, i, got)
			}
		}
	}
}
