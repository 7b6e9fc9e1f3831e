package file

import (
	"reflect"
	"strings"
	"unicode/utf8"

	"skep/calc/design"
	"skep/calc/design/internal/schema"
)

// Encode writes a design as a new file, tidy and with a remark beside each key
// that says its range. To change a file that exists use [Document.Write].
func Encode(d design.Design) ([]byte, error) {
	if err := design.FirstError(d.Validate()); err != nil {
		return nil, err
	}
	e := &encoder{w: &writer{eol: "\n"}}
	e.text.WriteString("# A Skep design. Quantities are metric, their units stand in the keys;\n# a key that is left out has its default. \"skep help design\" lists all keys.\n\n")
	v := reflect.ValueOf(&d).Elem()
	root := design.Schema().Root
	for _, l := range lines(root, v, true) {
		e.line(l, false)
	}
	for _, k := range root.Kids {
		f := k.Of(v)
		switch {
		case k.Leaf() || k.Opt && f.IsNil():
		case k.List:
			e.list(k, f)
		case k.Opt:
			e.table(k, f.Elem())
		default:
			e.table(k, f)
		}
	}
	return []byte(e.text.String()), nil
}

type encoder struct {
	w    *writer
	text strings.Builder
}

func (e *encoder) table(k *schema.Branch, v reflect.Value) {
	ls := lines(k, v, true)
	if len(ls) == 0 && !k.Opt {
		return // no wish of taste
	}
	e.text.WriteString("\n" + e.w.header(k.Path, false, ""))
	for _, l := range ls {
		e.line(l, true)
	}
	for _, s := range k.Kids {
		if s.List {
			e.list(s, s.Of(v))
		}
	}
}

func (e *encoder) list(k *schema.Branch, f reflect.Value) {
	for i := 0; i < f.Len(); i++ {
		e.text.WriteString("\n" + e.w.header(k.Path, true, ""))
		for _, l := range lines(k, f.Index(i), true) {
			e.line(l, i == 0)
		}
	}
}

// remarkColumn is where the remarks stand, as far as the values leave room.
const remarkColumn = 36

func (e *encoder) line(l line, remarked bool) {
	s := strings.TrimSuffix(e.w.keyLine("", l), "\n")
	if r := remark(l.leaf.Key); remarked && r != "" && !strings.Contains(s, "\n") {
		s += strings.Repeat(" ", max(1, remarkColumn-utf8.RuneCountInString(s))) + "# " + r
	}
	e.text.WriteString(s + "\n")
}

// remark is what a person needs to know to change a value by hand.
func remark(k *schema.Key) string {
	var parts []string
	switch k.Kind {
	case schema.Number, schema.Word:
		if k.Name() != "value" && len(k.Words) <= 8 { // longer lists: help design
			parts = append(parts, k.Range().String())
		}
	}
	if k.Note != "" && !strings.HasPrefix(k.Note, firstWord(k)) {
		parts = append(parts, k.Note)
	}
	return strings.Join(parts, "; ")
}

// firstWord is the first allowed word; a note that starts with it explains the
// words and would repeat them.
func firstWord(k *schema.Key) string {
	if len(k.Words) == 0 {
		return "\x00"
	}
	return k.Words[0] + " ("
}
