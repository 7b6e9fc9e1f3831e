package command

import (
	"cmp"
	"strconv"
	"strings"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/words"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

type catalogueCommand struct {
	JSON bool `name:"json" help:"Print one JSON object instead of the lists."`
}

func (catalogueCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("What is on your own shelf, and trade families and public varieties, with the figures that a design needs, and where each is from. A figure on your own packet is always better.")), `skep catalogue`)
}

func (c *catalogueCommand) Run(s *session) error {
	all, err := assets.LoadCatalogue()
	if err != nil {
		return broken(err)
	}
	shelf, strains := s.shelf(), s.ownStrains()
	if c.JSON {
		return s.json(document.CatalogueOf(&shelf, strains, &all))
	}
	all.Translate(words.Listed)
	number := func(v float64) string { return s.say.Marked(short(v)) }
	grain := group{head: []string{words.T("grain and sugar"), words.T("extract, {unit}", "%"), words.T("moisture, {unit}", "%"), words.T("colour, {unit}", s.unit(quantity.Colour)), words.T("enzymes"), words.T("note")}}
	addGrain := func(o assets.Origin, g *design.Grain) {
		grain.add(o, g.Name, number(g.ExtractPct), number(g.MoisturePct), s.say.Number(quantity.Colour, g.ColourEBC), enzymes(g.Enzymes))
	}
	for _, g := range shelf.Grain {
		addGrain(yours(g.About), &g.Grain)
	}
	for _, g := range all.Grain {
		addGrain(g.Origin, &g.Grain)
	}
	yeast := group{head: []string{words.T("yeast"), words.T("attenuation, {unit}", "%"), s.unit(quantity.Temperature), words.Listed("billion/L"), words.T("note")}}
	addYeast := func(o assets.Origin, y *design.Yeast) {
		yeast.add(o, y.Name, words.T("{low} to {high}", number(y.AttenuationLowPct), number(y.AttenuationHighPct)), s.say.Number(quantity.Temperature, y.TemperatureC), number(y.CellsBillionPerL))
	}
	for _, y := range strains {
		addYeast(yours(y.About), &y.Yeast)
	}
	for _, y := range all.Yeast {
		addYeast(y.Origin, &y.Yeast)
	}
	honey := group{head: []string{words.T("honey"), words.T("moisture, {unit}", "%"), words.T("note")}}
	addHoney := func(o assets.Origin, h *design.Honey) { honey.add(o, h.Name, number(h.MoisturePct)) }
	for _, h := range shelf.Honey {
		addHoney(yours(h.About), &h.Honey)
	}
	for _, h := range all.Honey {
		addHoney(h.Origin, &h.Honey)
	}
	hop := group{head: []string{words.T("hop"), words.T("alpha acid, {unit}", "%"), words.T("note")}}
	addHop := func(o assets.Origin, h *design.Hop) { hop.add(o, h.Name, number(h.AlphaPct)) }
	for _, h := range shelf.Hop {
		addHop(yours(h.About), &h.Hop)
	}
	for _, h := range all.Hop {
		addHop(h.Origin, &h.Hop)
	}
	for i, g := range []group{grain, yeast, honey, hop} {
		if i > 0 {
			s.printf("\n")
		}
		s.printf("%s", helptext.Grid(append([][]string{g.head}, g.rows...)))
		for _, source := range g.sources {
			s.line("  source of {names}: {source}", g.whose(source), source)
		}
	}
	return nil
}

// enzymes is where a grain's starch is converted.
func enzymes(word string) string {
	switch word {
	case design.EnzymesOwn:
		return words.T("its own")
	case design.EnzymesBorrowed:
		return words.T("borrowed")
	}
	return words.T("none")
}

// yours is what is said of a thing on the person's own shelf.
func yours(about design.About) assets.Origin {
	return assets.Origin{Source: cmp.Or(about.Source, words.T("your own file")), Note: cmp.Or(about.Note, words.T("your own"))}
}

// group is one kind of ingredient, with its sources in the order of their use.
type group struct {
	head    []string
	rows    [][]string
	sources []string
	of      map[string][]string // names by source
}

func (g *group) add(o assets.Origin, cells ...string) {
	if g.of == nil {
		g.of = map[string][]string{}
	}
	if g.of[o.Source] == nil {
		g.sources = append(g.sources, o.Source)
	}
	g.of[o.Source] = append(g.of[o.Source], cells[0])
	g.rows = append(g.rows, append(cells, o.Note))
}

// whose names the entries of a source, the largest lot as the rest of them.
func (g *group) whose(source string) string {
	names := g.of[source]
	if len(g.sources) == 1 {
		return words.T("all")
	}
	const few = 4
	if len(names) <= few {
		return strings.Join(names, "; ")
	}
	return words.T("the others")
}

// short is a number with no more digits than it has.
func short(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
