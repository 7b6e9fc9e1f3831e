package running

import (
	"slices"
	"strconv"
	"time"

	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Kind says what an item of a step is.
type Kind int

// The kinds.
const (
	Tick    Kind = iota // something to do
	Add                 // something that goes in
	Start               // a clock to start
	Stop                // a clock to end
	Measure             // something to measure
)

// Item is one thing of a step to be done, in the order in which it is.
type Item struct {
	ID     string
	Kind   Kind
	Text   message.Message
	Amount quantity.Quantity // None: nothing goes in
	Left   float64           // minutes of the timer that are left when it is due; −1: at no minute
	Timer  *brewday.Timer
	Blank  *brewday.Blank
}

// Steps are the steps of a day up to the pitching: what comes after is followed by
// the hour, not by the minute.
func Steps(day *brewday.Day) []*brewday.Step {
	var list []*brewday.Step
	for i := range day.Steps {
		switch s := &day.Steps[i]; s.Key {
		case brewday.Ferment, brewday.Honey, brewday.Packaging:
		default:
			list = append(list, s)
		}
	}
	return list
}

// Items are what there is to do at a step.
func Items(s *brewday.Step) []Item {
	var list []Item
	add := func(kind Kind, what string, i Item) {
		i.ID, i.Kind = string(s.Key)+"/"+what, kind
		if i.Left == 0 {
			i.Left = -1
		}
		list = append(list, i)
	}
	listed := map[string]bool{}
	for _, e := range s.Events {
		listed[e.Path] = true
	}
	measure := func(n int) {
		for i := range s.Blanks {
			if b := &s.Blanks[i]; b.Place == n && b.What != "" && b.Kind != quantity.Moment {
				add(Measure, b.What, Item{Blank: b})
			}
		}
	}
	goesIn := func(n int) {
		for _, g := range s.Goes {
			if g.Place == n && !listed[g.Path] {
				add(Add, g.Path, Item{Text: message.New("{name}", g.Name), Amount: g.Amount})
			}
		}
	}
	goesIn(0)
	for n := 0; n <= len(s.Do); n++ {
		if n < len(s.Do) {
			measure(n)
		}
		for i := range s.Timers {
			if t := &s.Timers[i]; t.Place == n {
				for j, e := range s.Events {
					if e.Timer == "" && e.Path != "" && e.Path+".minutes" == t.Key {
						add(Tick, "event."+strconv.Itoa(j), Item{Text: e.What})
					}
				}
				add(Start, "start."+t.ID, Item{Text: t.Name, Timer: t})
				// What the clock calls for is ticked while it runs.
				for j, e := range s.Events {
					if e.Timer == t.ID && e.At.Value > 0 && e.At.Value <= t.Minutes && (e.Path != "" || e.At.Value < t.Minutes) {
						add(Tick, "event."+strconv.Itoa(j), Item{Text: e.What, Amount: e.Amount, Left: e.At.Value, Timer: t})
					}
				}
				if t.Key != "" && i+1 < len(s.Timers) {
					add(Stop, "stop."+t.ID, Item{Text: t.Name, Timer: t})
				}
			}
		}
		if n > 0 {
			goesIn(n) // after what was measured and timed before it
		}
		if n < len(s.Do) {
			add(Tick, "do."+strconv.Itoa(n), Item{Text: s.Do[n]})
		}
	}
	measure(len(s.Do)) // at the end of the step, when its clocks have run
	if n := len(s.Timers); n > 0 && s.Timers[n-1].Key != "" {
		stop := Item{Text: s.Timers[n-1].Name, Timer: &s.Timers[n-1]}
		add(Stop, "stop."+stop.Timer.ID, stop)
		list = stopBeforeMeasures(list)
	}
	return list
}

// stopBeforeMeasures puts the end of the last clock before what is measured after it.
func stopBeforeMeasures(list []Item) []Item {
	last := len(list) - 1
	stop := list[last]
	at := last
	for at > 0 && list[at-1].Kind == Measure {
		at--
	}
	return slices.Insert(slices.Clone(list[:last]), at, stop)
}

// IsDone says whether an item is done.
func (s *State) IsDone(i *Item) bool {
	switch i.Kind {
	case Start:
		return s.Clock(i.Timer.ID) != nil
	case Stop:
		c := s.Clock(i.Timer.ID)
		return c != nil && !c.Running()
	case Measure:
		if _, ok := s.Value(i.Blank.What); ok {
			return true
		}
	}
	return s.Ticked(i.ID)
}

// NextItem is the first of a step's items that is not done; −1: all are.
func (s *State) NextItem(items []Item) int {
	return slices.IndexFunc(items, func(i Item) bool { return !s.IsDone(&i) })
}

// ToMeasure is what a number that is typed at a step is for: the first measurement that
// is still to come, whatever else is to be done before, and after the last of them the
// first that was passed over; −1: nothing is left.
func (s *State) ToMeasure(items []Item) int {
	passedOver := -1
	for n := range items {
		i := &items[n]
		if i.Kind != Measure {
			continue
		}
		if _, measured := s.Value(i.Blank.What); measured {
			continue
		}
		if !s.IsDone(i) {
			return n
		}
		if passedOver < 0 {
			passedOver = n
		}
	}
	return passedOver
}

// Ready says whether the next item of a step may be done by a press that nobody
// aims: a clock that still runs is not ended by it.
func (s *State) Ready(i *Item, now time.Time) bool {
	if i.Kind != Stop {
		return true
	}
	c := s.Clock(i.Timer.ID)
	return c != nil && c.Left(now) <= 0
}

// Readings puts what was measured into a form that package brewday compares:
// gravities by any instrument as they are at 20 °C.
func (s *State) Readings() brewday.Measured {
	var raw []design.Reading
	for _, x := range s.Measured {
		raw = append(raw, x.Reading())
	}
	m := brewday.NothingMeasured()
	for _, p := range measured.NewTimeline(raw, time.Time{}, measured.Instruments{}).Points {
		if at := m.Of(p.What); at != nil && p.Used {
			*at = p.Value
		}
	}
	return m
}

// Reading is the measurement as a design keeps it.
func (m *Measured) Reading() design.Reading {
	r := design.NewReading()
	r.What, r.Value, r.At = m.What, m.Value, m.At.Truncate(time.Second)
	r.TemperatureC = m.TemperatureC
	if m.Instrument != "" {
		r.Instrument = m.Instrument
	}
	return r
}
