// Package assets holds what ships inside the program: the catalogue of
// ingredients, the demonstration designs and the icon.
package assets

import (
	"embed"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/BurntSushi/toml"

	"skep/calc/design"
	"skep/calc/message"
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

//go:embed demo/*.toml demo/batches/*.toml
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
		part, err := parseCatalogue(name, src)
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

// origins are what is said of each ingredient beside its figures.
func (c *Catalogue) origins() []*Origin {
	var all []*Origin
	for i := range c.Grain {
		all = append(all, &c.Grain[i].Origin)
	}
	for i := range c.Yeast {
		all = append(all, &c.Yeast[i].Origin)
	}
	for i := range c.Honey {
		all = append(all, &c.Honey[i].Origin)
	}
	for i := range c.Hop {
		all = append(all, &c.Hop[i].Origin)
	}
	return all
}

// Translate puts the notes and sources into another language.
func (c *Catalogue) Translate(say func(english string) string) {
	for _, o := range c.origins() {
		o.Note, o.Source = say(o.Note), say(o.Source)
	}
}

// Texts are the notes and sources, each once: for the list of texts to translate.
func (c *Catalogue) Texts() []string {
	var list []string
	for _, o := range c.origins() {
		list = append(list, o.Note, o.Source)
	}
	slices.Sort(list)
	return slices.DeleteFunc(slices.Compact(list), func(text string) bool { return text == "" })
}

// parseCatalogue reads one file of ingredients; file names it in messages.
func parseCatalogue(file string, src []byte) (Catalogue, error) {
	var c Catalogue
	meta, err := toml.Decode(string(src), &c)
	if err != nil {
		return Catalogue{}, message.Fault("%s: %w", file, err)
	}
	if odd := meta.Undecoded(); len(odd) > 0 {
		return Catalogue{}, message.Fault("%s: unknown key %s; the keys are those of the design file, note and source", file, odd[0])
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
		return nil, message.Fault("there is no demonstration design %s; there are %v", name, Demos())
	}
	return demoFiles.ReadFile("demo/" + name)
}

// DemoBatches are four finished batches of the club, to look at: simulated, by file
// name.
func DemoBatches() (map[string][]byte, error) {
	const folder = "demo/batches"
	list, err := demoFiles.ReadDir(folder)
	if err != nil {
		return nil, err
	}
	all := map[string][]byte{}
	for _, e := range list {
		if all[e.Name()], err = demoFiles.ReadFile(folder + "/" + e.Name()); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// DemoFermenting is the club's midsummer beer half way through its fermentation,
// pitched so long before now: with one reading that does not fit the others.
func DemoFermenting(now time.Time) ([]byte, error) {
	src, err := Demo(DemoMiddle)
	if err != nil {
		return nil, err
	}
	var text strings.Builder
	text.WriteString(strings.Replace(string(src), `title = "Gate Field Midsummer"`, `title = "Gate Field Midsummer, fermenting"`, 1))
	const pitched = 62 // hours ago
	for _, r := range []struct {
		hours float64 // after pitching
		what  string
		value string
	}{
		{-5, "mash-temperature", "66.4"}, {-1, "volume-into-fermenter", "15"}, {-0.5, "original-gravity", "1.0405"}, {0, "pitched", "1"},
		{18, "gravity", "1.038"}, {38, "gravity", "1.029"},
		{50, "gravity", "1.033"}, // bubbles held the hydrometer up
		{60, "gravity", "1.020"},
	} {
		at := now.Add(time.Duration((r.hours - pitched) * float64(time.Hour))).UTC().Truncate(time.Minute)
		fmt.Fprintf(&text, "\n[[reading]]\nwhat = %q\nat = %s\nvalue = %s\n", r.what, at.Format(time.RFC3339), r.value)
	}
	return []byte(text.String()), nil
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
