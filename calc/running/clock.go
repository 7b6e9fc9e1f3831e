package running

import (
	"time"

	"skep/calc/brewday"
)

// Clock is one that was started. The zero time stands for what has not happened.
type Clock struct {
	Timer   string        // brewday.Timer.ID
	Step    brewday.Key   // that it belongs to
	Minutes float64       // how long it is to run
	Begun   float64       // how long it was to run when it was started
	Planned float64       // how long the plan has it
	Open    bool          // goes on past its end until it is ended
	Started time.Time     // UTC, as the others
	Held    time.Time     // since when it is held
	HeldFor time.Duration // earlier
	Ended   time.Time
	Rung    []string // calls that were made

	RungBefore int `json:",omitempty"` // how many were made before the hour last jumped
}

// setRight takes back what came of a computer's clock that had been ahead: a clock that was
// started meanwhile began as much earlier, of another what ended or was called then is
// still to come.
func (c *Clock) setRight(now time.Time, ahead time.Duration) {
	if c.Started.After(now) {
		c.move(-ahead)
		if !c.Ended.IsZero() {
			c.Ended = c.Ended.Add(-ahead)
		}
		return
	}
	if c.Held.After(now) {
		c.Held = c.Held.Add(-ahead)
	}
	if c.Ended.After(now) {
		c.Ended = time.Time{}
	}
	c.Rung = c.Rung[:min(len(c.Rung), c.RungBefore)]
}

// Running says that it was not ended.
func (c *Clock) Running() bool { return c.Ended.IsZero() }

// IsHeld says that it stands still.
func (c *Clock) IsHeld() bool { return !c.Held.IsZero() && c.Running() }

// Elapsed is how long it has run by an hour, without what it was held.
func (c *Clock) Elapsed(now time.Time) time.Duration {
	end := now
	switch {
	case !c.Ended.IsZero():
		end = c.Ended
	case !c.Held.IsZero():
		end = c.Held
	}
	return max(0, end.Sub(c.Started)-c.HeldFor)
}

// Real are the minutes it has run.
func (c *Clock) Real(now time.Time) float64 { return c.Elapsed(now).Minutes() }

// Length is how long it is to run.
func (c *Clock) Length() time.Duration { return minutes(c.Minutes) }

// Left is what it still has to run; below nought it is over by as much.
func (c *Clock) Left(now time.Time) time.Duration { return c.Length() - c.Elapsed(now) }

// EndsAt is when it is over; false while it is held, or has ended.
func (c *Clock) EndsAt() (time.Time, bool) {
	if !c.Running() || c.IsHeld() {
		return time.Time{}, false
	}
	return c.Started.Add(c.HeldFor + c.Length()), true
}

func (c *Clock) hold(now time.Time) {
	if c.Running() && c.Held.IsZero() {
		c.Held = later(now, c.Started)
	}
}

func (c *Clock) resume(now time.Time) {
	if c.IsHeld() {
		c.HeldFor += max(0, now.Sub(c.Held))
		c.Held = time.Time{}
	}
}

func (c *Clock) end(now time.Time) {
	if !c.Running() {
		return
	}
	if c.IsHeld() {
		now = c.Held
	}
	c.Ended, c.Held = later(now, c.Started), time.Time{}
}

// move puts all its instants to where the wall clock was moved.
func (c *Clock) move(by time.Duration) {
	c.Started = c.Started.Add(by)
	if !c.Held.IsZero() {
		c.Held = c.Held.Add(by)
	}
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}

func minutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }
