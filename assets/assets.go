// Package assets holds what ships inside the program: the catalogue of
// ingredients, the demonstration designs and the icon.
package assets

import (
	"embed"
	"fmt"
	"slices"

	"github.com/BurntSushi/toml"

	"skep/calc/design"
)

// IconSVG is the program's icon, a straw skep.
//
//go:embed icon.svg
var IconSVG []byte

// IconPNG is the icon drawn at 512 by 512 pixels.
//
//go:embed icon.png
var IconPNG []byte

//go:embed catalogue/*.toml
var catalogueFiles embed.FS

//go:embed demo/*.toml
var demoFiles embed.FS

// Catalogue is the ingredients that Skep knows, in the order to show them.
// Amounts and the day's choices are not set: they are the design's.
type Catalogue struct {
	Grain []Grain `toml:"grain"`
	Yeast []Yeast `toml:"yeast"`
	Honey []Honey `toml:"honey"`
	Hop   []Hop   `toml:"hop"`
}

// Origin says what an entry is good for and where its figures are from.
type Origin struct {
	Note   string `toml:"note"`
	Source string `toml:"source"`
}

// Grain is a malt, a raw grain or a sugar.
type Grain struct {
	design.Grain
	Origin
}

// Yeast is a family of strains.
type Yeast struct {
	design.Yeast
	Origin
}

// Honey is a kind of honey by the flower.
type Honey struct {
	design.Honey
	Origin
}

// Hop is a public variety.
type Hop struct {
	design.Hop
	Origin
}

// LoadCatalogue reads the catalogue. An error is a fault of the build.
func LoadCatalogue() (Catalogue, error) {
	var all Catalogue
	for _, kind := range []string{"grain", "yeast", "honey", "hop"} {
		name := "catalogue/" + kind + ".toml"
		src, err := catalogueFiles.ReadFile(name)
		if err != nil {
			return Catalogue{}, err
		}
		part, err := ParseCatalogue(name, src)
		if err != nil {
			return Catalogue{}, err
		}
		all.Grain = append(all.Grain, part.Grain...)
		all.Yeast = append(all.Yeast, part.Yeast...)
		all.Honey = append(all.Honey, part.Honey...)
		all.Hop = append(all.Hop, part.Hop...)
	}
	return all, nil
}

// ParseCatalogue reads one file of ingredients; file names it in messages.
func ParseCatalogue(file string, src []byte) (Catalogue, error) {
	var c Catalogue
	meta, err := toml.Decode(string(src), &c)
	if err != nil {
		return Catalogue{}, fmt.Errorf("%s: %w", file, err)
	}
	if odd := meta.Undecoded(); len(odd) > 0 {
		return Catalogue{}, fmt.Errorf("%s: unknown key %s; the keys are those of the design file, note and source", file, odd[0])
	}
	// What a catalogue leaves out has the design's own default.
	for i := range c.Yeast {
		if c.Yeast[i].Form == "" {
			c.Yeast[i].Form = design.NewYeast().Form
		}
	}
	for i := range c.Honey {
		if c.Honey[i].Moment == "" {
			c.Honey[i].Moment = design.NewHoney().Moment
		}
	}
	for i := range c.Hop {
		if c.Hop[i].When == "" {
			c.Hop[i].When = design.NewHop().When
		}
	}
	return c, nil
}

// The demonstration designs, all of the allotment club at Gate Field.
const (
	DemoDry    = "gate-field-dry.toml"
	DemoMiddle = "gate-field-middle.toml" // what the first start opens
	DemoSoft   = "gate-field-soft.toml"
)

// Demos are the names of the demonstration designs from dry to soft.
func Demos() []string { return []string{DemoDry, DemoMiddle, DemoSoft} }

// Demo is the text of a demonstration design.
func Demo(name string) ([]byte, error) {
	if !slices.Contains(Demos(), name) {
		return nil, fmt.Errorf("there is no demonstration design %s; there are %v", name, Demos())
	}
	return demoFiles.ReadFile("demo/" + name)
}

// StrainsBeside are the design's other yeasts, a person's own strains and the
// catalogue's families: what may be brewed with instead of the design's own,
// each once.
func (c Catalogue) StrainsBeside(d *design.Design, own []design.Yeast) []design.Yeast {
	var strains []design.Yeast
	known := map[string]bool{}
	for i, y := range d.Yeast {
		known[y.Name] = true
		if i > 0 {
			strains = append(strains, y)
		}
	}
	add := func(y design.Yeast) {
		if !known[y.Name] {
			known[y.Name] = true
			strains = append(strains, y)
		}
	}
	for _, y := range own {
		add(y)
	}
	for _, y := range c.Yeast {
		add(y.Yeast)
	}
	return strains
}
