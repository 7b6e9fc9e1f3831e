// Package frames carries the newest state from the window to a worker and the worker's
// answer back, so that no event handler does heavy work.
//
// States come in, answers go out in the same order. It must not know what is computed,
// nor the toolkit.
//
// The newest state wins and older ones are dropped, but a started computation
// always finishes and is shown: otherwise a fast mouse would starve the
// picture. Results come back in order, so an older one never overwrites a
// newer. No goroutine outlives Close.
package frames

import "sync"

// Worker computes results from states on one goroutine of its own.
type Worker[State, Result any] struct {
	compute func(State) Result
	deliver func(State, Result)

	mu      sync.Mutex
	cond    *sync.Cond
	newest  *State
	busy    bool
	closed  bool
	stopped chan struct{}
	posted  int
	done    int
}

// New starts a worker. compute runs on the worker's goroutine; deliver is
// called there too and must hand over to the UI thread itself (fyne.Do).
func New[State, Result any](compute func(State) Result, deliver func(State, Result)) *Worker[State, Result] {
	w := &Worker[State, Result]{compute: compute, deliver: deliver, stopped: make(chan struct{})}
	w.cond = sync.NewCond(&w.mu)
	go w.run()
	return w
}

// Post leaves a state to be computed, in place of any that still waits. It
// never blocks on the computation. After Close it does nothing.
func (w *Worker[State, Result]) Post(s State) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.closed {
		return
	}
	w.newest = &s
	w.posted++
	w.cond.Broadcast()
}

// Idle waits until everything posted before has been delivered or dropped.
func (w *Worker[State, Result]) Idle() {
	w.mu.Lock()
	defer w.mu.Unlock()
	for (w.newest != nil || w.busy) && !w.closed {
		w.cond.Wait()
	}
}

// Counts says how many states were posted and how many were computed.
func (w *Worker[State, Result]) Counts() (posted, computed int) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.posted, w.done
}

// Close ends the worker and waits for the computation under way, whose result
// is no longer delivered.
func (w *Worker[State, Result]) Close() {
	w.mu.Lock()
	w.closed = true
	w.newest = nil
	w.cond.Broadcast()
	w.mu.Unlock()
	<-w.stopped
}

func (w *Worker[State, Result]) run() {
	defer close(w.stopped)
	for {
		w.mu.Lock()
		w.busy = false
		w.cond.Broadcast()
		for w.newest == nil && !w.closed {
			w.cond.Wait()
		}
		if w.closed {
			w.mu.Unlock()
			return
		}
		s := *w.newest
		w.newest, w.busy = nil, true
		w.mu.Unlock()

		r := w.compute(s)

		w.mu.Lock()
		w.done++
		closed := w.closed
		w.mu.Unlock()
		if !closed {
			w.deliver(s, r)
		}
	}
}
