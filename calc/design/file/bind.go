package file

import (
	"fmt"
	"reflect"
	"strings"

	"skep/calc/design"
	"skep/calc/design/internal/schema"
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
				r.report(design.Error, kid.at, p, "%s is %s, expected a table [%s]", p, kindOf(raw), p)
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
	msg := fmt.Sprintf("%s is missing, expected %s", path, k.Key.Range())
	if k.Key.Note != "" {
		msg += ": " + k.Key.Note
	}
	r.report(design.Error, n.at, path, "%s", msg)
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
				r.report(design.Error, n.elems[i].at, path, "%s.%d is %s, expected a table [[%s]]", path, i, kindOf(e), path)
				return
			}
			maps = append(maps, m)
		}
	default:
		r.report(design.Error, n.at, path, "%s is %s, expected a list of tables [[%s]]", path, kindOf(raw), path)
		return
	}
	if most := r.most(path); len(maps) > most {
		r.report(design.Error, n.elems[most].at, path, "%s has %d entries, at most %d can be kept", path, len(maps), most)
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
	msg := "unknown key " + schema.Short(path) + "; it is kept but not used"
	if k, ok := b.ByName[strings.ToLower(name)]; ok {
		msg += "; keys are written in lower case: " + k.Name
	} else if near := nearKid(b, name); near != "" {
		msg += "; did you mean " + near + "?"
	}
	at := []*node{n}
	if n.kind == listNode && !n.inline() {
		at = n.elems
	}
	for _, e := range at {
		r.report(design.Warning, e.at, path, "%s", msg)
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
	doc.ReadOnly = fmt.Sprintf("format = %d is newer than this Skep, which knows formats up to %d; the file can be looked at, not changed", doc.Design.Format, design.Format)
	r.report(design.Error, r.nodes["format"].at, "format", "%s", doc.ReadOnly)
}

// kindOf names a decoded value for a message.
func kindOf(v any) string {
	switch x := v.(type) {
	case string:
		return "the text " + schema.ShortQuote(x)
	case bool:
		return fmt.Sprint(x)
	case int64:
		return fmt.Sprintf("the number %d", x)
	case float64:
		return "the number " + schema.FormatNumber(x)
	case map[string]any:
		return "a table"
	case []map[string]any:
		return "a list of tables"
	case []any:
		return "a list"
	}
	return "a date or time"
}
