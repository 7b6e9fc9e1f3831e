package file

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"time"

	"pgregory.net/rapid"

	"skep/calc/design"
	"skep/calc/design/internal/schema"
)

// Generators of valid designs and of the many ways to lay one out in a file.

// genNumber draws a number of a key: an end of its range, a short decimal as a
// person types, any binary number, or one with the dust of arithmetic.
func genNumber(k *schema.Key) *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		in := func(x float64) float64 { return math.Max(k.Min, math.Min(k.Max, x)) }
		switch rapid.IntRange(0, 4).Draw(t, "sort") {
		case 0:
			return rapid.SampledFrom([]float64{k.Min, k.Max}).Draw(t, "end")
		case 1:
			return rapid.Float64Range(k.Min, k.Max).Draw(t, "any")
		case 2:
			return in(math.Round(rapid.Float64Range(k.Min, k.Max).Draw(t, "x")*100) / 100 * (1 + 1e-16) * (1 - 3e-16))
		}
		return in(math.Round(rapid.Float64Range(k.Min, k.Max).Draw(t, "x")*100) / 100)
	})
}

var genText = rapid.OneOf(
	rapid.SampledFrom([]string{"", "Clean ale", "Lime blossom", "a \"quoted\" # name", "Zeile\nzwei\n", `back\slash`, "tab\tand \x00\x1f\x7f\u0085", "'''", `"""`, "\r\n", "end\n\\"}),
	rapid.StringN(0, 20, -1),
)

func genLeaf(t *rapid.T, k *schema.Key, f reflect.Value) {
	switch k.Kind {
	case schema.Number:
		if k.Optional && rapid.Bool().Draw(t, "absent") {
			schema.Assign(f, nil)
			return
		}
		schema.Assign(f, genNumber(k).Draw(t, k.Path))
	case schema.Text:
		schema.Assign(f, genText.Draw(t, k.Path))
	case schema.Word:
		schema.Assign(f, rapid.SampledFrom(k.Words).Draw(t, k.Path))
	case schema.Switch:
		schema.Assign(f, rapid.Bool().Draw(t, k.Path))
	case schema.Numbers:
		schema.Assign(f, rapid.SampledFrom([]any{nil, []float64{27, 12, 28, 15, 4, 14}, []float64{0.1, 20.25, 30, 40, 5, 4.65}}).Draw(t, k.Path))
	case schema.Words:
		schema.Assign(f, rapid.SampledFrom([]any{nil, []string{"honey.mass"}, []string{"yeast", "grain"}}).Draw(t, k.Path))
	case schema.Date:
		schema.Assign(f, rapid.SampledFrom([]any{nil, schema.Day("2026-06-20"), schema.Day("1999-12-31")}).Draw(t, k.Path))
	case schema.Time:
		if rapid.Bool().Draw(t, "no time") {
			schema.Assign(f, nil)
			return
		}
		zone := time.FixedZone("", 900*rapid.IntRange(-48, 48).Draw(t, "zone"))
		schema.Assign(f, time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "at"), 0).In(zone))
	case schema.Settings:
		m := map[string]any{}
		for _, name := range rapid.SliceOfN(rapid.SampledFrom([]string{"mash.rest.0.temperature_c", "yeast.0.temperature_c", "mash", "odd key", "é", "honey.0.moment"}), 0, 3).Draw(t, "names") {
			m[name] = rapid.SampledFrom([]any{64.0, 12.5, "boil", true, []string{"a"}, 7}).Draw(t, "setting")
		}
		schema.Assign(f, m)
	}
}

func genStruct(t *rapid.T, b *schema.Branch, v reflect.Value, most int) {
	b.SetDefaults(v)
	for _, k := range b.Kids {
		f := k.Of(v)
		switch {
		case k.Leaf():
			if k.Path != "format" && rapid.IntRange(0, 2).Draw(t, "set") > 0 {
				genLeaf(t, k.Key, f)
			}
		case k.List:
			least := 0
			if k.Name == "rest" || k.Name == "grain" || k.Name == "yeast" {
				least = 1
			}
			n := rapid.IntRange(least, most).Draw(t, k.Path)
			l := reflect.MakeSlice(f.Type(), n, n)
			for i := 0; i < n; i++ {
				genStruct(t, k, l.Index(i), most)
			}
			f.Set(l)
		case k.Opt:
			if rapid.Bool().Draw(t, k.Path) {
				f.Set(reflect.New(k.Type))
				genStruct(t, k, f.Elem(), most)
			}
		default:
			genStruct(t, k, f, most)
		}
	}
}

// genDesign draws any valid design.
func genDesign(t *rapid.T) design.Design {
	var d design.Design
	genStruct(t, design.Schema().Root, reflect.ValueOf(&d).Elem(), 3)
	repair(&d)
	return d
}

