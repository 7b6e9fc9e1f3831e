package file

import (
	"reflect"
	"slices"
	"strings"

	"skep/calc/design"
	"skep/calc/design/internal/schema"
	"skep/calc/message"
)

// ErrLayout is wrapped by [Document.Write] when a file is laid out in a way
// that cannot be changed in place without losing what a person wrote. [Encode]
// writes the design anew.
var ErrLayout = message.NewError("the file's layout cannot be changed in place")

// Write gives the document's text with only those values changed in which d
// differs from what was read: comments, order, spacing and unknown keys stay
// as they are, byte for byte. A key that is not in the file is added when its
// value is not the default. The document itself is not changed: parse the
// result to go on from it.
//
// A design with errors, a read-only document and a file with a value that could
// not be read are refused.
func (doc *Document) Write(d design.Design) ([]byte, error) {
	if doc.ReadOnly != nil {
		return nil, doc.ReadOnly
	}
	if doc.broken != nil {
		return nil, message.NewError("the file has errors and is not overwritten: {error}", doc.broken)
	}
	if err := design.FirstError(d.Validate()); err != nil {
		return nil, err
	}
	from := doc
	if mid, moved := reorder(doc.base, d); moved {
		text, err := doc.rewrite(mid, true)
		if err != nil {
			return nil, err
		}
		from, _ = Parse(doc.file, []byte(text))
	}
	text, err := from.rewrite(d, false)
	if err != nil {
		return nil, err
	}
	return []byte(text), nil
}

// reorder is the base with the entries of its lists in the order of d.
func reorder(base, d design.Design) (design.Design, bool) {
	mid, any := base.Clone(), false
	x, y := reflect.ValueOf(&mid).Elem(), reflect.ValueOf(&d).Elem()
	var walk func(b *schema.Branch, x, y reflect.Value)
	walk = func(b *schema.Branch, x, y reflect.Value) {
		for _, k := range b.Kids {
			switch {
			case k.Leaf() || k.Opt:
			case k.List:
				l, moved := reordered(k, k.Of(x), k.Of(y))
				if moved {
					k.Of(x).Set(l)
					any = true
				}
			default:
				walk(k, k.Of(x), k.Of(y))
			}
		}
	}
	walk(design.Schema().Root, x, y)
	return mid, any
}

// rewrite edits the text in place and makes sure that it then says d.
func (doc *Document) rewrite(d design.Design, whole bool) (string, error) {
	if d.Equal(doc.base) {
		return doc.src, nil
	}
	w := &writer{doc: doc, src: doc.src, eol: doc.eol, whole: whole, changes: map[*body]*change{}, dead: map[*body]bool{}, moved: map[*node]bool{}}
	w.table(design.Schema().Root, reflect.ValueOf(&doc.base).Elem(), reflect.ValueOf(&d).Elem(), doc.root)
	text := w.finish()
	if len(text) > sizeLimit {
		return "", message.NewError("the file would have {count} bytes, a design has at most {most}", len(text), sizeLimit)
	}
	again, found := Parse(doc.file, []byte(text))
	if again == nil || !again.Design.Equal(d) {
		if err := design.FirstError(found); err != nil {
			return "", message.NewError("{name}: {why}", ErrLayout, err)
		}
		return "", ErrLayout
	}
	return text, nil
}

// writer gathers what changes, body by body, and then makes the edits.
type writer struct {
	doc     *Document
	src     string
	eol     string
	whole   bool // entries of lists only move
	edits   []edit
	order   []*body // of changes, so that edits come out the same each time
	changes map[*body]*change
	dead    map[*body]bool // removed with all they hold
	later   []func()       // new tables, put in once it is known what stays
	moved   map[*node]bool // entries whose text was taken elsewhere
}

// change is what comes into and goes from one body.
type change struct {
	puts []put
	gone map[*entry]bool
}

// put is a key to be added to a body, behind an entry (nil: behind the header).
type put struct {
	behind *entry
	key    string
	value  any
}

func (w *writer) change(b *body) *change {
	c := w.changes[b]
	if c == nil {
		c = &change{gone: map[*entry]bool{}}
		w.changes[b] = c
		w.order = append(w.order, b)
	}
	return c
}

func (w *writer) replace(n *node, v any) {
	old := w.src[n.start:n.end]
	if xs, ok := v.([]float64); ok && len(xs) == len(n.elems) {
		for i, e := range n.elems { // keeps the layout and the comments of a list
			w.edits = append(w.edits, edit{start: e.start, end: e.end, text: like(xs[i], w.src[e.start:e.end], w.eol, true)})
		}
		return
	}
	inline := n.entry == nil || n.entry.body.inline
	w.edits = append(w.edits, edit{start: n.start, end: n.end, text: like(v, old, w.eol, inline)})
}

