package file

import (
	"errors"
	"fmt"
	"maps"
	"reflect"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"skep/calc/design"
	"skep/calc/message"
)

// Document is a design together with the text it was read from, so that a
// changed design can be written back without disturbing the rest.
type Document struct {
	// Design holds what was read; keys that were left out or could not be
	// read hold their defaults. It is the reader's copy: change and write.
	Design design.Design
	// ReadOnly says why the file may be looked at but not written back;
	// nil when it may.
	ReadOnly error

	file   string
	src    string
	starts []int // of lines
	eol    string
	bodies []*body
	root   *node
	nodes  map[string]*node // by path, of all known keys that stand in the file
	base   design.Design    // what src says
	broken error            // the first value that could not be read
}

// Source is the text that the document was read from.
func (doc *Document) Source() []byte { return []byte(doc.src) }

// Read says whether every value of the text could be read; one out of its range
// could.
func (doc *Document) Read() bool { return doc.broken == nil }

// Line is the line on which a key, a table or an entry of a list stands, or 0.
func (doc *Document) Line(path string) int {
	n := doc.nodes[path]
	if n == nil {
		return 0
	}
	line, _ := position(doc.src, doc.starts, n.at)
	return line
}

// Parse reads a design. The name of the file only serves the findings. The
// document is nil when the text cannot be read at all (syntax, size); else it
// holds what could be read, and [HasErrors] of the findings says whether it may
// be used.
func Parse(file string, src []byte) (*Document, []design.Finding) {
	r := newReader(file, string(src))
	root, m := r.load()
	if root == nil {
		return nil, r.findings
	}
	d := design.New()
	r.table(design.Schema().Root, reflect.ValueOf(&d).Elem(), m, root, "")
	doc := &Document{Design: d, file: file, src: r.src, starts: r.starts, eol: lineEnd(r.src), bodies: r.bodies, root: root, nodes: r.nodes}
	r.newer(doc)
	doc.broken = design.FirstError(r.findings) // a value that was read and judged wrong can be written over
	r.judge(doc.Design.Judge)
	doc.base = doc.Design.Clone()
	return doc, r.findings
}

// reader gathers findings while a source is turned into values.
type reader struct {
	file     string
	src      string
	starts   []int // of lines
	bodies   []*body
	nodes    map[string]*node
	bad      map[string]bool // paths already reported
	findings []design.Finding
	failed   bool // an error is among them
	unlisted int
	most     func(list string) int // entries of a list
}

func newReader(file, src string) *reader {
	return &reader{file: file, src: src, starts: lineStarts(src), nodes: map[string]*node{}, bad: map[string]bool{}, most: design.ListLimit}
}

