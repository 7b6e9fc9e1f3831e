package disk

import (
	"fmt"
	"sync"
	"testing"
	"time"
)

// window stands in for the window's goroutine.
type window struct {
	mu   sync.Mutex
	todo []func()
}

func (w *window) do(f func()) { w.mu.Lock(); defer w.mu.Unlock(); w.todo = append(w.todo, f) }

func (w *window) drain() {
	w.mu.Lock()
	todo := w.todo
	w.todo = nil
	w.mu.Unlock()
	for _, f := range todo {
		f()
	}
}

// What is asked in one lane is done and handed back in order; a lane whose disk does
// not answer holds no other up; and nothing is handed back but by the window.
func TestALaneKeepsItsOrderAndHoldsNoOtherUp(t *testing.T) {
	t.Parallel()
	w := &window{}
	d := New(w.do, func(string, bool) {})
	dead := make(chan struct{})
	d.Ask("dead", "", func() func() { <-dead; return nil })
	var got []int
	for i := range 50 {
		d.Ask(Own, "", func() func() { return func() { got = append(got, i) } })
	}
	answered := make(chan struct{})
	d.Ask(Own, "", func() func() { close(answered); return nil })
	<-answered
	if len(got) != 0 {
		t.Error("something came back on the disk's goroutine")
	}
	close(dead)
	d.Idle()
	w.drain()
	if len(got) != 50 {
		t.Fatalf("%d of 50 came back", len(got))
	}
	for i, n := range got {
		if i != n {
			t.Fatalf("%v", got)
		}
	}
}

// What comes at once is not spoken of; what keeps one waiting is, and is taken back
// when it has come, before it is shown.
func TestOnlyWhatKeepsOneWaitingIsSpokenOf(t *testing.T) {
	t.Parallel()
	w := &window{}
	var said []string
	d := New(w.do, func(what string, waiting bool) { said = append(said, fmt.Sprint(what, waiting)) })
	d.Ask(Own, "quick", func() func() { return func() { said = append(said, "quick came") } })
	d.Ask(Own, "slow", func() func() {
		time.Sleep(late + 50*time.Millisecond)
		return func() { said = append(said, "slow came") }
	})
	d.Idle()
	w.drain()
	if got := fmt.Sprint(said); got != "[quick came slowtrue slowfalse slow came]" {
		t.Error(got)
	}
}

// The end waits for what was asked, but not for a disk that never answers; what is
// asked after it is not begun.
func TestTheEndWaitsForADiskThatAnswers(t *testing.T) {
	t.Parallel()
	w := &window{}
	d := New(w.do, func(string, bool) {})
	done := false
	d.Ask(Own, "", func() func() { time.Sleep(20 * time.Millisecond); done = true; return nil })
	if !d.Close(10*time.Second) || !done {
		t.Error("the end did not wait")
	}
	d.Ask(Own, "", func() func() { t.Error("begun after the end"); return nil })
	dead := make(chan struct{})
	defer close(dead)
	d = New(w.do, func(string, bool) {})
	d.Ask(Own, "", func() func() { <-dead; return nil })
	if d.Close(10 * time.Millisecond) {
		t.Error("a dead disk is said to have answered")
	}
}
