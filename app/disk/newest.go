package disk

import (
	"sync"
	"time"
)

// Newest brings the newest of what is asked for to the disk, on a goroutine of its own;
// what came between is dropped. Its methods may be called from any goroutine, and none
// but Flush and Close waits for the disk. While nothing is asked it sleeps.
type Newest[T any] struct {
	put        func(T) (tried bool, err error)
	report     func(error)
	last       func()
	gap, retry time.Duration
	wake       chan struct{}
	hurry      chan struct{}
	ended      chan struct{}

	mu     sync.Mutex
	moved  sync.Cond // after each attempt, and at the end
	want   T
	asked  uint64 // counts the wishes
	done   uint64 // the last wish that is on the disk
	tries  uint64
	err    error // of the last attempt
	ending bool
}

// KeepNewest begins. put brings a wish to the disk, and tells whether that tried it; a
// wish waits for gap after the one before, and is tried again after retry where the
// disk fails. report hears of the first failure of a row, and nil once it works again;
// last is called at the end; all three on the goroutine. Close must be called.
func KeepNewest[T any](gap, retry time.Duration, put func(T) (tried bool, err error), report func(error), last func()) *Newest[T] {
	n := &Newest[T]{put: put, report: report, last: last, gap: gap, retry: retry,
		wake: make(chan struct{}, 1), hurry: make(chan struct{}, 1), ended: make(chan struct{})}
	n.moved.L = &n.mu
	go n.run()
	return n
}

// Ask asks for want to be on the disk, in place of what was asked for before.
func (n *Newest[T]) Ask(want T) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.ending {
		return
	}
	n.want = want
	n.asked++
	nudge(n.wake)
}

func nudge(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// Flush waits until what was asked for is on the disk, or an attempt failed.
func (n *Newest[T]) Flush() error {
	n.mu.Lock()
	defer n.mu.Unlock()
	wish, tries := n.asked, n.tries
	nudge(n.hurry)
	for n.done < wish && !n.over() && (n.tries == tries || n.err == nil) {
		n.moved.Wait()
	}
	if n.done >= wish {
		return nil
	}
	return n.err
}

func (n *Newest[T]) over() bool {
	select {
	case <-n.ended:
		return true
	default:
		return false
	}
}

// Close ends it, after one more attempt at what is not on the disk yet.
func (n *Newest[T]) Close() error {
	n.mu.Lock()
	n.ending = true
	n.mu.Unlock()
	nudge(n.wake)
	nudge(n.hurry)
	<-n.ended
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.done < n.asked {
		return n.err
	}
	return nil
}

func (n *Newest[T]) run() {
	defer func() {
		n.last()
		close(n.ended)
		n.mu.Lock()
		n.moved.Broadcast()
		n.mu.Unlock()
	}()
	for {
		n.mu.Lock()
		want, asked, ending, idle := n.want, n.asked, n.ending, n.asked == n.done
		n.mu.Unlock()
		switch {
		case !idle:
			pause := n.gap
			if !n.attempt(want, asked) {
				pause = n.retry
			}
			if ending {
				return
			}
			select {
			case <-time.After(pause): // the monotonic clock: the wall's may jump
			case <-n.hurry:
			}
		case ending:
			return
		default:
			<-n.wake
		}
	}
}

// attempt brings one wish to the disk, and reports when the disk begins to fail or to
// work again.
func (n *Newest[T]) attempt(want T, asked uint64) bool {
	tried, err := n.put(want)
	n.mu.Lock()
	news := tried && (err == nil) != (n.err == nil)
	if tried {
		n.err = err
	}
	n.tries++
	if err == nil {
		n.done = asked
	}
	n.moved.Broadcast()
	n.mu.Unlock()
	if news && n.report != nil {
		n.report(err)
	}
	return err == nil
}
