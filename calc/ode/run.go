package ode

import "fmt"

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
