package file

import (
	"fmt"
	"reflect"
	"strings"

	"skep/calc/design"
	"skep/calc/design/internal/schema"
	"skep/calc/message"
)

// table fills a struct from a table of the source.
func (r *reader) table(b *schema.Branch, v reflect.Value, m map[string]any, n *node, path string) {
	r.nodes[path] = n
	for i, name := range n.names {
		kid, p := n.kids[i], schema.Join(path, name)
		k, ok := b.ByName[name]
		if !ok {
			r.unknown(b, kid, name, p)
			continue
		}
		f, raw := k.Of(v), m[name]
		r.nodes[p] = kid
		switch {
		case k.Leaf():
			r.leaf(k.Key, f, raw, kid, p)
		case k.List:
			r.list(k, f, raw, kid, p)
		default:
			sub, ok := raw.(map[string]any)
			if !ok {
				r.report(design.Error, kid.at, p, "{key} is {value}, expected a table [{key}]", p, kindOf(raw))
				continue
			}
			if k.Opt {
				f.Set(reflect.New(k.Type))
				f = f.Elem()
				k.SetDefaults(f)
			}
			r.table(k, f, sub, kid, p)
		}
	}
	for _, k := range b.Kids {
		if k.Leaf() && k.Key.Required && n.byName[k.Name] == nil {
			r.missing(k, n, schema.Join(path, k.Name))
		} else if !k.Leaf() && !k.List && !k.Opt && n.byName[k.Name] == nil {
			for _, l := range k.Kids {
				if l.Leaf() && l.Key.Required {
					r.missing(l, n, schema.Join(schema.Join(path, k.Name), l.Name))
				}
			}
		}
	}
}

func (r *reader) missing(k *schema.Branch, n *node, path string) {
	if strings.HasPrefix(k.Path, "reading.") && k.Name == "value" {
		if w := n.byName["what"]; w != nil && schema.Unquoted(r.src[w.start:w.end]) == "pitched" {
			return // pitched has only one value
		}
	}
	if k.Key.Note != "" {
		r.report(design.Error, n.at, path, "{key} is missing, expected {range}: {note}", path, k.Key.Range(), message.Message{Text: k.Key.Note})
		return
	}
	r.report(design.Error, n.at, path, "{key} is missing, expected {range}", path, k.Key.Range())
}

// list fills a slice of structs from a list of tables.
func (r *reader) list(k *schema.Branch, f reflect.Value, raw any, n *node, path string) {
	var maps []map[string]any
	switch x := raw.(type) {
	case []map[string]any:
		maps = x
	case []any:
		for i, e := range x {
			m, ok := e.(map[string]any)
			if !ok {
				r.report(design.Error, n.elems[i].at, path, "{entry} is {value}, expected a table [[{list}]]", fmt.Sprintf("%s.%d", path, i), kindOf(e), path)
				return
			}
			maps = append(maps, m)
		}
	default:
		r.report(design.Error, n.at, path, "{key} is {value}, expected a list of tables [[{key}]]", path, kindOf(raw))
		return
	}
	if most := r.most(path); len(maps) > most {
		r.report(design.Error, n.elems[most].at, path, "{key} has {count} entries, at most {most} can be kept", path, len(maps), most)
		return
	}
	out := reflect.MakeSlice(f.Type(), len(maps), len(maps))
	for i, m := range maps {
		e := out.Index(i)
		k.SetDefaults(e)
		r.table(k, e, m, n.elems[i], fmt.Sprintf("%s.%d", path, i))
	}
	if len(maps) > 0 {
		f.Set(out)
	}
}

// unknown warns of a key that is kept but not used, once for each place.
func (r *reader) unknown(b *schema.Branch, n *node, name, path string) {
	key := schema.Short(path)
	msg := message.New("unknown key {key}; it is kept but not used", key)
	if k, ok := b.ByName[strings.ToLower(name)]; ok {
		msg = message.New("unknown key {key}; it is kept but not used; keys are written in lower case: {name}", key, k.Name)
	} else if near := nearKid(b, name); near != "" {
		msg = message.New("unknown key {key}; it is kept but not used; did you mean {name}?", key, near)
	}
	at := []*node{n}
	if n.kind == listNode && !n.inline() {
		at = n.elems
	}
	for _, e := range at {
		r.say(design.Warning, e.at, path, msg)
	}
}

func nearKid(b *schema.Branch, name string) string {
	best, cost := "", 1+len(name)/4
	for _, k := range b.Kids {
		if c := schema.Distance(strings.ToLower(name), k.Name); c <= cost && c < len(name) {
			best, cost = k.Name, c-1
		}
	}
	return best
}

// newer marks a file of a format to come.
func (r *reader) newer(doc *Document) {
	if doc.Design.Format <= design.Format {
		return
	}
	why := message.New("format = {format} is newer than this Skep, which knows formats up to {known}; the file can be looked at, not changed", doc.Design.Format, design.Format)
	doc.ReadOnly = why.Err()
	r.say(design.Error, r.nodes["format"].at, "format", why)
}

// kindOf names a decoded value for a message.
func kindOf(v any) message.Message {
	switch x := v.(type) {
	case string:
		return message.New("the text {value}", schema.ShortQuote(x))
	case bool:
		return message.Plain(fmt.Sprint(x))
	case int64:
		return message.New("the number {value}", fmt.Sprint(x))
	case float64:
		return message.New("the number {value}", schema.FormatNumber(x))
	case map[string]any:
		return message.New("a table")
	case []map[string]any:
		return message.New("a list of tables")
	case []any:
		return message.New("a list")
	}
	return message.New("a date or time")
}
