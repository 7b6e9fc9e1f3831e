package follow

import (
	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
)

// Phase is where now lies against the honey window.
type Phase string

// The phases: the window as package ferment defines it.
const (
	NoMoment Phase = "none"    // not pitched
	NotYet   Phase = "not-yet" // more likely shut than not
	Now      Phase = "now"
	Closing  Phase = "closing" // open, and likely to shut within half a day
	Past     Phase = "past"
)

// Message names the phase to a person.
func (p Phase) Message() message.Message {
	switch p {
	case NotYet:
		return message.New("Not yet")
	case Now:
		return message.New("Now")
	case Closing:
		return message.New("Closing")
	case Past:
		return message.New("Past")
	}
	return message.New("Not pitched")
}

// closingHours: so near its end a window counts as closing; so does one that
// has shut with a chance of one in four.
const (
	closingHours = 12.0
	closingShare = 0.25
)

// Moment is the honey moment as of now. It is there even if all honey is in:
// the fermentation has a window all the same.
type Moment struct {
	Phase Phase
	// Hours from now, negative if past.
	Height, Opens, Closes calc.Band
	Open                  float64 // chance that it is open now, 0 to 1
	HeightPast            float64 // chance that the height has passed
	Planned               []PlannedHoney
}

// PlannedHoney is honey that has not gone in: when the plan has it.
type PlannedHoney struct {
	Place int       // in the conditioned design
	From  calc.Band // hours from now
}

func (b *Batch) moment() {
	m, t := &b.Moment, &b.Timeline
	m.Phase = NoMoment
	now := t.NowHours
	m.Height, m.Opens, m.Closes = shift(b.After.HeightHours, -now), shift(b.After.WindowHours[0], -now), shift(b.After.WindowHours[1], -now)
	for _, i := range b.Conditioned.HoneyLeft {
		if h := b.Conditioned.Design.Honey[i]; h.Moment == design.MomentFermenting && h.MassKg > 0 {
			m.Planned = append(m.Planned, PlannedHoney{i, shift(m.Height, h.HoursAfterHeight)})
		}
	}
	if !t.Pitched {
		return
	}
	opened := b.share(func(x *calc.Times) bool { return x.Window[0] <= now })
	closed := b.share(func(x *calc.Times) bool { return x.Window[1] <= now })
	m.Open = max(0, opened-closed)
	m.HeightPast = b.share(func(x *calc.Times) bool { return x.HeightHours <= now })
	switch {
	case m.Closes.Mid <= 0:
		m.Phase = Past
	case m.Opens.Mid > 0:
		m.Phase = NotYet
	case closed >= closingShare || m.Closes.Mid < closingHours:
		m.Phase = Closing
	default:
		m.Phase = Now
	}
}
