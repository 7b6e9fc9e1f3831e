package ode

import (
	"fmt"
	"math"
)

// Integrate carries y from t0 to tEnd, in place. On an error y holds the last
// good state.
func (s *Solver) Integrate(f System, t0, tEnd float64, y []float64, opt Options) error {
	if err := s.Start(f, t0, tEnd, y, opt); err != nil {
		return err
	}
	for !s.Done() {
		if err := s.Step(); err != nil {
			copy(y, s.y)
			return err
		}
	}
	copy(y, s.y)
	return nil
}

// Sample integrates from times[0] to the last of times, which must rise (or
// all fall), and calls visit at each of them by continuous output. y0 is the
// state at times[0]. The slice given to visit is valid during the call only.
func (s *Solver) Sample(f System, times, y0 []float64, opt Options, visit func(i int, t float64, y []float64)) error {
	if len(times) == 0 {
		return nil
	}
	end := times[len(times)-1]
	if err := s.Start(f, times[0], end, y0, opt); err != nil {
		return err
	}
	for i := 1; i < len(times); i++ {
		if !((times[i]-times[i-1])*s.dir > 0) {
			return fmt.Errorf("ode: sample times must go one way, %g follows %g: %w", times[i], times[i-1], ErrInput)
		}
	}
	visit(0, times[0], s.y)
	next := 1
	for !s.Done() {
		if err := s.Step(); err != nil {
			return err
		}
		for next < len(times) && (times[next]-s.t)*s.dir <= 0 {
			s.At(times[next], s.scratch)
			visit(next, times[next], s.scratch)
			next++
		}
	}
	return nil
}

// Kind is what a watch looks for in its value.
type Kind int

// The kinds of event.
const (
	Rising  Kind = iota // the value passes zero upwards
	Falling             // the value passes zero downwards
	Peak                // the value is greatest: its slope along the course turns from rising to falling
)

// Watch is an event to look for. Value must be smooth along the course.
type Watch struct {
	Value func(t float64, y []float64) float64
	Kind  Kind
	Stop  bool // end the integration there
}

// Event is an event found.
type Event struct {
	Watch int // which one, by its place in the list
	T     float64
}

// Watch integrates y from t0 to tEnd in place and calls found for each event
// with the state there (valid during the call only), watch by watch within a
// step and in order of time for each watch. A watch with Stop ends the integration at its
// event, and y and the returned end time are those of the event.
//
// Each step is looked at in eight parts, so two opposite crossings closer than
// an eighth of a step can be missed: bound MaxStep where that matters. Times
// are good to about 1e-12 of the interval within the accuracy of the
// continuous output.
func (s *Solver) Watch(f System, t0, tEnd float64, y []float64, opt Options, watches []Watch, found func(e Event, y []float64)) (end float64, err error) {
	if err := s.Start(f, t0, tEnd, y, opt); err != nil {
		return t0, err
	}
	defer func() { copy(y, s.y) }()
	for !s.Done() {
		if err := s.Step(); err != nil {
			return s.t, err
		}
		// Those that stop come first, so that none is reported past the stop.
		limit, stopped := s.tOld+s.hOld, false
		for _, stopping := range [2]bool{true, false} {
			for w := range watches {
				if watches[w].Stop != stopping {
					continue
				}
				if t, hit := s.search(w, &watches[w], limit, found); hit {
					limit, stopped = t, true
				}
			}
		}
		if stopped {
			s.At(limit, s.scratch)
			copy(s.y, s.scratch)
			s.t = limit
			return limit, nil
		}
	}
	return s.t, nil
}

// search looks through the last step as far as limit for events of one watch,
// reports them, and says where the integration is to stop, if it is.
func (s *Solver) search(index int, w *Watch, limit float64, found func(Event, []float64)) (stop float64, hit bool) {
	const parts = 8
	from, h := s.tOld, s.hOld
	prev := s.watched(w, from)
	for p := 1; p <= parts; p++ {
		a, b := from+h*float64(p-1)/parts, from+h*float64(p)/parts
		v := s.watched(w, b)
		crossed := prev < 0 && v >= 0
		if w.Kind != Rising {
			crossed = prev > 0 && v <= 0
		}
		prev = v
		if !crossed {
			continue
		}
		t := s.locate(w, a, b)
		if (t-limit)*s.dir > 0 {
			return 0, false
		}
		s.At(t, s.scratch)
		found(Event{index, t}, s.scratch)
		if w.Stop {
			return t, true
		}
	}
	return 0, false
}

// watched is the function whose zero is the event: the value, or for a peak
// its slope by central difference on the continuous output (which is smooth a
// little beyond the step too).
func (s *Solver) watched(w *Watch, t float64) float64 {
	if w.Kind != Peak {
		s.At(t, s.scratch)
		return w.Value(t, s.scratch)
	}
	d := 1e-4 * s.hOld
	s.At(t+d, s.scratch)
	up := w.Value(t+d, s.scratch)
	s.At(t-d, s.scratch)
	return (up - w.Value(t-d, s.scratch)) * s.dir
}

// locate closes in on the zero between a and b by bisection and false
// position in turn (each halves or better, so it always ends).
func (s *Solver) locate(w *Watch, a, b float64) float64 {
	fa, fb := s.watched(w, a), s.watched(w, b)
	if fb == 0 {
		return b
	}
	for i := range 80 {
		if math.Abs(b-a) <= 1e-13*(math.Abs(a)+math.Abs(b))+1e-300 {
			break
		}
		m := (a + b) / 2
		if i%2 == 0 && fa != fb {
			if q := a - fa*(b-a)/(fb-fa); (q-a)*(q-b) < 0 {
				m = q
			}
		}
		fm := s.watched(w, m)
		if fm == 0 {
			return m
		}
		if (fm < 0) == (fa < 0) {
			a, fa = m, fm
		} else {
			b, fb = m, fm
		}
	}
	return (a + b) / 2
}
