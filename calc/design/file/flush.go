package file

import (
	"sort"
	"strings"

	"skep/calc/design"
	"skep/calc/design/internal/schema"
)

// finish makes the text from all that was gathered.
func (w *writer) finish() string {
	for _, b := range w.order {
		if w.dead[b] {
			continue
		}
		if b.inline {
			w.flushInline(b, w.changes[b])
		} else {
			w.flushLines(b, w.changes[b])
		}
	}
	for i, b := range w.doc.bodies {
		if w.dead[b] {
			start, end := w.removal(i)
			w.edits = append(w.edits, edit{start: start, end: end})
		}
	}
	for _, f := range w.later {
		f()
	}
	return apply(w.src, w.edits)
}

// flushLines changes a body whose entries stand on lines of their own.
func (w *writer) flushLines(b *body, c *change) {
	for _, e := range b.entries {
		if c.gone[e] {
			w.edits = append(w.edits, edit{start: w.lineStart(e.start), end: w.lineAfter(e.end)})
		}
	}
	for _, p := range c.puts {
		at, indent := b.after, ""
		switch {
		case p.behind != nil:
			at, indent = w.lineAfter(p.behind.end), w.indent(p.behind.start)
		case b.header >= 0:
			at, indent = w.lineAfter(b.after), w.indent(b.header)
		}
		text := w.keyLine(indent, line{key: p.key, value: p.value})
		if at > 0 && at == len(w.src) && w.src[at-1] != '\n' {
			text = w.eol + strings.TrimSuffix(text, w.eol)
		}
		w.edits = append(w.edits, edit{start: at, end: at, text: text})
	}
}

// flushInline changes the inside of { … }.
func (w *writer) flushInline(b *body, c *change) {
	var puts []string
	for _, p := range c.puts {
		puts = append(puts, p.key+" = "+literal(p.value))
	}
	last := -1
	for i, e := range b.entries {
		if !c.gone[e] {
			last = i
		}
	}
	if last < 0 {
		text := strings.Join(puts, ", ")
		if text != "" {
			text = " " + text + " "
		}
		w.edits = append(w.edits, edit{start: b.after, end: b.close, text: text})
		return
	}
	for i := 0; i < len(b.entries); i++ {
		if !c.gone[b.entries[i]] {
			continue
		}
		j := i
		for j+1 < len(b.entries) && c.gone[b.entries[j+1]] {
			j++
		}
		if i > 0 {
			w.edits = append(w.edits, edit{start: b.entries[i-1].end, end: b.entries[j].end})
		} else {
			w.edits = append(w.edits, edit{start: b.entries[0].start, end: b.entries[j+1].start})
		}
		i = j
	}
	if len(puts) > 0 {
		at := b.entries[last].end
		w.edits = append(w.edits, edit{start: at, end: at, text: ", " + strings.Join(puts, ", ")})
	}
}

// header is the line that opens a table or an entry of a list.
func (w *writer) header(path string, list bool, indent string) string {
	path = strings.TrimSuffix(path, ".N")
	if list {
		return indent + "[[" + path + "]]" + w.eol
	}
	return indent + "[" + path + "]" + w.eol
}

func (w *writer) keyLine(indent string, l line) string {
	return indent + l.key + " = " + longLiteral(l.value, w.eol) + w.eol
}

// bodiesOf lists the headed bodies of a table and of all below it, in order.
func (w *writer) bodiesOf(n *node) []*body {
	var out []*body
	var walk func(n *node)
	walk = func(n *node) {
		for _, b := range n.bodies {
			if !b.inline {
				out = append(out, b)
			}
		}
		for _, k := range n.kids {
			walk(k)
		}
		for _, e := range n.elems {
			walk(e)
		}
	}
	walk(n)
	sort.Slice(out, func(i, j int) bool { return out[i].header < out[j].header })
	return out
}

// firstBody is the place of the first body that a table or its parts have.
func (w *writer) firstBody(n *node) int { return w.place(w.bodiesOf(n)[0]) }

// lastBody is the place of the last one that stays, or -1.
func (w *writer) lastBody(n *node) int {
	bs := w.bodiesOf(n)
	for i := len(bs) - 1; i >= 0; i-- {
		if !w.dead[bs[i]] {
			return w.place(bs[i])
		}
	}
	return -1
}

// bodyBefore is the place behind which a new table belongs: the last body of
// the nearest table before it in the order of the schema, else the file's top.
func (w *writer) bodyBefore(k *schema.Branch) int {
	at := 0
	for _, s := range design.Schema().Root.Kids {
		if s == k || s.ByName != nil && s.ByName["rest"] == k {
			break
		}
		if n := w.doc.root.byName[s.Name]; n != nil {
			if i := w.lastBody(n); i >= 0 {
				at = i
			}
		}
	}
	return at
}

func sortedNames(m map[string]any) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
