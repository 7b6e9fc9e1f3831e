package design

import (
	"fmt"
	"reflect"
	"sync"

	"skep/calc/design/internal/schema"
	"skep/calc/message"
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
var catalogueSchema = sync.OnceValue(func() *schema.Schema {
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
	return schema.New(reflect.TypeOf(Catalogue{}), keys)
})

// CatalogueSchema is how the keys belong to the fields of a [Catalogue]: for
// package file.
func CatalogueSchema() *schema.Schema { return catalogueSchema() }

// Judge finds fault with a catalogue; its arguments are those of [Design.Judge].
// A name that stands twice in a list is a warning.
func (cat *Catalogue) Judge(stands func(path string) bool, report func(sev Severity, path string, msg message.Message)) {
	root, v := catalogueSchema().Root, reflect.ValueOf(cat).Elem()
	c := &checker{report, longList}
	c.table(root, v, nil)
	var d Design // what must hold between values is judged once, there
	for _, y := range cat.Yeast {
		d.Yeast = append(d.Yeast, y.Yeast)
	}
	for _, h := range cat.Honey {
		d.Honey = append(d.Honey, h.Honey)
	}
	c.relations(d, stands)
	c.twice(root, v)
}

// twice warns of names that stand more than once in a list.
func (c *checker) twice(s *schema.Branch, v reflect.Value) {
	for _, k := range s.Kids {
		if !k.List {
			continue
		}
		name, seen := k.ByName["name"], map[string]int{}
		for i := 0; i < k.Of(v).Len(); i++ {
			n := name.Of(k.Of(v).Index(i)).String()
			if first, ok := seen[n]; ok && n != "" {
				p := k.Name + "." + schema.FormatNumber(float64(i)) + ".name"
				c.warn(p, "{key} = {name} is already at {first}; only the first can be chosen by name", p, schema.ShortQuote(n), fmt.Sprintf("%s.%d", k.Name, first))
				continue
			}
			seen[n] = i
		}
	}
}
