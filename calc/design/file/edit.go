package file

import (
	"sort"
	"strings"
)

// edit replaces a stretch of the source; start == end inserts.
type edit struct {
	start, end int
	text       string
	block      bool // a whole table: stands behind keys put in at one place
}

// apply makes all edits. Insertions come before what starts at the same place.
func apply(src string, edits []edit) string {
	sort.SliceStable(edits, func(i, j int) bool {
		a, b := edits[i], edits[j]
		if a.start != b.start {
			return a.start < b.start
		}
		if ai, bi := a.end == a.start, b.end == b.start; ai != bi {
			return ai
		}
		return !a.block && b.block
	})
	var out strings.Builder
	pos := 0
	for _, e := range edits {
		if e.start > pos {
			out.WriteString(src[pos:e.start])
			pos = e.start
		}
		out.WriteString(e.text)
		pos = max(pos, e.end)
	}
	out.WriteString(src[pos:])
	return out.String()
}

// lineStart and lineAfter are the bounds of the line around an offset.
func (w *writer) lineStart(at int) int {
	start := strings.LastIndexByte(w.src[:at], '\n') + 1
	if start == 0 && strings.HasPrefix(w.src, bom) {
		start = min(len(bom), at)
	}
	return start
}

func (w *writer) lineAfter(at int) int {
	if i := strings.IndexByte(w.src[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(w.src)
}

// line is the text of the line at an offset, without space around it.
func (w *writer) line(at int) string {
	return strings.TrimSpace(w.src[at:w.lineAfter(at)])
}

// filled is the offset behind the last line that holds an entry of the body,
// or its header.
func (w *writer) filled(b *body) int {
	if n := len(b.entries); n > 0 {
		return w.lineAfter(b.entries[n-1].end)
	}
	if b.header < 0 {
		return b.after
	}
	return w.lineAfter(b.after)
}

// lead is the start of the comment lines that stand directly above a header:
// they belong to it.
func (w *writer) lead(i int) int {
	b := w.doc.bodies[i]
	if b.header < 0 {
		return b.after
	}
	start := w.lineStart(b.header)
	stop := w.filled(w.doc.bodies[i-1])
	for start > stop {
		above := w.lineStart(start - 1)
		if above < stop || !strings.HasPrefix(w.line(above), "#") {
			break
		}
		start = above
	}
	return start
}

// next is where the body after the i-th begins, with its comments.
func (w *writer) next(i int) int {
	if i+1 < len(w.doc.bodies) {
		return w.lead(i + 1)
	}
	return len(w.src)
}

// content is the offset behind what belongs to the i-th body: its entries and
// the comment lines directly below them.
func (w *writer) content(i int) int {
	at, stop := w.filled(w.doc.bodies[i]), w.next(i)
	for at < stop && strings.HasPrefix(w.line(at), "#") {
		at = w.lineAfter(at)
	}
	return min(at, stop)
}

// removal is the stretch that goes when the i-th body goes: comments above,
// header, entries, and the blank lines that set it off.
func (w *writer) removal(i int) (start, end int) {
	start, end = w.lead(i), w.content(i)
	stop := w.next(i)
	for end < stop && w.line(end) == "" {
		end = w.lineAfter(end)
	}
	if end >= len(w.src) && i > 0 {
		for low := w.content(i - 1); start > low; {
			above := w.lineStart(start - 1)
			if above < low || w.line(above) != "" {
				break
			}
			start = above
		}
	}
	return start, end
}

// place of a body in the order of the file.
func (w *writer) place(b *body) int {
	return sort.Search(len(w.doc.bodies), func(i int) bool { return w.doc.bodies[i].header >= b.header })
}

// indent is the white space before an offset on its line.
func (w *writer) indent(at int) string {
	s := w.src[w.lineStart(at):at]
	if strings.TrimLeft(s, " \t") != "" {
		return ""
	}
	return s
}

// putBlock inserts whole tables behind the i-th body, or before it.
func (w *writer) putBlock(i int, before bool, text string) {
	if before {
		at := w.lead(i)
		w.edits = append(w.edits, edit{start: at, end: at, text: text + w.eol, block: true})
		return
	}
	at := w.content(i)
	head := w.eol
	if at > 0 && w.src[at-1] != '\n' { // the last line has no end yet
		head += w.eol
	}
	if at < len(w.src) && w.line(at) != "" {
		text += w.eol
	}
	w.edits = append(w.edits, edit{start: at, end: at, text: head + text, block: true})
}
