package design

import (
	"strings"

	"skep/calc/design/internal/schema"
)

// Key describes one key of the file; see [Keys].
type Key = schema.Key

// Day is a day of the calendar as the file has it, 2026-06-20; empty for none.
type Day = schema.Day

// Kind is what sort of value a key holds.
type Kind = schema.Kind

// The kinds of keys.
const (
	Number   = schema.Number
	Whole    = schema.Whole
	Text     = schema.Text
	Word     = schema.Word
	Switch   = schema.Switch
	Numbers  = schema.Numbers
	Words    = schema.Words
	Time     = schema.Time
	Date     = schema.Date
	Settings = schema.Settings
)

// Schema is how the keys belong to the fields of a [Design]: for package file,
// which reads and writes them.
func Schema() *schema.Schema { return designSchema() }

// Keys lists every key of a design file in the order of the file.
func Keys() []Key {
	s := designSchema()
	out := make([]Key, len(s.Keys))
	for i, k := range s.Keys {
		out[i] = *k
		out[i].Words = append([]string(nil), k.Words...)
	}
	return out
}

// Texts are those of the table of keys that no call of package message names: units
// and notes.
func Texts() (list []string) {
	for _, k := range designSchema().Keys {
		list = append(list, k.Unit, k.Note)
	}
	return list
}

// KeyOf describes the key of a path with or without positions filled in:
// mash.rest.0.temperature_c and mash.rest.N.temperature_c are the same key.
func KeyOf(path string) (Key, bool) {
	parts := strings.Split(path, ".")
	for i, p := range parts {
		if schema.IsIndex(p) {
			parts[i] = "N"
		}
	}
	k, ok := designSchema().ByPath[strings.Join(parts, ".")]
	if !ok {
		return Key{}, false
	}
	c := *k
	c.Words = append([]string(nil), k.Words...)
	return c, true
}

// Shorthands of the table in keys.go.

func num(path, unit string, def, min, max float64, note string) Key {
	return Key{Path: path, Unit: unit, Kind: Number, Min: min, Max: max, Note: note, Def: def}
}

// wish is a number that may be absent.
func wish(path, unit string, min, max float64, note string) Key {
	return Key{Path: path, Unit: unit, Kind: Number, Min: min, Max: max, Note: note, Optional: true}
}

func text(path, note string) Key {
	return Key{Path: path, Kind: Text, Note: note, Def: "", Max: nameLimit}
}

func word(path, def, note string, words ...string) Key {
	return Key{Path: path, Kind: Word, Note: note, Def: def, Words: words}
}

func flag(path string, def bool, note string) Key {
	return Key{Path: path, Kind: Switch, Note: note, Def: def}
}

// day is a day of the calendar that may be absent.
func day(path, note string) Key { return Key{Path: path, Kind: Date, Note: note} }

// untold is a key whose default says that nothing is told.
func untold(k Key) Key { k.Untold = true; return k }

func required(k Key) Key { k.Required = true; return k }