// lineStarts lists the offsets at which the lines of a source begin.
func lineStarts(src string) []int {
	starts := []int{0}
	for i := 0; i < len(src); i++ {
		if src[i] == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// position is the line and the column, in characters, of an offset.
func position(src string, starts []int, at int) (line, col int) {
	at = max(0, min(at, len(src)))
	line = sort.Search(len(starts), func(i int) bool { return starts[i] > at })
	start := starts[line-1]
	if start == 0 && at >= len(bom) && strings.HasPrefix(src, bom) {
		start = len(bom) // the mark is not a character a person sees
	}
	return line, utf8.RuneCountInString(src[start:at]) + 1
}

// lineEnd is the line end that a source uses.
func lineEnd(src string) string {
	if i := strings.IndexByte(src, '\n'); i > 0 && src[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// report keeps a finding, its text as [message.New] takes it.
func (r *reader) report(sev design.Severity, at int, path, text string, with ...any) {
	r.say(sev, at, path, message.New(text, with...))
}

func (r *reader) say(sev design.Severity, at int, path string, msg message.Message) {
	if sev == design.Error { // a warning leaves the value to be judged
		r.bad[path] = true
	}
	if r.room(sev) {
		r.findings = append(r.findings, r.found(sev, at, path, msg))
	}
}

func (r *reader) found(sev design.Severity, at int, path string, msg message.Message) design.Finding {
	line, col := position(r.src, r.starts, at)
	return design.Finding{File: r.file, Line: line, Col: col, Severity: sev, Key: path, Message: msg}
}

// findingLimit bounds what is listed of one file: a file of another kind has
// a finding on every line.
const findingLimit = 500

// room tells whether one more finding is listed; the first error always is.
func (r *reader) room(sev design.Severity) bool {
	if len(r.findings) < findingLimit || sev == design.Error && !r.failed {
		r.failed = r.failed || sev == design.Error
		return true
	}
	r.unlisted++
	return false
}

// load judges the syntax and gives the index and the decoded values; root is
// nil when the source cannot be read.
func (r *reader) load() (root *node, m map[string]any) {
	if at, reason := limits(r.src); !reason.Empty() {
		r.say(design.Error, at, "", reason)
		return nil, nil
	}
	m, err := decode(r.src)
	if err != nil {
		r.syntax(err)
		return nil, nil
	}
	root, r.bodies, err = index(r.src)
	if err == nil && !agree(root, m) {
		err = errLayout{0}
	}
	if err != nil {
		var e errLayout
		errors.As(err, &e)
		// The decoder lets some tables be extended that the TOML standard holds closed.
		r.report(design.Error, e.at, "", "this table or list is extended in a way that TOML does not allow")
		return nil, nil
	}
	return root, m
}

// decode is BurntSushi's judgement and its values.
func decode(src string) (m map[string]any, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = message.NewError("the text can't be read: {detail}", fmt.Sprint(p))
		}
	}()
	m = map[string]any{}
	_, err = toml.Decode(src, &m)
	return m, err
}

// agree tells whether the index and the decoder saw the same keys.
func agree(n *node, v any) bool {
	switch x := v.(type) {
	case map[string]any:
		if n.kind != tableNode || len(n.kids) != len(x) {
			return false
		}
		for i, name := range n.names {
			w, ok := x[name]
			if !ok || !agree(n.kids[i], w) {
				return false
			}
		}
		return true
	case []map[string]any:
		if len(n.elems) != len(x) {
			return false
		}
		for i := range x {
			if !agree(n.elems[i], x[i]) {
				return false
			}
		}
		return true
	case []any:
		if len(n.elems) != len(x) {
			return false
		}
		for i := range x {
			if !agree(n.elems[i], x[i]) {
				return false
			}
		}
		return true
	}
	return n.kind == valueNode && len(n.elems) == 0
}

// stands tells whether a key stands in the source.
func (r *reader) stands(path string) bool { return r.nodes[path] != nil }

// judge runs a document's own checks and ties what they find to its lines.
func (r *reader) judge(check func(stands func(path string) bool, report func(sev design.Severity, path string, msg message.Message))) {
	reported := maps.Clone(r.bad)
	check(r.stands, func(sev design.Severity, path string, msg message.Message) {
		if !reported[path] && r.room(sev) {
			r.findings = append(r.findings, r.found(sev, r.nearest(path), path, msg))
		}
	})
	sortFindings(r.findings)
	if r.unlisted > 0 {
		last := r.findings[len(r.findings)-1]
		last.Severity, last.Key = design.Warning, ""
		last.Message = message.Counted("{count} more finding is not listed", "{count} more findings are not listed", r.unlisted)
		r.findings = append(r.findings, last)
	}
}

// nearest is where a path stands, or the closest table around it.
func (r *reader) nearest(path string) int {
	for p := path; ; {
		if n := r.nodes[p]; n != nil {
			return n.at
		}
		i := strings.LastIndexByte(p, '.')
		if i < 0 {
			return r.nodes[""].at
		}
		p = p[:i]
	}
}

// sortFindings puts findings in the order of the file.
func sortFindings(fs []design.Finding) {
	sort.SliceStable(fs, func(i, j int) bool {
		if fs[i].Line != fs[j].Line {
			return fs[i].Line < fs[j].Line
		}
		return fs[i].Col < fs[j].Col
	})
}
