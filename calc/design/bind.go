package design

import (
	"fmt"
	"reflect"
	"strings"
)

// table fills a struct from a table of the source.
func (r *reader) table(b *branch, v reflect.Value, m map[string]any, n *node, path string) {
	r.nodes[path] = n
	for i, name := range n.names {
		kid, p := n.kids[i], joinPath(path, name)
		k, ok := b.byName[name]
		if !ok {
			r.unknown(b, kid, name, p)
			continue
		}
		f, raw := k.of(v), m[name]
		r.nodes[p] = kid
		switch {
		case k.leaf():
			r.leaf(k.key, f, raw, kid, p)
		case k.list:
			r.list(k, f, raw, kid, p)
		default:
			sub, ok := raw.(map[string]any)
			if !ok {
				r.report(Error, kid.at, p, "%s is %s, expected a table [%s]", p, kindOf(raw), p)
				continue
			}
			if k.opt {
				f.Set(reflect.New(k.typ))
				f = f.Elem()
				k.setDefaults(f)
			}
			r.table(k, f, sub, kid, p)
		}
	}
	for _, k := range b.kids {
		if k.leaf() && k.key.Required && n.byName[k.name] == nil {
			r.missing(k, n, joinPath(path, k.name))
		} else if !k.leaf() && !k.list && !k.opt && n.byName[k.name] == nil {
			for _, l := range k.kids {
				if l.leaf() && l.key.Required {
					r.missing(l, n, joinPath(joinPath(path, k.name), l.name))
				}
			}
		}
	}
}

func (r *reader) missing(k *branch, n *node, path string) {
	if strings.HasPrefix(k.path, "reading.") && k.name == "value" {
		if w := n.byName["what"]; w != nil && unquoted(r.src[w.start:w.end]) == "pitched" {
			return // pitched has only one value
		}
	}
	msg := fmt.Sprintf("%s is missing, expected %s", path, k.key.Range())
	if k.key.Note != "" {
		msg += ": " + k.key.Note
	}
	r.report(Error, n.at, path, "%s", msg)
}

// list fills a slice of structs from a list of tables.
func (r *reader) list(k *branch, f reflect.Value, raw any, n *node, path string) {
	var maps []map[string]any
	switch x := raw.(type) {
	case []map[string]any:
		maps = x
	case []any:
		for i, e := range x {
			m, ok := e.(map[string]any)
			if !ok {
				r.report(Error, n.elems[i].at, path, "%s.%d is %s, expected a table [[%s]]", path, i, kindOf(e), path)
				return
			}
			maps = append(maps, m)
		}
	default:
		r.report(Error, n.at, path, "%s is %s, expected a list of tables [[%s]]", path, kindOf(raw), path)
		return
	}
	if len(maps) > listLimit {
		r.report(Error, n.elems[listLimit].at, path, "%s has %d entries, at most %d can be kept", path, len(maps), listLimit)
		return
	}
	out := reflect.MakeSlice(f.Type(), len(maps), len(maps))
	for i, m := range maps {
		e := out.Index(i)
		k.setDefaults(e)
		r.table(k, e, m, n.elems[i], fmt.Sprintf("%s.%d", path, i))
	}
	if len(maps) > 0 {
		f.Set(out)
	}
}

// unknown warns of a key that is kept but not used, once for each place.
func (r *reader) unknown(b *branch, n *node, name, path string) {
	msg := "unknown key " + short(path) + "; it is kept but not used"
	if k, ok := b.byName[strings.ToLower(name)]; ok {
		msg += "; keys are written in lower case: " + k.name
	} else if near := nearKid(b, name); near != "" {
		msg += "; did you mean " + near + "?"
	}
	at := []*node{n}
	if n.kind == listNode && !n.inline() {
		at = n.elems
	}
	for _, e := range at {
		r.report(Warning, e.at, path, "%s", msg)
	}
}

func nearKid(b *branch, name string) string {
	best, cost := "", 1+len(name)/4
	for _, k := range b.kids {
		if c := distance(strings.ToLower(name), k.name); c <= cost && c < len(name) {
			best, cost = k.name, c-1
		}
	}
	return best
}

// newer marks a file of a format to come.
func (r *reader) newer(doc *Document) {
	if doc.Design.Format <= Format {
		return
	}
	doc.ReadOnly = fmt.Sprintf("format = %d is newer than this Skep, which knows formats up to %d; the file can be looked at, not changed", doc.Design.Format, Format)
	r.report(Error, r.nodes["format"].at, "format", "%s", doc.ReadOnly)
}

// kindOf names a decoded value for a message.
func kindOf(v any) string {
	switch x := v.(type) {
	case string:
		return "the text " + shortQuote(x)
	case bool:
		return fmt.Sprint(x)
	case int64:
		return fmt.Sprintf("the number %d", x)
	case float64:
		return "the number " + formatNumber(x)
	case map[string]any:
		return "a table"
	case []map[string]any:
		return "a list of tables"
	case []any:
		return "a list"
	}
	return "a date or time"
}
