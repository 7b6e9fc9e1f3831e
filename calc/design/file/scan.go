package file

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// value reads one value and leaves pos behind it.
func (s *scanner) value() *node {
	n := &node{start: s.pos}
	switch s.peek() {
	case '"', '\'':
		s.str()
	case '[':
		s.array(n)
	case '{':
		s.inlineTable(n)
	default:
		s.bare()
	}
	n.end = s.pos
	if n.end == n.start {
		s.fail()
	}
	return n
}

// bare reads a number, a boolean or a date; a date may have one space inside.
func (s *scanner) bare() {
	start := s.pos
	for s.pos < len(s.src) && !strings.ContainsRune(" \t\r\n,]}#", rune(s.src[s.pos])) {
		s.pos++
	}
	if s.pos-start == len("2006-01-02") && s.src[start+4] == '-' && s.pos+1 < len(s.src) &&
		s.src[s.pos] == ' ' && s.src[s.pos+1] >= '0' && s.src[s.pos+1] <= '9' {
		s.pos++
		for s.pos < len(s.src) && !strings.ContainsRune(" \t\r\n,]}#", rune(s.src[s.pos])) {
			s.pos++
		}
	}
}

func (s *scanner) array(n *node) {
	s.pos++
	tables := 0
	for {
		s.blank(true)
		if s.peek() == ']' {
			break
		}
		e := s.value()
		e.at = e.start
		n.elems = append(n.elems, e)
		if e.kind == tableNode {
			tables++
		}
		s.blank(true)
		if s.peek() != ',' {
			break
		}
		n.commas = append(n.commas, s.pos)
		s.pos++
	}
	s.need(']')
	if tables > 0 && tables == len(n.elems) {
		n.kind = listNode
	}
}

func (s *scanner) inlineTable(n *node) {
	n.kind, n.byName = tableNode, map[string]*node{}
	b := &body{table: n, header: s.pos, inline: true}
	s.pos++
	b.after = s.pos
	n.bodies = []*body{b}
	for {
		s.blank(true)
		if s.peek() == '}' {
			break
		}
		s.entry(b)
		s.blank(true)
		if s.peek() != ',' {
			break
		}
		s.pos++
	}
	b.close = s.pos
	s.need('}')
}

// str reads any of the four kinds of string.
func (s *scanner) str() {
	q := s.src[s.pos]
	if strings.HasPrefix(s.src[s.pos:], strings.Repeat(string(q), 3)) {
		s.pos += 3
		s.longStr(q)
		return
	}
	for s.pos++; ; s.pos++ {
		switch c := s.peek(); {
		case s.pos >= len(s.src) || c == '\n':
			s.fail()
		case c == '\\' && q == '"':
			s.pos++
		case c == q:
			s.pos++
			return
		}
	}
}

// longStr reads to the closing three quotes, before which the text itself may
// end in up to two quotes.
func (s *scanner) longStr(q byte) {
	for ; ; s.pos++ {
		switch {
		case s.pos >= len(s.src):
			s.fail()
		case s.src[s.pos] == '\\' && q == '"':
			s.pos++
		case s.src[s.pos] == q:
			run := 1
			for run < 5 && s.pos+run < len(s.src) && s.src[s.pos+run] == q {
				run++
			}
			if run >= 3 {
				s.pos += run
				return
			}
			s.pos += run - 1
		}
	}
}

// unquoteBasic resolves the escapes of a valid basic string.
func unquoteBasic(s string) string {
	if !strings.Contains(s, `\`) {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] != '\\' || i+1 == len(s) {
			b.WriteByte(s[i])
			continue
		}
		i++
		size := map[byte]int{'u': 4, 'U': 8, 'x': 2}[s[i]]
		if size > 0 && i+size < len(s) {
			var r rune
			if _, err := fmt.Sscanf(s[i+1:i+1+size], "%x", &r); err != nil {
				r = utf8.RuneError
			}
			b.WriteRune(r)
			i += size
			continue
		}
		if c, ok := map[byte]byte{'n': '\n', 't': '\t', 'r': '\r', 'b': '\b', 'f': '\f', 'e': 0x1b}[s[i]]; ok {
			b.WriteByte(c)
		} else {
			b.WriteByte(s[i])
		}
	}
	return b.String()
}
