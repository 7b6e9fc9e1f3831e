package running

import (
	"slices"
	"time"

	"skep/calc/brewday"
)

// Version is that of a state's form.
const Version = 1

// State is all of a day that is on its way.
type State struct {
	Version  int
	Title    string        // of the design
	File     string        // of the batch, for whoever keeps the state
	Begun    time.Time     // UTC, as all others
	Seen     time.Time     // the latest hour that it was told
	Ahead    time.Duration `json:",omitempty"` // by which the hour last jumped: a sleep, or a clock set ahead
	Step     brewday.Key
	Done     []string // items that are ticked
	Clocks   []Clock
	Measured []Measured
	Settings []brewday.Setting // of the design, that the day has changed
	Over     bool
}

// Measured is one measurement of the day, with what was expected then.
type Measured struct {
	What         string
	Value        float64 // raw, as a reading of the design
	TemperatureC float64 // of the sample
	Instrument   string
	At           time.Time
	Expected     float64 // 0: nothing was
}

// clockSlack is what a clock may step back without having been set: the network's
// corrections of a few milliseconds.
const clockSlack = 500 * time.Millisecond

// A look at the hour is taken each second. One that comes later than leastJump was kept
// by a sleep, or by a clock set ahead; which of them shows when the clock goes back by
// just as much, setRightSlack allowing for what was looked at late.
const (
	leastJump     = 10 * time.Minute
	setRightSlack = 5 * time.Second
)

// Begin starts a day.
func Begin(title, file string, day *brewday.Day, now time.Time) State {
	now = plain(now)
	s := State{Version: Version, Title: title, File: file, Begun: now, Seen: now}
	if len(day.Steps) > 0 {
		s.Step = day.Steps[0].Key
	}
	return s
}

// plain is an instant that is the same when it was written down and read again.
func plain(t time.Time) time.Time { return t.UTC().Round(0).Truncate(time.Millisecond) }

// Clone is a copy that shares nothing.
func (s State) Clone() State {
	s.Done, s.Measured, s.Settings = slices.Clone(s.Done), slices.Clone(s.Measured), slices.Clone(s.Settings)
	s.Clocks = slices.Clone(s.Clocks)
	for i := range s.Clocks {
		s.Clocks[i].Rung = slices.Clone(s.Clocks[i].Rung)
	}
	return s
}

// Meet takes notice of the hour, and says by how much the wall clock was found set
// back; the clocks that run are moved with it. A wall clock that had been set ahead and is
// set right again moves none, and what it ended or called too early is to come again.
func (s *State) Meet(now time.Time) (back time.Duration) {
	now = plain(now)
	if back = s.Seen.Sub(now); back > clockSlack {
		right := s.Ahead > 0 && (back-s.Ahead).Abs() < setRightSlack
		for i := range s.Clocks {
			switch c := &s.Clocks[i]; {
			case right:
				c.setRight(now, back)
			case c.Running():
				c.move(-back)
			}
		}
		s.Seen, s.Ahead = now, 0
		return back
	}
	if jump := now.Sub(s.Seen); jump > leastJump {
		s.Ahead = jump
		for i := range s.Clocks {
			s.Clocks[i].RungBefore = len(s.Clocks[i].Rung)
		}
	}
	s.Seen = later(s.Seen, now)
	return 0
}

// Clock is the one of a timer; nil where it was not started.
func (s *State) Clock(timer string) *Clock {
	for i := range s.Clocks {
		if s.Clocks[i].Timer == timer {
			return &s.Clocks[i]
		}
	}
	return nil
}

// Start starts the clock of a timer, anew where it ran before.
func (s *State) Start(step brewday.Key, t *brewday.Timer, now time.Time) {
	s.Meet(now)
	s.Clocks = slices.DeleteFunc(s.Clocks, func(c Clock) bool { return c.Timer == t.ID })
	s.Clocks = append(s.Clocks, Clock{Timer: t.ID, Step: step, Minutes: t.Minutes, Begun: t.Minutes, Planned: t.Minutes, Open: t.Key != "", Started: s.Seen})
}

// Hold stops a clock for a while, or lets it go on.
func (s *State) Hold(timer string, now time.Time) {
	s.Meet(now)
	if c := s.Clock(timer); c != nil && c.IsHeld() {
		c.resume(s.Seen)
	} else if c != nil {
		c.hold(s.Seen)
	}
}

// Shift makes a clock longer or shorter, minutes; calls that are to come move with
// its end, and those already made are made again where they are to come again.
func (s *State) Shift(timer string, byMin float64, now time.Time) {
	s.Meet(now)
	if c := s.Clock(timer); c != nil && c.Running() {
		s.setLength(c, max(0, c.Minutes+byMin))
	}
}

func (s *State) setLength(c *Clock, length float64) {
	if length > c.Minutes && c.Left(s.Seen) <= 0 {
		c.Rung = slices.DeleteFunc(c.Rung, func(id string) bool { return id == endCall })
	}
	c.Minutes = length
}

// End ends a clock, and gives the minutes that it ran.
func (s *State) End(timer string, now time.Time) float64 {
	s.Meet(now)
	c := s.Clock(timer)
	if c == nil {
		return 0
	}
	c.end(s.Seen)
	return c.Real(s.Seen)
}

// Follow takes a changed plan over: a clock that runs is longer or shorter by as much
// as its timer has become.
func (s *State) Follow(day *brewday.Day) {
	for i := range s.Clocks {
		c := &s.Clocks[i]
		if t := day.Timer(c.Step, c.Timer); c.Running() && t != nil && t.Minutes != c.Planned {
			s.setLength(c, max(0, c.Minutes+t.Minutes-c.Planned))
			c.Planned = t.Minutes
		}
	}
}

// Write puts a measurement down, in the place of one of the same kind.
func (s *State) Write(m Measured) {
	m.At = plain(m.At)
	s.Measured = slices.DeleteFunc(s.Measured, func(o Measured) bool { return o.What == m.What })
	s.Measured = append(s.Measured, m)
}

// Forget takes a measurement away: it is to be made again.
func (s *State) Forget(what string) {
	s.Measured = slices.DeleteFunc(s.Measured, func(o Measured) bool { return o.What == what })
}

// Value is what was measured of a kind.
func (s *State) Value(what string) (Measured, bool) {
	for _, m := range s.Measured {
		if m.What == what {
			return m, true
		}
	}
	return Measured{}, false
}

// Tick ticks an item, or takes the tick away.
func (s *State) Tick(id string) {
	if i := slices.Index(s.Done, id); i >= 0 {
		s.Done = slices.Delete(s.Done, i, i+1)
		return
	}
	s.Done = append(s.Done, id)
}

// Ticked says whether an item is ticked.
func (s *State) Ticked(id string) bool { return slices.Contains(s.Done, id) }

// Set notes values that the day has given the design, each key once.
func (s *State) Set(list ...brewday.Setting) {
	for _, x := range list {
		s.Settings = slices.DeleteFunc(s.Settings, func(o brewday.Setting) bool { return o.Key == x.Key })
		s.Settings = append(s.Settings, x)
	}
}