// table writes the differences between two structs into the table's places.
func (w *writer) table(b *schema.Branch, x, y reflect.Value, n *node) {
	for _, k := range b.Kids {
		fx, fy, kid := k.Of(x), k.Of(y), n.byName[k.Name]
		if k.SameField(fx, fy) {
			continue
		}
		switch {
		case k.Leaf() && k.Key.Kind == schema.Settings:
			w.settings(b, k, fx, fy, kid, n)
		case k.Leaf():
			w.leaf(b, k, schema.ValueOf(fy), kid, n)
		case k.List:
			w.list(k, fx, fy, kid)
		case k.Opt && fy.IsNil():
			w.drop(kid)
		case k.Opt && fx.IsNil():
			w.newTable(k, lines(k, fy.Elem(), true))
		case k.Opt:
			w.table(k, fx.Elem(), fy.Elem(), kid)
			w.keepAlive(k, fy.Elem(), kid)
		case kid == nil:
			w.newTable(k, lines(k, fy, false))
		default:
			w.table(k, fx, fy, kid)
		}
	}
}

func (w *writer) leaf(b, k *schema.Branch, v any, kid, n *node) {
	switch {
	case kid == nil && v != nil:
		w.put(b, n, k.Name, v)
	case kid == nil:
	case v == nil:
		w.change(kid.entry.body).gone[kid.entry] = true
	default:
		w.replace(kid, v)
	}
}

// put adds a key to a table, wherever that table has a place of its own.
func (w *writer) put(b *schema.Branch, n *node, key string, v any) {
	for _, body := range n.bodies {
		if w.dead[body] {
			continue
		}
		c := w.change(body)
		c.puts = append(c.puts, put{behind(b, body, key), schema.FormatKey(key), v})
		return
	}
	if len(n.dotted) > 0 {
		e := n.dotted[len(n.dotted)-1]
		parts := append(slices.Clone(e.parts[:n.depth]), key)
		for i := range parts {
			parts[i] = schema.FormatKey(parts[i])
		}
		c := w.change(e.body)
		c.puts = append(c.puts, put{e, strings.Join(parts, "."), v})
		return
	}
	// The table is only implied by headers below it: give it one of its own.
	first := w.firstBody(n)
	text := w.header(b.Path, false, "") + w.keyLine("", line{key: key, value: v})
	for i, e := range w.edits { // a second key joins the first
		if e.block && e.start == w.lead(first) && strings.HasPrefix(e.text, w.header(b.Path, false, "")) {
			w.edits[i].text = strings.TrimSuffix(e.text, w.eol) + w.keyLine("", line{key: key, value: v}) + w.eol
			return
		}
	}
	w.putBlock(first, true, text)
}

// behind is the entry that a new key follows: the nearest key before it in the
// order of the schema, else the body's last.
func behind(b *schema.Branch, body *body, key string) *entry {
	var last *entry
	rank := func(name string) int {
		for i, k := range b.Kids {
			if k.Name == name {
				return i
			}
		}
		return -1
	}
	mine, best := rank(key), -1
	for _, e := range body.entries {
		if r := rank(e.parts[0]); mine >= 0 && len(e.parts) == 1 && r >= 0 && r < mine && r > best {
			last, best = e, r
		}
	}
	if last == nil && len(body.entries) > 0 {
		last = body.entries[len(body.entries)-1]
	}
	return last
}

// drop removes a table or a value with all that belongs to it.
func (w *writer) drop(n *node) {
	if n.entry != nil {
		if !w.dead[n.entry.body] {
			w.change(n.entry.body).gone[n.entry] = true
		}
		return
	}
	for _, b := range n.bodies {
		w.dead[b] = true
	}
	for _, k := range n.kids {
		w.drop(k)
	}
	for _, e := range n.elems {
		w.drop(e)
	}
}

// keepAlive writes a key out when the last dotted key that made an optional
// table has gone, since the table would go with it.
func (w *writer) keepAlive(k *schema.Branch, v reflect.Value, n *node) {
	if w.alive(n) {
		return
	}
	for _, l := range k.Kids {
		if x := schema.ValueOf(l.Of(v)); l.Leaf() && x != nil {
			w.put(k, n, l.Name, x)
			return
		}
	}
}

func (w *writer) alive(n *node) bool {
	for _, b := range n.bodies {
		if !w.dead[b] {
			return true
		}
	}
	if n.entry != nil {
		return !w.change(n.entry.body).gone[n.entry]
	}
	for _, e := range n.dotted {
		c := w.change(e.body)
		if !c.gone[e] {
			return true
		}
		for _, p := range c.puts {
			if p.behind == e {
				return true
			}
		}
	}
	for _, k := range n.kids {
		if w.alive(k) {
			return true
		}
	}
	return false
}
