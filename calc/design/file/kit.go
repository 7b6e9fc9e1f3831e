package file

import (
	"reflect"
	"strings"

	"skep/calc/design"
	"skep/calc/message"
)

// KitDocument is a kit together with the text it was read from.
type KitDocument struct {
	Kit design.KitFile
	doc *Document
}

// ParseKit reads a kit's file. The findings are those of [Parse]: with an error
// among them the kit holds what could be read, and may not be brewed with.
func ParseKit(file string, src []byte) (*KitDocument, []design.Finding) {
	r := newReader(file, string(src))
	root, m := r.load()
	if root == nil {
		return nil, r.findings
	}
	k := design.NewKit()
	r.table(design.KitSchema().Root, reflect.ValueOf(&k).Elem(), m, root, "")
	r.judge(k.Judge)
	doc := &Document{file: file, src: r.src, starts: r.starts, eol: lineEnd(r.src), bodies: r.bodies, root: root, nodes: r.nodes}
	doc.base = design.New()
	kitInto(&doc.base, &k)
	doc.broken = design.FirstError(r.findings)
	return &KitDocument{k, doc}, r.findings
}

// kitInto is a kit in a design, additions to the water too.
func kitInto(d *design.Design, k *design.KitFile) {
	d.Kit, d.Batch.AltitudeM, d.Water = k.Kit, k.Batch.AltitudeM, nil
	if k.Water != nil {
		w := *k.Water
		d.Water = &w
	}
}

// Write is [Document.Write] of a kit: comments, order and unknown keys stay.
func (kd *KitDocument) Write(k design.KitFile) ([]byte, error) {
	if kd.doc.broken != nil {
		return nil, message.NewError("the kit's file has errors and is not overwritten: {error}", kd.doc.broken)
	}
	if err := firstKitError(k); err != nil {
		return nil, err
	}
	d := kd.doc.base.Clone()
	kitInto(&d, &k)
	text, err := kd.doc.rewrite(d, false)
	return []byte(text), err
}

// EncodeKit writes a kit as a new file.
func EncodeKit(k design.KitFile) ([]byte, error) {
	if err := firstKitError(k); err != nil {
		return nil, err
	}
	e := &encoder{w: &writer{eol: "\n"}}
	e.text.WriteString("# A kit of Skep: a vessel with what stays behind in it, and the water it is\n# filled with. The keys are those of the design file, always metric.\n")
	v := reflect.ValueOf(&k).Elem()
	for _, b := range design.KitSchema().Root.Kids {
		f := b.Of(v)
		switch {
		case b.Leaf() || b.Opt && f.IsNil():
		case b.Opt:
			e.table(b, f.Elem())
		default:
			e.table(b, f)
		}
	}
	return []byte(strings.TrimLeft(e.text.String(), "\n")), nil
}

// firstKitError is what is wrong with a kit that has no source.
func firstKitError(k design.KitFile) error {
	var out []design.Finding
	k.Judge(nil, func(sev design.Severity, path string, msg message.Message) {
		out = append(out, design.Finding{Severity: sev, Key: path, Message: msg})
	})
	return design.FirstError(out)
}

// Source is the text that the kit was read from, and Line where a key stands in
// it, or 0.
func (kd *KitDocument) Source() []byte       { return kd.doc.Source() }
func (kd *KitDocument) Line(path string) int { return kd.doc.Line(path) }
