package file

import (
	"reflect"
	"strings"

	"skep/calc/design/internal/schema"
)

// list writes the differences between two lists of tables.
func (w *writer) list(k *schema.Branch, x, y reflect.Value, n *node) {
	switch {
	case n == nil:
		w.newEntries(k, y)
	case n.inline():
		w.inlineList(k, x, y, n)
	default:
		w.headedList(k, x, y, n)
	}
}

// headedList is a list written under [[headers]].
func (w *writer) headedList(k *schema.Branch, x, y reflect.Value, n *node) {
	last := -1 // the kept entry before
	pending := map[int]string{}
	for _, s := range align(k, x, y, w.whole) {
		switch {
		case s.new < 0:
			w.drop(n.elems[s.old])
		case s.old < 0:
			if pending[last] != "" {
				pending[last] += w.eol
			}
			pending[last] += w.entryText(k, x, y.Index(s.new), n)
		default:
			last = s.old
			w.table(k, x.Index(s.old), y.Index(s.new), n.elems[s.old])
		}
	}
	for at := -1; at < len(n.elems); at++ {
		text, ok := pending[at]
		if !ok {
			continue
		}
		w.later = append(w.later, func() {
			if at < 0 {
				w.putBlock(w.place(n.elems[0].bodies[0]), true, text)
			} else {
				w.putBlock(w.lastBody(n.elems[at]), false, text)
			}
		})
	}
}

// entryText is a new entry of a list: the text of an old one that is alike, so
// that a moved entry takes its comments along, or else written anew.
func (w *writer) entryText(k *schema.Branch, x, v reflect.Value, n *node) string {
	for i := 0; i < x.Len() && w.whole; i++ {
		e := n.elems[i]
		if w.moved[e] || !k.Same(x.Index(i), v) {
			continue
		}
		w.moved[e] = true
		var text strings.Builder
		for _, b := range w.bodiesOf(e) {
			i := w.place(b)
			t := w.src[w.lead(i):w.content(i)]
			if !strings.HasSuffix(t, "\n") {
				t += w.eol
			}
			text.WriteString(t)
		}
		return text.String()
	}
	first := n.elems[0].bodies[0]
	text := w.header(k.Path, true, w.indent(first.header))
	indent := ""
	if len(first.entries) > 0 {
		indent = w.indent(first.entries[0].start)
	}
	for _, l := range lines(k, v, true) {
		text += w.keyLine(indent, l)
	}
	return text
}

// newEntries writes a list that the file does not have yet.
func (w *writer) newEntries(k *schema.Branch, y reflect.Value) {
	text := ""
	for i := 0; i < y.Len(); i++ {
		if i > 0 {
			text += w.eol
		}
		text += w.header(k.Path, true, "")
		for _, l := range lines(k, y.Index(i), true) {
			text += w.keyLine("", l)
		}
	}
	w.later = append(w.later, func() { w.putBlock(w.bodyBefore(k), false, text) })
}

// newTable writes a table that the file does not have yet.
func (w *writer) newTable(k *schema.Branch, ls []line) {
	text := w.header(k.Path, false, "")
	for _, l := range ls {
		text += w.keyLine("", l)
	}
	w.later = append(w.later, func() { w.putBlock(w.bodyBefore(k), false, text) })
}

// inlineList is a list written as [{…}, {…}].
func (w *writer) inlineList(k *schema.Branch, x, y reflect.Value, n *node) {
	steps := align(k, x, y, w.whole)
	kept := make([]bool, len(n.elems))
	lastKept := -1
	for _, s := range steps {
		if s.old >= 0 && s.new >= 0 {
			kept[s.old] = true
			lastKept = s.old
		}
	}
	at := -1
	for _, s := range steps {
		switch {
		case s.old >= 0 && s.new >= 0:
			at = s.old
			w.table(k, x.Index(at), y.Index(s.new), n.elems[at])
		case s.old < 0:
			text := w.inlineEntry(k, x, y.Index(s.new), n)
			pos := n.start + 1
			switch {
			case at >= 0:
				pos, text = n.elems[at].end, ", "+text
			case lastKept >= 0 || s.new+1 < y.Len():
				text += ", "
			}
			w.edits = append(w.edits, edit{start: pos, end: pos, text: text})
		}
	}
	w.removeInline(n, kept, lastKept)
}

func (w *writer) removeInline(n *node, kept []bool, lastKept int) {
	total, commas := len(n.elems), n.commas
	cut := func(start, end int) { w.edits = append(w.edits, edit{start: start, end: end}) }
	if total == 0 {
		return
	}
	if lastKept < 0 {
		end := n.elems[total-1].end
		if len(commas) == total {
			end = commas[total-1] + 1
		}
		cut(n.start+1, end)
		return
	}
	stop := total
	if lastKept < total-1 && len(commas) < total { // the tail has no comma of its own
		cut(commas[lastKept], n.elems[total-1].end)
		stop = lastKept
	}
	for i := 0; i < stop; i++ {
		if kept[i] {
			continue
		}
		start := n.start + 1
		if i > 0 {
			start = commas[i-1] + 1
		}
		cut(start, commas[i]+1)
	}
}

func (w *writer) inlineEntry(k *schema.Branch, x, v reflect.Value, n *node) string {
	for i := 0; i < x.Len() && w.whole; i++ {
		if e := n.elems[i]; !w.moved[e] && k.Same(x.Index(i), v) {
			w.moved[e] = true
			return w.src[e.start:e.end]
		}
	}
	var parts []string
	for _, l := range lines(k, v, true) {
		parts = append(parts, l.key+" = "+literal(l.value))
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

// settings writes the differences between two settings of a ghost.
func (w *writer) settings(b, k *schema.Branch, fx, fy reflect.Value, kid, n *node) {
	now, _ := schema.ValueOf(fy).(map[string]any)
	if kid == nil {
		w.put(b, n, k.Name, now)
		return
	}
	nested := false
	for _, sub := range kid.kids {
		nested = nested || sub.kind == tableNode
	}
	switch {
	case kid.inline() && (nested || len(now) == 0):
		w.edits = append(w.edits, edit{start: kid.start, end: kid.end, text: literal(orEmpty(now))})
	case nested:
		w.drop(kid)
		w.put(b, n, k.Name, orEmpty(now))
	default:
		was, _ := schema.ValueOf(fx).(map[string]any)
		w.eachSetting(kid, was, now)
	}
}

func orEmpty(m map[string]any) map[string]any {
	if m == nil {
		return map[string]any{}
	}
	return m
}

func (w *writer) eachSetting(kid *node, was, now map[string]any) {
	for i, name := range kid.names {
		e, v := kid.kids[i], schema.SettingValue(now[name])
		switch {
		case v == nil:
			w.change(e.entry.body).gone[e.entry] = true
		case !schema.SameValue(schema.SettingValue(was[name]), v):
			w.replace(e, v)
		}
	}
	for _, name := range sortedNames(now) {
		if kid.byName[name] == nil {
			w.put(&schema.Branch{Path: "ghost.settings"}, kid, name, schema.SettingValue(now[name]))
		}
	}
}
