package design

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"sort"
	"strings"

	"skep/calc/design/internal/schema"
	"skep/calc/message"
)

// ListLimit is the most entries that a list may have; no brew has more, and a
// broken file must not keep a command or the writer busy for minutes. An answer at
// the limit takes two seconds at most.
func ListLimit(list string) int {
	switch list {
	case "mash.rest", "temperature", "honey":
		return 10
	case "grain", "hop":
		return 24
	case "yeast":
		return 30
	}
	return LongListLimit // readings
}

// LongListLimit is the most of what is only looked through: readings, and each list
// of a catalogue or of a person's own shelf.
const LongListLimit = 2000

func longList(string) int { return LongListLimit }

// Validate judges a design that has no source: ranges, words, what must be
// there and what must hold between values. Findings carry no line.
func (d Design) Validate() []Finding {
	var out []Finding
	d.Judge(nil, func(sev Severity, path string, msg message.Message) {
		out = append(out, Finding{Severity: sev, Key: path, Message: msg})
	})
	return out
}

// Judge is [Design.Validate] for a reader of a file: report hears each finding,
// and stands tells which keys stand in the file. Where stands is nil a key counts
// as standing when it is not the default.
func (d Design) Judge(stands func(path string) bool, report func(sev Severity, path string, msg message.Message)) {
	c := &checker{report, ListLimit}
	c.table(designSchema().Root, reflect.ValueOf(&d).Elem(), nil)
	c.needs(d)
	c.relations(d, stands)
}

// checker finds fault with a filled design.
type checker struct {
	keep func(sev Severity, path string, msg message.Message)
	most func(list string) int // entries of a list
}

func (c *checker) error(path, text string, with ...any) {
	c.keep(Error, path, message.New(text, with...))
}

func (c *checker) warn(path, text string, with ...any) {
	c.keep(Warning, path, message.New(text, with...))
}

// place is where a table stands. A design is judged whenever a lever moves, so its
// path is put together only where there is something to say.
type place struct {
	in    *place // nil: at the top
	name  string
	entry int // of a list; -1: it is none
}

func (p *place) path() string {
	if p == nil {
		return ""
	}
	path := schema.Join(p.in.path(), p.name)
	if p.entry >= 0 {
		path = fmt.Sprintf("%s.%d", path, p.entry)
	}
	return path
}

// table judges each leaf of a struct by its key.
func (c *checker) table(b *schema.Branch, v reflect.Value, at *place) {
	for _, k := range b.Kids {
		f := k.Of(v)
		if k.Leaf() {
			if !k.Key.ProblemOf("", f).Empty() {
				p := schema.Join(at.path(), k.Name)
				c.keep(Error, p, k.Key.ProblemOf(p, f))
			}
			continue
		}
		here := place{at, k.Name, -1}
		switch {
		case k.List:
			p := here.path()
			if n, most := f.Len(), c.most(p); n > most {
				c.error(p, "{key} has {count} entries, at most {most} can be kept", p, n, most)
				continue
			}
			for here.entry = range f.Len() {
				c.table(k, f.Index(here.entry), &here)
			}
		case k.Opt:
			if !f.IsNil() {
				c.table(k, f.Elem(), &here)
			}
		default:
			c.table(k, f, &here)
		}
	}
}

// needs reports the lists that must have an entry.
func (c *checker) needs(d Design) {
	for _, need := range []struct {
		list         string
		n            int
		first, other string // the keys that an entry must have
	}{
		{"mash.rest", len(d.Mash.Rest), "temperature_c", "minutes"},
		{"grain", len(d.Grain), "mass_kg", "extract_pct"},
		{"yeast", len(d.Yeast), "attenuation_low_pct", "attenuation_high_pct"},
	} {
		if need.n == 0 {
			c.error(need.list, "[[{list}]] is missing: a design needs at least one, with {first} and {other}", need.list, need.first, need.other)
		}
	}
}

