package command

import (
	"cmp"
	"strconv"
	"strings"

	"skep/assets"
)

type catalogueCommand struct{}

func (catalogueCommand) Help() string {
	return `Your own strains, and trade families and public varieties, with the figures that
a design needs, and where each is from. A figure on your own packet is always
better.

  skep catalogue`
}

func (c *catalogueCommand) Run(s *session) error {
	all, err := assets.LoadCatalogue()
	if err != nil {
		return broken(err)
	}
	grain := group{head: []string{"grain and sugar", "extract %", "moisture %", "colour EBC", "enzymes", "note"}}
	for _, g := range all.Grain {
		grain.add(g.Origin, g.Name, short(g.ExtractPct), short(g.MoisturePct), short(g.ColourEBC), g.Enzymes)
	}
	yeast := group{head: []string{"yeast", "attenuation %", "at °C", "billion/L", "note"}}
	for _, y := range s.ownStrains() {
		o := assets.Origin{Source: cmp.Or(y.Source, "your own file")}
		o.Note = cmp.Or(y.Note, "your own")
		yeast.add(o, y.Name, short(y.AttenuationLowPct)+" to "+short(y.AttenuationHighPct), short(y.TemperatureC), short(y.CellsBillionPerL))
	}
	for _, y := range all.Yeast {
		yeast.add(y.Origin, y.Name, short(y.AttenuationLowPct)+" to "+short(y.AttenuationHighPct), short(y.TemperatureC), short(y.CellsBillionPerL))
	}
	honey := group{head: []string{"honey", "moisture %", "note"}}
	for _, h := range all.Honey {
		honey.add(h.Origin, h.Name, short(h.MoisturePct))
	}
	hop := group{head: []string{"hop", "alpha %", "note"}}
	for _, h := range all.Hop {
		hop.add(h.Origin, h.Name, short(h.AlphaPct))
	}
	for i, g := range []group{grain, yeast, honey, hop} {
		if i > 0 {
			s.printf("\n")
		}
		s.grid(append([][]string{g.head}, g.rows...))
		for _, source := range g.sources {
			s.printf("  source of %s: %s\n", g.whose(source), source)
		}
	}
	return nil
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
		return "all"
	}
	const few = 4
	if len(names) <= few {
		return strings.Join(names, "; ")
	}
	return "the others"
}

// short is a number with no more digits than it has.
func short(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
