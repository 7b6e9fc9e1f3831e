package lever

import (
	"fmt"
	"math"
	"slices"

	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Lever is a row of the table.
type Lever int

// The levers, in the order of the brew. Those that [Lever.Tunes] denies do not
// move dryness, body or strength.
const (
	Grain Lever = iota // the whole grist, every line by the same share
	Rest
	Minutes
	Yeast
	YeastC
	Honey
	Moment
	Primer
	Count int = iota
)

// All are the levers, in the order of the brew.
func All() []Lever {
	all := make([]Lever, Count)
	for i := range all {
		all[i] = Lever(i)
	}
	return all
}

// Set says which levers may move. The zero value holds all of them.
type Set [Count]bool

// SetOf are some levers.
func SetOf(levers ...Lever) Set {
	var s Set
	for _, l := range levers {
		s[l] = true
	}
	return s
}

// Without are the levers of s but some.
func (s Set) Without(levers ...Lever) Set {
	for _, l := range levers {
		s[l] = false
	}
	return s
}

// Free are all levers but those held, as taste.hold names them.
func Free(hold []string) Set {
	var s Set
	for i := range table {
		s[i] = !slices.Contains(hold, table[i].hold)
	}
	return s
}

// Named is the lever that taste.hold calls so.
func Named(hold string) (Lever, bool) {
	for i := range table {
		if table[i].hold == hold {
			return Lever(i), true
		}
	}
	return 0, false
}

// String is the word that holds the lever in taste.hold.
func (l Lever) String() string {
	if l < 0 || int(l) >= Count {
		return fmt.Sprintf("lever %d", int(l))
	}
	return table[l].hold
}

// MarshalText is the word that holds the lever.
func (l Lever) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// Get is where the lever stands.
func (l Lever) Get(s *Setting) float64 { return table[l].get(s) }

// Put moves it.
func (l Lever) Put(s *Setting, place float64) { table[l].put(s, place) }

// Tunes tells whether it moves dryness, body or strength.
func (l Lever) Tunes() bool { return l != YeastC && l != Primer }

// Needs tells whether the lever moves anything of a design: without grain there
// is no mash, without honey no moment of it.
func (l Lever) Needs(grain, honey bool) bool {
	switch table[l].of {
	case ofRest, ofGrain:
		return grain
	case ofHoney:
		return honey
	}
	return true
}

// Name is what the lever is called within a sentence, Title above its slider,
// Change what undo calls its change.
func (l Lever) Name() message.Message   { return table[l].name }
func (l Lever) Title() message.Message  { return table[l].title }
func (l Lever) Change() message.Message { return table[l].change }

// Ends are what the slider's lower and upper end do to the beer.
func (l Lever) Ends() (low, high message.Message) { return table[l].low, table[l].high }

// Toward names a step down or up on the landing plane: "cooler", "hotter".
func (l Lever) Toward(up bool) message.Message {
	if up {
		return table[l].more
	}
	return table[l].less
}

// Way names a step down or up where nothing around it says which lever it is:
// "cooler mash", "hotter mash".
func (l Lever) Way(up bool) message.Message {
	if up {
		return table[l].moreWay
	}
	return table[l].lessWay
}

// By says how far the lever goes: "2.5 °C cooler". The change is in the lever's
// own unit, with its sign. Empty for the moment, which has no amount.
func (l Lever) By(change float64) message.Message {
	s := table[l].lessBy
	if change >= 0 {
		s = table[l].moreBy
	}
	if !s.Empty() {
		s.With = []any{l.Difference(max(change, -change))}
	}
	return s
}

// Unit is the lever's own, of a difference: °C, min, points, kg, h.
func (l Lever) Unit() string { return table[l].unit }

// Shown is how many of the unit that a person reads go into one of the lever's
// own: a lever of honey is in kg and read in g.
func (l Lever) Shown() (kind quantity.Kind, factor float64) { return table[l].kind, table[l].shown }

// Difference is a change of the lever's place as a person reads it.
func (l Lever) Difference(change float64) quantity.Quantity {
	return quantity.Of(table[l].difference, change*table[l].shown)
}

// Of names the lever of one thing among several: "temperature of the rest 1".
func (l Lever) Of(thing message.Message) message.Message {
	m := table[l].thing
	m.With = []any{thing}
	return m
}

// A Key is a key of the design file that a lever moves, with what stands there.
type Key struct {
	Path  string
	Value any // float64 or string
}

// Keys are what the lever moves in a design, as a setting has them. The grist
// has none: each line keeps its own mass.
func (l Lever) Keys(s *Setting, at At) []Key {
	r := &table[l]
	var out []Key
	for _, k := range r.keys {
		path := k.path
		switch r.of {
		case ofRest:
			path = fmt.Sprintf(k.path, at.Rest)
		case ofHoney:
			if at.Honey < 0 {
				continue
			}
			path = fmt.Sprintf(k.path, at.Honey)
		}
		out = append(out, Key{path, k.get(s)})
	}
	return out
}

// At is which rest and which honey the levers move, counted from 0; a honey of
// -1 is none.
type At struct{ Rest, Honey int }

// In is a in a design that may have fewer of them.
func (a At) In(d *design.Design) At {
	return At{Rest: min(a.Rest, len(d.Mash.Rest)-1), Honey: min(max(a.Honey, 0), len(d.Honey)-1)}
}

// HoneyOf is the honey that the levers move: where there is none yet, a usual
// one of 0 g.
func (a At) HoneyOf(d *design.Design) design.Honey {
	if a = a.In(d); a.Honey >= 0 {
		return d.Honey[a.Honey]
	}
	h := design.NewHoney()
	h.MassKg = 0
	return h
}

// Setting is where the levers of a design stand.
func (a At) Setting(d *design.Design) Setting {
	a = a.In(d)
	s := SettingOf(d, a.Rest, a.Honey)
	if a.Honey < 0 {
		s.HoursAfterHeight = a.HoneyOf(d).HoursAfterHeight
	}
	return s
}

// Put moves one lever of a design, whose lists are written to. A honey to move
// is made where there is none.
func (a At) Put(d *design.Design, l Lever, place float64) {
	a.Change(d, l, func(s *Setting) { l.Put(s, place) })
}

// Change is [At.Put] for a lever with more than one number, such as the two
// handles of the yeast.
func (a At) Change(d *design.Design, l Lever, how func(*Setting)) {
	if table[l].of == ofHoney && len(d.Honey) == 0 {
		d.Honey = []design.Honey{a.HoneyOf(d)}
	}
	s := a.Setting(d)
	how(&s)
	a = a.In(d)
	s.Into(d, a.Rest, a.Honey)
}

// Pull moves one lever of a design by so much from where another has it, to a
// place that its slider has.
func (a At) Pull(d, from *design.Design, l Lever, change float64) {
	was := a.Setting(from)
	low, high := l.Limits(from, a)
	step, place := table[l].hand.Step, l.Get(&was)
	switch l {
	case Moment:
		place = snapMoment(place + change)
	case Yeast: // both handles by whole steps, as far as the first one comes
		half := (was.AttenuationHighPct - was.AttenuationLowPct) / 2
		place += min(max(round(change, step), low+half-place), max(high-half-place, 0))
	default:
		place = min(max(round(place+change, step), low), high)
	}
	a.Put(d, l, place)
}

// round goes to a whole number of steps, without the dust of binary arithmetic.
func round(x, step float64) float64 { return math.Round(math.Round(x/step)*step*1e6) / 1e6 }