// repair makes what must hold between values true.
func repair(d *design.Design) {
	for i := range d.Yeast {
		y := &d.Yeast[i]
		if y.AttenuationLowPct > y.AttenuationHighPct {
			y.AttenuationLowPct, y.AttenuationHighPct = y.AttenuationHighPct, y.AttenuationLowPct
		}
	}
	for i := range d.Reading {
		r := &d.Reading[i]
		_, lo, hi := design.ValueRange(r.What, r.Instrument)
		r.Value = math.Max(lo, math.Min(hi, r.Value))
		if r.What == "foam" {
			r.Value = math.Trunc(r.Value)
		}
		if r.What == design.DrierThan || r.What == design.FullerThan {
			r.Value, r.Other = math.Trunc(r.Value), "sister.toml"
		}
	}
}

// genEdit draws a design that differs from d in a few places, as a session at
// the levers leaves it.
func genEdit(t *rapid.T, d design.Design) design.Design {
	e := d.Clone()
	other := genDesign(t)
	for n := rapid.IntRange(0, 5).Draw(t, "edits"); n > 0; n-- {
		mutate(t, design.Schema().Root, reflect.ValueOf(&e).Elem(), reflect.ValueOf(&other).Elem())
	}
	repair(&e)
	return e
}

func mutate(t *rapid.T, b *schema.Branch, v, o reflect.Value) {
	k := rapid.SampledFrom(b.Kids).Draw(t, "where")
	f, g := k.Of(v), k.Of(o)
	switch {
	case k.Path == "format":
	case k.Leaf() || k.Opt && (f.IsNil() || g.IsNil()):
		f.Set(g)
	case k.Opt:
		mutate(t, k, f.Elem(), g.Elem())
	case k.List:
		editList(t, k, f, g)
	default:
		mutate(t, k, f, g)
	}
}

func editList(t *rapid.T, k *schema.Branch, f, g reflect.Value) {
	n := f.Len()
	var out []reflect.Value
	for i := 0; i < n; i++ {
		out = append(out, f.Index(i))
	}
	what := rapid.SampledFrom([]string{"change", "add", "remove", "swap", "all"}).Draw(t, "what")
	switch {
	case what == "all":
		f.Set(g)
		return
	case what == "change" && n > 0 && g.Len() > 0:
		mutate(t, k, f.Index(rapid.IntRange(0, n-1).Draw(t, "i")), g.Index(0))
		return
	case what == "add" && g.Len() > 0:
		at := rapid.IntRange(0, n).Draw(t, "at")
		out = append(out[:at], append([]reflect.Value{g.Index(0)}, out[at:]...)...)
	case what == "remove" && n > 1:
		at := rapid.IntRange(0, n-1).Draw(t, "at")
		out = append(out[:at], out[at+1:]...)
	case what == "swap" && n > 1:
		out[0], out[n-1] = out[n-1], out[0]
	}
	l := reflect.MakeSlice(f.Type(), 0, len(out))
	for _, e := range out {
		l = reflect.Append(l, e)
	}
	f.Set(l)
}

// layout writes a design in a manner of its own: headers, dotted keys or inline
// tables, in any order, with comments and unknown keys between.
type layout struct {
	t    *rapid.T
	text strings.Builder
	n    int
	airy bool // a blank line above every header and what belongs to it
}

func genSource(t *rapid.T, d design.Design) string {
	l := &layout{t: t}
	root := design.Schema().Root
	v := reflect.ValueOf(&d).Elem()
	if l.airy = l.pick(2); l.airy {
		l.say("# airy\n")
	}
	l.noise("top")
	var later []func()
	for _, k := range rapid.Permutation(root.Kids).Draw(t, "order") {
		f := k.Of(v)
		switch {
		case k.Leaf():
			l.key("", line{k.Name, schema.ValueOf(f), k})
			l.noise("top")
		case k.List && f.Len() == 0 || k.Opt && f.IsNil():
		case k.List && l.pick(4):
			l.say("%s = %s\n", k.Name, l.inlineList(k, f))
		case k.List:
			later = append(later, func() { l.headedList(k, f) })
		default:
			if k.Opt {
				f = f.Elem()
			}
			l.section(k, f, &later)
		}
	}
	for _, i := range rapid.Permutation(count(len(later))).Draw(t, "sections") {
		l.air()
		later[i]()
	}
	s := l.text.String()
	if l.pick(4) {
		s = strings.TrimRight(s, "\n")
	}
	if l.pick(4) && !strings.Contains(s, `"""`) {
		s = strings.ReplaceAll(s, "\n", "\r\n")
	}
	if l.pick(8) {
		s = bom + s
	}
	return s
}

