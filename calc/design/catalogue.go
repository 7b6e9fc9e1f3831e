package design

import (
	"reflect"
	"sync"
)

// About is what a catalogue says of an ingredient beside its figures.
type About struct {
	Family string `toml:"family"` // trade family: "base malt", "clean ale"
	Note   string `toml:"note"`
	Source string `toml:"source"` // where the figures are from
}

// CatalogueGrain is a grain that one may choose.
type CatalogueGrain struct {
	Grain
	About
}

// CatalogueYeast is a strain that one may choose.
type CatalogueYeast struct {
	Yeast
	About
}

// CatalogueHoney is a honey that one may choose.
type CatalogueHoney struct {
	Honey
	About
}

// CatalogueHop is a hop that one may choose.
type CatalogueHop struct {
	Hop
	About
}

// Catalogue is a choice of ingredients: the one that comes with the program or
// a person's own. Its keys are those of the design file; amounts and times may
// be left out and then hold the design's defaults.
type Catalogue struct {
	Format int              `toml:"format"`
	Grain  []CatalogueGrain `toml:"grain"`
	Yeast  []CatalogueYeast `toml:"yeast"`
	Honey  []CatalogueHoney `toml:"honey"`
	Hop    []CatalogueHop   `toml:"hop"`
}

// catalogueSchema derives from the keys of the design: the same units, ranges
// and words, but a name is required and a mass is not.
var catalogueSchema = sync.OnceValue(func() *schema {
	var keys []Key
	for _, k := range keyTable() {
		switch k.Name() {
		case "name":
			k.Required = true
		case "mass_kg", "format":
			k.Required = false
		}
		keys = append(keys, k)
	}
	for _, list := range []string{"grain", "yeast", "honey", "hop"} {
		keys = append(keys,
			text(list+".N.family", "trade family"),
			text(list+".N.note", ""),
			text(list+".N.source", "where the figures are from"))
	}
	return newSchema(reflect.TypeOf(Catalogue{}), keys)
})

// ParseList reads a catalogue: a TOML file of [[grain]], [[yeast]], [[honey]]
// and [[hop]]. Findings are as those of [Parse]; a name that stands twice in a
// list is a warning.
func ParseList(file string, src []byte) (Catalogue, []Finding) {
	r := newReader(file, string(src))
	root, m := r.load()
	s := catalogueSchema().root
	c := s.fresh().Interface().(Catalogue)
	if root == nil {
		return c, r.findings
	}
	v := reflect.ValueOf(&c).Elem()
	r.table(s, v, m, root, "")
	r.judgeBy(func(ck *checker) {
		ck.table(s, v, "")
		var d Design // what must hold between values is judged once, there
		for _, y := range c.Yeast {
			d.Yeast = append(d.Yeast, y.Yeast)
		}
		for _, h := range c.Honey {
			d.Honey = append(d.Honey, h.Honey)
		}
		ck.relations(d, r.said)
		ck.twice(s, v)
	})
	return c, r.findings
}

// twice warns of names that stand more than once in a list.
func (c *checker) twice(s *branch, v reflect.Value) {
	for _, k := range s.kids {
		if !k.list {
			continue
		}
		name, seen := k.byName["name"], map[string]int{}
		for i := 0; i < k.of(v).Len(); i++ {
			n := name.of(k.of(v).Index(i)).String()
			if first, ok := seen[n]; ok && n != "" {
				p := k.name + "." + formatNumber(float64(i)) + ".name"
				c.warnf(p, "%s = %s stands already at %s.%d; only the first can be chosen by name", p, shortQuote(n), k.name, first)
				continue
			}
			seen[n] = i
		}
	}
}