// relations reports what must hold between values. said tells which keys stand
// in the file; without a file a key counts as said when it is not the default.
func (c *checker) relations(d Design, reported func(path string) bool) {
	for i, y := range d.Yeast {
		if y.AttenuationLowPct > y.AttenuationHighPct {
			p := fmt.Sprintf("yeast.%d.attenuation_low_pct", i)
			c.error(p, "{key} = {value} is above attenuation_high_pct = {high}; the low one comes first",
				p, schema.FormatNumber(y.AttenuationLowPct), schema.FormatNumber(y.AttenuationHighPct))
		}
	}
	for i, y := range d.Yeast {
		if y.WarmestC != 0 && y.ColdestC > y.WarmestC {
			p := fmt.Sprintf("yeast.%d.coldest_c", i)
			c.warn(p, "{key} = {value} is above warmest_c = {high}; the cold one comes first", p, schema.FormatNumber(y.ColdestC), schema.FormatNumber(y.WarmestC))
		}
	}
	for i, s := range d.Temperature {
		if p := fmt.Sprintf("temperature.%d.at_hours", i); s.AtAttenuationPct != 0 && s.AtHours != 0 {
			c.warn(p, "{key} is not used: at_attenuation_pct is given and counts first", p)
		}
	}
	for i, h := range d.Honey {
		p := fmt.Sprintf("honey.%d.hours_after_height", i)
		given := reported != nil && reported(p) || reported == nil && h.HoursAfterHeight != NewHoney().HoursAfterHeight
		if given && h.Moment != MomentFermenting && slices.Contains(momentWords, h.Moment) {
			c.warn(p, `{key} is not used: it counts only with moment = "{wanted}", and the moment is "{moment}"`, p, MomentFermenting, h.Moment)
		}
	}
	if d.Crush != nil && len(d.Crush.OnSievePct) == 6 {
		sum := 0.0
		for _, s := range d.Crush.OnSievePct {
			sum += s
		}
		// 2 points is what sieving by hand loses (common practice, no source).
		if math.Abs(sum-100) > 2 {
			c.warn("crush.on_sieve_pct", "{key} sums to {sum} %, expected about 100", "crush.on_sieve_pct", schema.FormatNumber(math.Round(sum*10)/10))
		}
	}
	for i, r := range d.Reading {
		c.reading(fmt.Sprintf("reading.%d", i), r)
	}
	c.ghost(d)
}

func (c *checker) reading(path string, r Reading) {
	unit, min, max := ValueRange(r.What, r.Instrument)
	p := path + ".value"
	if math.IsNaN(r.Value) || math.IsInf(r.Value, 0) {
		return // reported by its key
	}
	if msg := schema.NumberProblem(p, r.Value, unit, min, max); !msg.Empty() {
		if unit == "SG" || unit == "°Bx" {
			c.error(p, "{problem} ({what} by {instrument})", msg, r.What, r.Instrument)
		} else {
			c.error(p, "{problem} ({what})", msg, r.What)
		}
	}
	switch compares := r.What == DrierThan || r.What == FullerThan; {
	case compares && r.Value != math.Trunc(r.Value):
		c.error(p, "{key} = {value} is not one of 1 yes, 0 no", p, schema.FormatNumber(r.Value))
	case compares && r.Other == "":
		c.error(path+".other", "{key} is missing: with {what} it names the batch compared with", path+".other", r.What)
	case !compares && r.Other != "":
		c.warn(path+".other", "{key} is not used: it counts only with {what} and {another}", path+".other", DrierThan, FullerThan)
	}
	if r.What == "foam" && r.Value != math.Trunc(r.Value) {
		c.error(p, "{key} = {value} is not one of 0 none, 1 rising, 2 at its height, 3 falling", p, schema.FormatNumber(r.Value))
	}
}

// ghost tries each setting of the ghost as a person would set it.
func (c *checker) ghost(d Design) {
	if d.Ghost == nil || len(d.Ghost.Settings) == 0 {
		return
	}
	names := make([]string, 0, len(d.Ghost.Settings))
	for k := range d.Ghost.Settings {
		names = append(names, k)
	}
	sort.Strings(names)
	trial := d
	trial.Ghost = nil // no setting of it is tried
	trial = trial.Clone()
	for _, name := range names {
		p := "ghost.settings." + name
		raw := d.Ghost.Settings[name]
		v := schema.SettingValue(raw)
		if v == nil || badNumber(v) {
			c.error(p, "ghost.settings {key} = {value} cannot be kept as a setting, expected a finite number, text, or true or false", schema.Short(name), fmt.Sprint(raw))
			continue
		}
		if name == "" {
			c.error(p, "ghost.settings has a setting without a name")
			continue
		}
		if msg := schema.TextProblem("ghost.settings "+schema.Short(name), name, nameLimit); !msg.Empty() {
			c.error(p, "the name of a setting: {problem}", msg)
			continue
		}
		if s, ok := v.(string); ok {
			if msg := schema.TextProblem("ghost.settings "+schema.Short(name), s, notesLimit); !msg.Empty() {
				c.keep(Error, p, msg)
				continue
			}
		}
		if strings.HasPrefix(name, "ghost.") {
			c.warn(p, "ghost.settings {key} is not used: a ghost has no ghost", schema.Short(name))
		} else if err := trial.Set(name, schema.Format(v)); err != nil {
			c.warn(p, "ghost.settings: {error}; it is kept but not used", err)
		}
	}
}

func badNumber(v any) bool {
	switch x := v.(type) {
	case float64:
		return math.IsNaN(x) || math.IsInf(x, 0)
	case []float64:
		for _, n := range x {
			if badNumber(n) {
				return true
			}
		}
	case []string:
		for _, s := range x {
			if !schema.TextProblem("", s, notesLimit).Empty() {
				return true
			}
		}
	}
	return false
}
