package design

import (
	"fmt"
	"strings"
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
	Settings             // a table of settings as Design.Set takes them
)

// String names the kind as messages do: "a number", "true or false".
func (k Kind) String() string {
	switch k {
	case Number:
		return "a number"
	case Whole:
		return "a whole number"
	case Text, Word:
		return "text in quotes"
	case Switch:
		return "true or false"
	case Numbers:
		return "a list of numbers"
	case Words:
		return "a list of words"
	case Time:
		return "a date and time such as 2026-06-20T15:40:00Z"
	}
	return "a table of settings"
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

	def any // the default as a Go value
}

// Range is "40 to 80 °C", or the allowed words, or the kind.
func (k Key) Range() string {
	switch k.Kind {
	case Number, Whole, Numbers:
		s := formatNumber(k.Min) + " to " + formatNumber(k.Max)
		if k.Unit != "" {
			s += " " + k.Unit
		}
		return s
	case Word, Words:
		return joinWords(k.Words)
	}
	return k.Kind.String()
}

// Name is the last part of the path: what stands in the file.
func (k Key) Name() string { return k.Path[strings.LastIndexByte(k.Path, '.')+1:] }

// joinWords is "a, b or c".
func joinWords(w []string) string {
	if len(w) < 2 {
		return strings.Join(w, "")
	}
	return strings.Join(w[:len(w)-1], ", ") + " or " + w[len(w)-1]
}

// Keys lists every key of a design file in the order of the file.
func Keys() []Key {
	s := designSchema()
	out := make([]Key, len(s.keys))
	for i, k := range s.keys {
		out[i] = *k
		out[i].Words = append([]string(nil), k.Words...)
	}
	return out
}

// KeyOf describes the key of a path with or without positions filled in:
// mash.rest.0.temperature_c and mash.rest.N.temperature_c are the same key.
func KeyOf(path string) (Key, bool) {
	parts := strings.Split(path, ".")
	for i, p := range parts {
		if isIndex(p) {
			parts[i] = "N"
		}
	}
	k, ok := designSchema().byPath[strings.Join(parts, ".")]
	if !ok {
		return Key{}, false
	}
	c := *k
	c.Words = append([]string(nil), k.Words...)
	return c, true
}

func isIndex(s string) bool {
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

// Shorthands of the table in keys.go.

func num(path, unit string, def, min, max float64, note string) Key {
	return Key{Path: path, Unit: unit, Kind: Number, Min: min, Max: max, Note: note, def: def}
}

// wish is a number that may be absent.
func wish(path, unit string, min, max float64, note string) Key {
	return Key{Path: path, Unit: unit, Kind: Number, Min: min, Max: max, Note: note, Optional: true}
}

func text(path, note string) Key {
	return Key{Path: path, Kind: Text, Note: note, def: "", Max: nameLimit}
}

func word(path, def, note string, words ...string) Key {
	return Key{Path: path, Kind: Word, Note: note, def: def, Words: words}
}

func flag(path string, def bool, note string) Key {
	return Key{Path: path, Kind: Switch, Note: note, def: def}
}

func required(k Key) Key { k.Required = true; return k }

// finish fills what follows from the rest.
func (k *Key) finish() {
	switch d := k.def.(type) {
	case float64:
		k.Default = formatNumber(d)
	case int:
		k.Default = fmt.Sprint(d)
	case bool:
		k.Default = fmt.Sprint(d)
	case string:
		if d != "" {
			k.Default = quote(d)
		}
	}
}
