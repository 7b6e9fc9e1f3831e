package frames

import (
	"runtime"
	"sync"
	"testing"
	"time"
)

// A burst as a 1000 Hz mouse makes it: the last value must be shown, most must
// be dropped, and nothing may come out of order.
func TestABurstShowsTheLastAndDropsMost(t *testing.T) {
	t.Parallel()
	var mu sync.Mutex
	var shown []int
	w := New(func(s int) int { time.Sleep(2 * time.Millisecond); return s },
		func(_ int, r int) { mu.Lock(); shown = append(shown, r); mu.Unlock() })
	defer w.Close()
	for i := range 1000 {
		w.Post(i)
		if i%100 == 0 {
			time.Sleep(time.Millisecond)
		}
	}
	w.Idle()
	mu.Lock()
	defer mu.Unlock()
	if len(shown) == 0 || shown[len(shown)-1] != 999 {
		t.Fatalf("shown %v: the last must be 999", shown)
	}
	if len(shown) > 100 {
		t.Errorf("%d computations for a burst of 1000", len(shown))
	}
	for i := 1; i < len(shown); i++ {
		if shown[i] <= shown[i-1] {
			t.Errorf("%d was shown after %d", shown[i], shown[i-1])
		}
	}
}

func TestCloseEndsTheGoroutineAndDropsTheRest(t *testing.T) {
	before := runtime.NumGoroutine()
	started := make(chan struct{})
	release := make(chan struct{})
	delivered := 0
	w := New(func(s int) int { close(started); <-release; return s }, func(int, int) { delivered++ })
	w.Post(1)
	<-started
	closed := make(chan struct{})
	go func() { w.Close(); close(closed) }()
	for { // Close must be waiting before the computation is let go
		w.mu.Lock()
		c := w.closed
		w.mu.Unlock()
		if c {
			break
		}
		time.Sleep(time.Millisecond)
	}
	close(release)
	<-closed
	w.Post(2)
	if delivered != 0 {
		t.Error("a result was delivered after Close")
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Errorf("%d goroutines before, %d after Close", before, runtime.NumGoroutine())
}
