// Package disk is how the window asks for something from the disk: the work is done
// beside the window's goroutine, in the order in which it was asked, and what came of
// it is handed back there.
//
// Work comes in, and goes out as a function for the window's goroutine. It must not
// know what is read or written, nor who asks.
package disk

import (
	"sync"
	"time"
)

// Lanes: what is asked in one lane is done in order, and waits for nothing in
// another, so that one disk that does not answer holds up only itself.
const (
	Own    = "own"    // the folder of a person's own files, and their preferences
	Design = "design" // the file of the design that is open, and its lock
)

// late is after how long a person is told what is being waited for.
const late = 250 * time.Millisecond

// Disk does what waits for a disk. A nil one answers before Ask returns: for tests that
// are not about waiting.
type Disk struct {
	do     func(func())
	report func(what string, waiting bool)
	mu     sync.Mutex
	moved  *sync.Cond
	lanes  map[string][]job // those that have a goroutine, and what is still to do in them
	close  bool
}

// job is one thing that was asked.
type job struct {
	what string
	work func() (then func())
}

// New makes a disk. do hands over to the window's goroutine; tell is called there when
// something has not come for a quarter of a second, and when it has come at last.
func New(do func(func()), report func(what string, waiting bool)) *Disk {
	d := &Disk{do: do, report: report, lanes: map[string][]job{}}
	d.moved = sync.NewCond(&d.mu)
	return d
}

// Ask has work done beside the window, after what was asked before in the same lane.
// work must touch nothing that the window does; what it returns runs on the window's
// goroutine, nil for nothing. what says to a person what is waited for.
func (d *Disk) Ask(lane, what string, work func() (then func())) {
	if d == nil {
		if then := work(); then != nil {
			then()
		}
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.close {
		return
	}
	queue, runs := d.lanes[lane]
	d.lanes[lane] = append(queue, job{what, work})
	if !runs {
		go d.run(lane)
	}
}

func (d *Disk) run(lane string) {
	for {
		d.mu.Lock()
		queue := d.lanes[lane]
		if len(queue) == 0 {
			delete(d.lanes, lane)
			d.moved.Broadcast()
			d.mu.Unlock()
			return
		}
		j := queue[0]
		d.mu.Unlock()
		d.one(j)
		d.mu.Lock()
		d.lanes[lane] = d.lanes[lane][1:]
		d.mu.Unlock()
	}
}

// one does a job, and says so if it takes its time.
func (d *Disk) one(j job) {
	var once sync.Once
	reported := false
	clock := time.AfterFunc(late, func() {
		once.Do(func() {
			reported = true
			d.do(func() { d.report(j.what, true) })
		})
	})
	then := j.work()
	clock.Stop()
	once.Do(func() {}) // from now on nothing is told
	d.do(func() {
		if reported {
			d.report(j.what, false)
		}
		if then != nil {
			then()
		}
	})
}

// Idle waits until nothing is to be done any more.
func (d *Disk) Idle() {
	if d == nil {
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	for len(d.lanes) > 0 {
		d.moved.Wait()
	}
}

// Close takes nothing more, and waits for what was asked, but not longer than a disk
// may take that answers at all. It tells whether all was done.
func (d *Disk) Close(patience time.Duration) (done bool) {
	if d == nil {
		return true
	}
	d.mu.Lock()
	d.close = true
	d.mu.Unlock()
	idle := make(chan struct{})
	go func() { d.Idle(); close(idle) }()
	select {
	case <-idle:
		return true
	case <-time.After(patience):
		return false
	}
}
