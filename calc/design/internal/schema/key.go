package schema

import (
	"fmt"
	"strings"

	"skep/calc/message"
)

// Kind is what sort of value a key holds.
type Kind int

const (
	Number   Kind = iota // any finite number
	Whole                // a whole number
	Text                 // free text
	Word                 // one of a few words
	Switch               // true or false
	Numbers              // a list of numbers
	Words                // a list of a few words
	Time                 // a date and time with its offset
	Date                 // a day
	Settings             // a table of settings as Design.Set takes them
)

// Message names the kind: "a number", "true or false".
func (k Kind) Message() message.Message {
	switch k {
	case Number:
		return message.New("a number")
	case Whole:
		return message.New("a whole number")
	case Text, Word:
		return message.New("text in quotes")
	case Switch:
		return message.New("true or false")
	case Numbers:
		return message.New("a list of numbers")
	case Words:
		return message.New("a list of words")
	case Time:
		return message.New("a date and time such as 2026-06-20T15:40:00Z")
	case Date:
		return message.New("a day such as 2026-06-20, without quotes")
	}
	return message.New("a table of settings")
}

// Key describes one key of the file: the one place its unit, default, range
// or words stand. In Path, N stands for a position in a list, from 0.
type Key struct {
	Path     string // grain.N.mass_kg
	Unit     string // as printed after a value: "kg", "°C", "" for none
	Kind     Kind
	Default  string   // as written in a file; empty: nothing
	Min, Max float64  // of numbers (each number of a list)
	Words    []string // allowed, of Word and Words
	Note     string
	Required bool // must stand in the file (or in each entry of its list)
	Optional bool // a number that may be absent and has no default
	Untold   bool // its default says that nothing is told, and is not written

	Def any // the default as a Go value
}

// Range is "40 to 80 °C", or the allowed words, or the kind.
func (k Key) Range() message.Message {
	switch k.Kind {
	case Number, Whole, Numbers:
		return numberRange(k.Min, k.Max, k.Unit)
	case Word, Words:
		return OneOf(k.Words)
	}
	return k.Kind.Message()
}

// Wanted is the kind, with the range where it is of numbers.
func (k Key) Wanted() message.Message {
	switch k.Kind {
	case Number, Whole, Numbers:
		return message.New("{kind} ({range})", k.Kind.Message(), k.Range())
	}
	return k.Kind.Message()
}

// numberRange is "40 to 80 °C", with the numbers as a file has them.
func numberRange(min, max float64, unit string) message.Message {
	low, high := FormatNumber(min), FormatNumber(max)
	switch {
	case min == max:
		return message.Plain(low)
	case unit == "":
		return message.New("{low} to {high}", low, high)
	}
	return message.New("{low} to {high} {unit}", low, high, message.Message{Text: unit})
}

// Name is the last part of the path: what stands in the file.
func (k Key) Name() string { return k.Path[strings.LastIndexByte(k.Path, '.')+1:] }

// OneOf is "a, b or c".
func OneOf(w []string) message.Message {
	if len(w) < 2 {
		return message.Plain(strings.Join(w, ""))
	}
	return message.New("{others} or {last}", strings.Join(w[:len(w)-1], ", "), w[len(w)-1])
}

func IsIndex(s string) bool {
	if s == "" {
		return false
	}
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}

// finish fills what follows from the rest.
func (k *Key) finish() {
	switch d := k.Def.(type) {
	case float64:
		k.Default = FormatNumber(d)
	case int:
		k.Default = fmt.Sprint(d)
	case bool:
		k.Default = fmt.Sprint(d)
	case string:
		if d != "" {
			k.Default = Quote(d)
		}
	}
}
