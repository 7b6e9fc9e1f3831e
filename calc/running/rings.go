package running

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"skep/calc/brewday"
	"skep/calc/message"
	"skep/calc/quantity"
)

// endCall is a clock's own, at its end.
const endCall = "end"

// Ring is what a clock calls out.
type Ring struct {
	Timer  string
	Step   brewday.Key
	Name   message.Message // of the timer
	What   message.Message // what is to be done; empty: the clock is over
	Amount quantity.Quantity
	At     time.Time // when it was due

	id string
}

// Due takes the calls of all clocks that are due by now, first to last. Each is
// given once, also over a state that was written down and read again.
func (s *State) Due(day *brewday.Day, now time.Time) []Ring {
	s.Meet(now)
	var due []Ring
	for i := range s.Clocks {
		c := &s.Clocks[i]
		for _, r := range s.calls(day, c) {
			if !r.At.After(s.Seen) {
				c.Rung = append(c.Rung, r.id)
				due = append(due, r)
			}
		}
		if !c.Open && c.Running() && !c.IsHeld() && c.Left(s.Seen) <= 0 {
			c.Ended = c.Started.Add(c.HeldFor + c.Length())
		}
	}
	slices.SortStableFunc(due, func(a, b Ring) int { return a.At.Compare(b.At) })
	return due
}

// Next is the call that comes next of a clock; false where none does.
func (s *State) Next(day *brewday.Day, timer string) (Ring, bool) {
	c := s.Clock(timer)
	if c == nil {
		return Ring{}, false
	}
	calls := s.calls(day, c)
	if len(calls) == 0 {
		return Ring{}, false
	}
	return slices.MinFunc(calls, func(a, b Ring) int { return cmp.Or(a.At.Compare(b.At), 0) }), true
}

// calls are those of a clock that were not made yet; a clock that is held or ended
// has none.
func (s *State) calls(day *brewday.Day, c *Clock) []Ring {
	end, ok := c.EndsAt()
	t := day.Timer(c.Step, c.Timer)
	if !ok || t == nil {
		return nil
	}
	var all []Ring
	add := func(id string, left float64, what message.Message, amount quantity.Quantity) {
		if !slices.Contains(c.Rung, id) {
			all = append(all, Ring{c.Timer, c.Step, t.Name, what, amount, end.Add(-minutes(left)), id})
		}
	}
	for i, call := range t.Calls {
		// One at the start is what starts the clock, one at the end its end.
		if call.LeftMin < c.Begun && call.LeftMin > 0 {
			add(fmt.Sprint(i, " ", call.LeftMin), call.LeftMin, call.What, call.Amount)
		}
	}
	add(endCall, 0, message.Message{}, quantity.Quantity{})
	return all
}
