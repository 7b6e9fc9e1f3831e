package file

import (
	"reflect"

	"skep/calc/design"
)

// ParseList reads a catalogue: a TOML file of [[grain]], [[yeast]], [[honey]]
// and [[hop]]. Findings are as those of [Parse]; a name that stands twice in a
// list is a warning.
func ParseList(file string, src []byte) (design.Catalogue, []design.Finding) {
	r := newReader(file, string(src))
	r.most = func(string) int { return design.LongListLimit }
	root, m := r.load()
	s := design.CatalogueSchema().Root
	c := s.Fresh().Interface().(design.Catalogue)
	if root == nil {
		return c, r.findings
	}
	r.table(s, reflect.ValueOf(&c).Elem(), m, root, "")
	r.judge(c.Judge)
	return c, r.findings
}