func count(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func (l *layout) pick(oneIn int) bool         { return rapid.IntRange(1, oneIn).Draw(l.t, "pick") == 1 }
func (l *layout) say(format string, a ...any) { fmt.Fprintf(&l.text, format, a...) }
func (l *layout) lines(b *schema.Branch, v reflect.Value) []line {
	ls := lines(b, v, l.pick(2))
	if len(ls) == 0 {
		return ls
	}
	return rapid.Permutation(ls).Draw(l.t, "keys")
}

func (l *layout) air() {
	if l.airy {
		l.say("\n")
	}
}

// noise puts in what a person may have written that is not ours.
func (l *layout) noise(where string) {
	l.n++
	id := strings.NewReplacer(".", "_").Replace(where)
	switch rapid.IntRange(0, 7).Draw(l.t, "noise") {
	case 0:
		l.say("# keep %s %d [\"'''{\n", where, l.n)
	case 1:
		l.say("\n")
	case 2:
		l.say("x_%s_%d = [ 1, # one ]\n  { a = '#' } ]\n", id, l.n)
	case 3:
		l.say("  x.\"%s_%d\" = '''\n[kit] # \"\n''' # keep\n", id, l.n)
	case 4:
		l.say("x_%s_%d = 1979-05-27 07:32:00 # keep\n", id, l.n)
	}
}

func (l *layout) key(indent string, k line) {
	if k.value == nil {
		return
	}
	if m, ok := k.value.(map[string]any); ok && l.pick(3) && m["mash"] == nil && len(m) > 0 {
		for _, n := range sortedNames(m) {
			l.say("%s%s.%s = %s\n", indent, k.key, schema.FormatKey(n), literal(schema.SettingValue(m[n])))
		}
		return
	}
	s := longLiteral(k.value, "\n")
	if k.key == "on_sieve_pct" {
		s = strings.ReplaceAll(s, ", ", ",\n # keep\n  ")
	}
	l.say("%s%s = %s", indent, k.key, s)
	if l.pick(3) {
		l.say("   # keep")
	}
	l.say("\n")
}

func (l *layout) section(k *schema.Branch, f reflect.Value, later *[]func()) {
	var lists []*schema.Branch
	for _, s := range k.Kids {
		if s.List && s.Of(f).Len() > 0 {
			lists = append(lists, s)
		}
	}
	ls := l.lines(k, f)
	must := k.Opt // an optional table must stand there even when it says nothing
	switch how := rapid.IntRange(0, 5).Draw(l.t, "manner"); {
	case how == 0: // inline
		text := l.inline(ls)
		for _, s := range lists {
			text += ", " + s.Name + " = " + l.inlineList(s, s.Of(f))
		}
		if text = strings.TrimPrefix(text, ", "); text == "" && !must {
			return
		}
		l.say("%s = { %s }\n", k.Name, text)
	case how == 1 && (len(ls) > 0 || !must): // dotted
		for _, x := range ls {
			l.key("", line{k.Name + "." + x.key, x.value, x.leaf})
		}
		for _, s := range lists {
			l.say("%s.%s = %s\n", k.Name, s.Name, l.inlineList(s, s.Of(f)))
		}
	default:
		*later = append(*later, func() {
			if len(ls) > 0 || must || l.pick(3) {
				l.noise("before")
				l.say("[%s]\n", k.Name)
				l.noise(k.Name)
			}
			var settings map[string]any
			for _, x := range ls {
				if m, ok := x.value.(map[string]any); ok && l.pick(2) {
					settings = m
					continue
				}
				l.key("", x)
				l.noise(k.Name)
			}
			if settings != nil {
				l.say("[ghost.settings]\n")
				for _, n := range sortedNames(settings) {
					l.key("\t", line{schema.FormatKey(n), schema.SettingValue(settings[n]), nil})
				}
				l.n++
				l.say("[zz_%d]\n", l.n) // the noise to come is not a setting
			}
			for _, s := range lists {
				l.headedList(s, s.Of(f))
			}
		})
	}
}

func (l *layout) headedList(k *schema.Branch, f reflect.Value) {
	path := strings.TrimSuffix(k.Path, ".N")
	for i := 0; i < f.Len(); i++ {
		l.air()
		if l.pick(2) {
			l.say("\n# keep above %s\n", path)
		}
		l.say("[[%s]]\n", path)
		for _, x := range l.lines(k, f.Index(i)) {
			l.key("  ", x)
		}
		l.noise(path)
		if l.pick(4) {
			l.say("[%s.mine]\n  odd = %d\n", path, i)
		}
	}
}

func (l *layout) inline(ls []line) string {
	var parts []string
	for _, x := range ls {
		if x.value != nil {
			parts = append(parts, x.key+" = "+literal(x.value))
		}
	}
	if l.pick(4) {
		parts = append(parts, fmt.Sprintf("odd = %d", len(parts)))
	}
	return strings.Join(parts, rapid.SampledFrom([]string{", ", " ,", ",\n  "}).Draw(l.t, "comma"))
}

func (l *layout) inlineList(k *schema.Branch, f reflect.Value) string {
	var parts []string
	for i := 0; i < f.Len(); i++ {
		parts = append(parts, "{ "+l.inline(l.lines(k, f.Index(i)))+rapid.SampledFrom([]string{" }", "}", "\n # keep\n}"}).Draw(l.t, "end"))
	}
	return "[" + strings.Join(parts, rapid.SampledFrom([]string{", ", ",\n  # keep\n "}).Draw(l.t, "comma")) + rapid.SampledFrom([]string{"]", " , ]"}).Draw(l.t, "end")
}
