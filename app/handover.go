package app

import (
	"sync"
	"time"
)

// handover hands work over to the window's goroutine: before the toolkit runs to
// whoever asks here, and then to the toolkit.
type handover struct {
	toolkit func(func())

	mu    sync.Mutex
	early []func()
	more  chan struct{} // something is in early
	runs  bool
}

func newHandover(toolkit func(func())) *handover {
	return &handover{toolkit: toolkit, more: make(chan struct{}, 1)}
}

func (h *handover) do(f func()) {
	h.mu.Lock()
	runs := h.runs
	if !runs {
		h.early = append(h.early, f)
	}
	h.mu.Unlock()
	if runs {
		h.toolkit(f)
		return
	}
	select {
	case h.more <- struct{}{}:
	default:
	}
}

// while does what is handed over as long as something is waited for, but no longer
// than patience.
func (h *handover) while(waiting func() bool, patience time.Duration) {
	end := time.After(patience)
	for {
		h.drain(false)
		if !waiting() {
			return
		}
		select {
		case <-h.more:
		case <-end:
			return
		}
	}
}

// toToolkit hands over to the toolkit from now on, and does what is still here.
func (h *handover) toToolkit() { h.drain(true) }

func (h *handover) drain(runs bool) {
	h.mu.Lock()
	todo := h.early
	h.early, h.runs = nil, runs
	h.mu.Unlock()
	for _, f := range todo {
		f()
	}
}
