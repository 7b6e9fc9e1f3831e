package file

import (
	"fmt"
	"strings"
)

// The line index. BurntSushi/toml judges and decodes, but it loses comments,
// and the place of a wrong value or an unknown key. This scanner walks a source
// that has already been judged valid and remembers where everything stands.

type nodeKind int

const (
	valueNode nodeKind = iota // a scalar, or a list without tables
	tableNode
	listNode // [[header]] elements, or an inline array that holds tables
)

// node is one key of the source. A table may be spread over several places.
type node struct {
	kind   nodeKind
	at     int // offset of the key or header that first named it
	kids   []*node
	names  []string // of kids
	byName map[string]*node

	elems []*node // of a listNode

	// What gave it: an entry (key = value), the bodies under its headers, or
	// dotted entries that pass through it.
	entry  *entry
	bodies []*body
	dotted []*entry
	depth  int // number of key parts before a dotted table's own keys

	// The text of a value, an inline table or an inline array.
	start, end int
	commas     []int // offsets of the commas of an inline array
}

func (n *node) inline() bool { return n.end > n.start }

// entry is one "key = value" as written.
type entry struct {
	body       *body
	parts      []string
	start, end int // from the key to the end of the value
	value      *node
}

// body is a run of entries: what follows a header, the file's top, or the
// inside of an inline table.
type body struct {
	table   *node
	entries []*entry
	header  int // offset of the header line's '['; -1 for the file's top
	after   int // offset just behind the header's ']' or the inline '{'
	inline  bool
	close   int // offset of the inline '}'
}

type scanner struct {
	src    string
	pos    int
	bodies []*body // not the inline ones
}

// errLayout reports a source that the index does not understand although it
// was judged valid; the offset tells where.
type errLayout struct{ at int }

func (e errLayout) Error() string { return fmt.Sprintf("unexpected text at offset %d", e.at) }

// index scans a whole valid source.
func index(src string) (root *node, bodies []*body, err error) {
	s := &scanner{src: src}
	defer func() {
		if r := recover(); r != nil {
			e, ok := r.(errLayout)
			if !ok {
				panic(r)
			}
			err = e
		}
	}()
	if strings.HasPrefix(src, bom) {
		s.pos = len(bom)
	}
	root = &node{kind: tableNode, at: s.pos, byName: map[string]*node{}}
	b := &body{table: root, header: -1, after: s.pos}
	root.bodies = []*body{b}
	s.bodies = append(s.bodies, b)
	for {
		s.blank(true)
		switch {
		case s.pos >= len(s.src):
			return root, s.bodies, nil
		case s.src[s.pos] == '[':
			b = s.head(root)
		default:
			s.entry(b)
		}
	}
}

const bom = "\xef\xbb\xbf"

func (s *scanner) fail() { panic(errLayout{s.pos}) }

func (s *scanner) peek() byte {
	if s.pos < len(s.src) {
		return s.src[s.pos]
	}
	return 0
}

func (s *scanner) need(c byte) {
	if s.peek() != c {
		s.fail()
	}
	s.pos++
}

// blank skips spaces and, over lines, also line ends and comments.
func (s *scanner) blank(lines bool) {
	for s.pos < len(s.src) {
		switch c := s.src[s.pos]; {
		case c == ' ' || c == '\t':
			s.pos++
		case lines && (c == '\n' || c == '\r'):
			s.pos++
		case lines && c == '#':
			if i := strings.IndexByte(s.src[s.pos:], '\n'); i >= 0 {
				s.pos += i + 1
			} else {
				s.pos = len(s.src)
			}
		default:
			return
		}
	}
}

// head reads [a.b] or [[a.b]] and returns the body that follows.
func (s *scanner) head(root *node) *body {
	b := &body{header: s.pos}
	s.pos++
	double := s.peek() == '['
	if double {
		s.pos++
	}
	parts := s.keys()
	s.need(']')
	if double {
		s.need(']')
	}
	b.after = s.pos
	t := root
	for i, p := range parts {
		last := i+1 == len(parts)
		k := t.byName[p]
		if k == nil {
			k = t.add(p, &node{kind: tableNode, at: b.header, byName: map[string]*node{}})
			if last && double {
				k.kind = listNode
			}
		}
		if last && double {
			e := &node{kind: tableNode, at: b.header, byName: map[string]*node{}}
			k.elems = append(k.elems, e)
			k = e
		} else if k.kind == listNode && len(k.elems) > 0 {
			k = k.elems[len(k.elems)-1]
		}
		if k.kind != tableNode {
			s.fail()
		}
		t = k
	}
	t.bodies = append(t.bodies, b)
	b.table = t
	s.bodies = append(s.bodies, b)
	return b
}

func (t *node) add(name string, k *node) *node {
	t.kids = append(t.kids, k)
	t.names = append(t.names, name)
	t.byName[name] = k
	return k
}

// keys reads a.b."c d" up to what follows it.
func (s *scanner) keys() []string {
	var parts []string
	for {
		s.blank(false)
		start := s.pos
		switch s.peek() {
		case '"':
			s.str()
			parts = append(parts, unquoteBasic(s.src[start+1:s.pos-1]))
		case '\'':
			s.str()
			parts = append(parts, s.src[start+1:s.pos-1])
		default:
			for s.pos < len(s.src) && !strings.ContainsRune(" \t\r\n.=]#\"'", rune(s.src[s.pos])) {
				s.pos++
			}
			if s.pos == start {
				s.fail()
			}
			parts = append(parts, s.src[start:s.pos])
		}
		s.blank(false)
		if s.peek() != '.' {
			return parts
		}
		s.pos++
	}
}

// entry reads key = value into a body.
func (s *scanner) entry(b *body) {
	e := &entry{body: b, start: s.pos}
	e.parts = s.keys()
	s.need('=')
	s.blank(false)
	e.value = s.value()
	e.end = s.pos
	e.value.at, e.value.entry = e.start, e
	b.entries = append(b.entries, e)

	t := b.table
	for i, p := range e.parts[:len(e.parts)-1] {
		k := t.byName[p]
		if k == nil {
			k = t.add(p, &node{kind: tableNode, at: e.start, byName: map[string]*node{}})
		}
		if k.kind != tableNode {
			s.fail()
		}
		k.dotted = append(k.dotted, e)
		k.depth = i + 1
		t = k
	}
	name := e.parts[len(e.parts)-1]
	if t.byName[name] != nil {
		s.fail()
	}
	t.add(name, e.value)
}
