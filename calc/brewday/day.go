package brewday

import (
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/water"
)

// Day is a brew worked out.
type Day struct {
	Shopping []Item
	Steps    []Step // in order
}

// Step returns the step of a key; ok is false where this brew has none.
func (d *Day) Step(k Key) (s *Step, ok bool) {
	for i := range d.Steps {
		if d.Steps[i].Key == k {
			return &d.Steps[i], true
		}
	}
	return nil, false
}

// Warnings are all that does not fit, in the order of the day.
func (d *Day) Warnings() []Warning {
	var all []Warning
	for _, s := range d.Steps {
		all = append(all, s.Warnings...)
	}
	return all
}

// Group is a part of the shopping list.
type Group string

// The parts, in order.
const (
	GroupGrain   Group = "Grain"
	GroupHoney   Group = "Honey"
	GroupHops    Group = "Hops"
	GroupYeast   Group = "Yeast"
	GroupWater   Group = "Water"
	GroupPackage Group = "Packaging"
	GroupTools   Group = "At hand"
)

// Item is one line of the shopping list.
type Item struct {
	Group  Group
	Path   string // of the design's line it comes from, "grain.0"; "" for none
	Name   message.Message
	Amount quantity.Quantity // Kind None: as the note says
	Note   message.Message
}

// Key names a step; it stays the same whatever the brew.
type Key string

// The steps of a day.
const (
	Crush     Key = "crush"
	Liquor    Key = "liquor"
	MashIn    Key = "mash-in"
	Rests     Key = "rests"
	Sparge    Key = "sparge"
	Boil      Key = "boil"
	Whirlpool Key = "whirlpool"
	RunOff    Key = "run-off"
	Pitching  Key = "pitching"
	Ferment   Key = "ferment"
	Honey     Key = "honey"
	Packaging Key = "packaging"
)

// Step is one step of the day.
type Step struct {
	Key                 Key
	Title               message.Message
	Why                 message.Message   // one line
	Goes                []Entry           // what goes in here; edited here
	Numbers             []Number          // what to read at arm's length
	Events              []Event           // its time line
	Do                  []message.Message // in order, each to be ticked
	Notes               []message.Message // good to know; nothing to do
	Blanks              []Blank           // what to measure
	Table               []Correction      // what to do where a measurement is off
	Cautions            []message.Message // what can hurt
	Warnings            []Warning         // what does not fit, and what to change
	Timers              []Timer           // in the order in which they are started
	BeginsMin, TakesMin float64           // since the start of the day, and for how long, as planned
}

// Entry is something that goes in at a step.
type Entry struct {
	Path   string // of the design's line, "hop.0"
	Name   message.Message
	Amount quantity.Quantity
	Gives  quantity.Quantity // what it adds to the beer (bitterness of a hop); None: nothing to say
	Place  int               // it goes in before Do of this index
}

// Number is one number of a step.
type Number struct {
	Label message.Message
	quantity.Quantity
	Lead bool // the step's most important: shown largest
}

// Clock is what the times of a step's events count.
type Clock string

// The clocks.
const (
	SinceMashIn Clock = "minutes since mash-in"
	leftToBoil  Clock = "minutes left to boil"
	SincePitch  Clock = "hours since pitching"
)

// Message is what the clock counts.
func (c Clock) Message() message.Message {
	switch c {
	case leftToBoil:
		return message.New("Minutes left to boil")
	case SincePitch:
		return message.New("Hours since pitching")
	}
	return message.New("Minutes since mash-in")
}

// Event is one moment on a step's time line. An event that puts something in
// has the path of the design's line and the amount.
type Event struct {
	Clock  Clock
	At     quantity.Quantity // Minutes or Hours, with its band where uncertain
	What   message.Message
	Path   string
	Amount quantity.Quantity // None: nothing goes in
	Gives  quantity.Quantity // None: nothing to say
	DayMin float64           // minutes since the start of the day, as planned
	Timer  string            // ID of the timer that counts its minutes; "": none
}

// Blank is something to measure and write down.
type Blank struct {
	Label  message.Message
	What   string            // of a reading in the design file; "" for a note only
	Kind   quantity.Kind     // its unit
	Expect quantity.Quantity // None: no expectation
	Place  int               // it is measured before Do of this index
}

// Correction is a row of the table of the likely cases: what an instrument reads, and
// what can be done then, what costs least first.
type Correction struct {
	Reads quantity.Quantity
	Do    []message.Message
}

// Warning is something that does not fit: what, and what to change.
type Warning struct {
	message.Message
	Keys []string // of the design, where to change it
}

func (s *Step) do(text string, with ...any) { s.Do = append(s.Do, message.New(text, with...)) }

func (s *Step) note(text string, with ...any) {
	s.Notes = append(s.Notes, message.New(text, with...))
}

func (s *Step) number(label string, q quantity.Quantity) {
	s.add(message.Message{Text: label}, q, false)
}

func (s *Step) lead(label string, q quantity.Quantity) { s.add(message.Message{Text: label}, q, true) }

func (s *Step) add(label message.Message, q quantity.Quantity, lead bool) {
	if finite(q.Value) {
		s.Numbers = append(s.Numbers, Number{label, q, lead})
	}
}

// volumesWarn adds what package water finds that does not fit at a stage.
func (b *brew) volumesWarn(s *Step, at water.Stage) {
	for _, w := range b.plan.Warnings {
		if w.At == at {
			s.Warnings = append(s.Warnings, Warning{w.Message, w.Keys})
		}
	}
}

func (s *Step) warn(keys []string, text string, with ...any) {
	s.Warnings = append(s.Warnings, Warning{message.New(text, with...), keys})
}

func (s *Step) blank(label, what string, k quantity.Kind, expect quantity.Quantity) {
	s.Blanks = append(s.Blanks, Blank{message.Message{Text: label}, what, k, expect, len(s.Do)})
}

func keys(k ...string) []string { return k }
