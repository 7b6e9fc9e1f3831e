// Package begin is what the window's card and the command share of starting from what
// one has: what may be answered, the first answers, and how a text names a kit, a
// honey or a yeast.
//
// The catalogue and a person's own files come in, choices and answers go out. It must
// not know the card, the command line, nor how a design is made of the answers.
package begin

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"skep/app/userfile"
	"skep/app/words"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/start"
)

// Choices are what the questions may be answered with: a person's own first, then
// the catalogue's.
type Choices struct {
	Kits  []userfile.Kit
	Honey []design.Honey
	Yeast []design.Yeast
	grain []design.Grain
	hop   []design.Hop
}

// usualVesselL is the kettle that is offered where a person has no kit yet.
const usualVesselL = 30

// Load reads a person's own kits, strains and shelf from a folder, and takes the
// catalogue's. The problems are of a person's own files, which are then left out;
// an empty folder's name is nobody's.
func Load(folder string, catalogue assets.Catalogue) (c Choices, problems []error) {
	if folder != "" {
		c.Kits, problems = userfile.Kits(userfile.KitsIn(folder))
		shelf := userfile.LoadShelf(folder)
		problems = append(problems, shelf.Problems...)
		for _, h := range shelf.Honey {
			c.Honey = append(c.Honey, h.Honey)
		}
		for _, g := range shelf.Grain {
			c.grain = append(c.grain, g.Grain)
		}
		for _, h := range shelf.Hop {
			c.hop = append(c.hop, h.Hop)
		}
		own, err := userfile.LoadStrains(userfile.StrainsIn(folder))
		if err != nil {
			problems = append(problems, err)
		}
		for _, y := range own {
			c.Yeast = append(c.Yeast, y.Yeast)
		}
	}
	for _, h := range catalogue.Honey {
		c.Honey = append(c.Honey, h.Honey)
	}
	for _, y := range catalogue.Yeast {
		c.Yeast = append(c.Yeast, y.Yeast)
	}
	for _, g := range catalogue.Grain {
		c.grain = append(c.grain, g.Grain)
	}
	for _, h := range catalogue.Hop {
		c.hop = append(c.hop, h.Hop)
	}
	return c, problems
}

// What a grist is made of where nobody has said: the catalogue's names.
const (
	firstYeast = "Clean ale"
	baseMalt   = "Pale malt"
	headMalt   = "Wheat malt"
	quietHop   = "Goldings"
	headShare  = 0.1 // of the grist, for the head of the beer (common practice, no source)
)

// Larder is a plain grist and a quiet hop.
func (c *Choices) Larder() start.Larder {
	var l start.Larder
	for _, part := range []struct {
		name  string
		share float64
	}{{baseMalt, 1 - headShare}, {headMalt, headShare}} {
		if i := named(c.grain, part.name, func(g design.Grain) string { return g.Name }); i >= 0 {
			g := c.grain[i]
			g.MassKg = part.share
			l.Grain = append(l.Grain, g)
		}
	}
	if i := named(c.hop, quietHop, func(h design.Hop) string { return h.Name }); i >= 0 {
		l.Hop = c.hop[i]
	}
	return l
}

// First are the answers before anybody has given one, and the kit they are for;
// kit is the name of the one used last.
func (c *Choices) First(kit string) (start.Answers, design.KitFile) {
	a := start.Answers{StrengthPct: start.FirstStrengthPct, MayBuy: false}
	with := UsualKit(usualVesselL)
	if k, ok := userfile.KitNamed(c.Kits, kit); ok {
		with = k.KitFile
	} else if len(c.Kits) > 0 {
		with = c.Kits[0].KitFile
	}
	c.SetKit(&a, with)
	if len(c.Honey) > 0 {
		a.Honey = c.Honey[0]
	}
	a.Honey.MassKg = start.FirstHoneyKg(a.LitresL)
	i := max(named(c.Yeast, firstYeast, func(y design.Yeast) string { return y.Name }), 0)
	c.setYeast(&a, i)
	return a, with
}

// SetKit takes a kit, and the litres that it brews well.
func (c *Choices) SetKit(a *start.Answers, k design.KitFile) {
	var d design.Design
	k.Into(&d)
	a.Kit, a.AltitudeM, a.Water = d.Kit, d.Batch.AltitudeM, d.Water
	a.LitresL = start.LitresFor(d.Kit)
}

// setYeast puts one of the strains first; the others stay to be found among.
func (c *Choices) setYeast(a *start.Answers, i int) {
	a.Yeast = nil
	if i < len(c.Yeast) {
		a.Yeast = append(a.Yeast, c.Yeast[i])
	}
	for j, y := range c.Yeast {
		if j != i {
			a.Yeast = append(a.Yeast, y)
		}
	}
}

// kettle names one by its litres.
func kettle(litres string) string { return words.T("{litres} L kettle", litres) }

// UsualKit is a kettle of which only the litres are known, named by them.
func UsualKit(vesselL float64) design.KitFile {
	k := design.NewKit()
	k.Kit = start.UsualKit(vesselL)
	k.Kit.Name = kettle(strconv.FormatFloat(vesselL, 'f', -1, 64))
	return k
}

// withoutKettle is what a person typed with the words of [kettle] taken away.
func withoutKettle(text string) string {
	for word := range strings.FieldsSeq(kettle("")) {
		if word != "L" {
			text = strings.ReplaceAll(text, word, "")
		}
	}
	return strings.TrimSpace(text)
}

// Kit is the kit that a text names: one of the person's own, or the litres of a
// kettle that is none yet. litres reads a volume in the person's units.
func (c *Choices) Kit(text string, litres func(string) (float64, error)) (design.KitFile, error) {
	if k, ok := userfile.KitNamed(c.Kits, text); ok {
		return k.KitFile, nil
	}
	lim, _ := design.KeyOf("kit.vessel_l")
	plain := UsualKit(usualVesselL)
	if userfile.SameName(text, plain.Kit.Name) {
		return plain, nil
	}
	v, err := litres(withoutKettle(text))
	if err != nil || !(v >= lim.Min && v <= lim.Max) {
		names := make([]string, len(c.Kits))
		for i := range c.Kits {
			names[i] = c.Kits[i].Name()
		}
		if len(names) == 0 {
			return design.KitFile{}, message.NewError("there is no kit {name} yet: say how much your kettle holds, {least} to {most}",
				strconv.Quote(text), quantity.Of(quantity.Volume, lim.Min), quantity.Of(quantity.Volume, lim.Max))
		}
		return design.KitFile{}, message.NewError("there is no kit {name}: yours are {kits}, or say how much a kettle holds, {least} to {most}",
			strconv.Quote(text), strings.Join(names, ", "), quantity.Of(quantity.Volume, lim.Min), quantity.Of(quantity.Volume, lim.Max))
	}
	v = math.Round(v*10) / 10
	if k, ok := userfile.KitNamed(c.Kits, UsualKit(v).Kit.Name); ok {
		return k.KitFile, nil
	}
	return UsualKit(v), nil
}

// SetHoney takes the kind of honey that a text names.
func (c *Choices) SetHoney(a *start.Answers, text string) error {
	i, err := find(c.Honey, text, message.New("honey"), func(h design.Honey) string { return h.Name })
	if err != nil {
		return err
	}
	h := c.Honey[i]
	h.MassKg = a.Honey.MassKg
	a.Honey = h
	return nil
}

// FindOne is the answer to which yeast that leaves it to the taste.
const FindOne = "find one"

// SetYeast takes the strain that a text names, or leaves it open.
func (c *Choices) SetYeast(a *start.Answers, text string) error {
	if a.Find = userfile.SameName(text, FindOne); a.Find {
		return nil
	}
	i, err := find(c.Yeast, text, message.New("yeast"), func(y design.Yeast) string { return y.Name })
	if err != nil {
		return err
	}
	c.setYeast(a, i)
	return nil
}

func named[T any](all []T, name string, of func(T) string) int {
	return slices.IndexFunc(all, func(x T) bool { return userfile.SameName(of(x), name) })
}

// find is the thing that a text names: whole, or by words that only one of them
// begins with.
func find[T any](all []T, text string, what message.Message, of func(T) string) (int, error) {
	if i := named(all, text, of); i >= 0 {
		return i, nil
	}
	want := strings.ToLower(strings.TrimSpace(text))
	if want == "" {
		return -1, message.NewError("{what}: none is named", what)
	}
	at := -1
	var like []string
	for i, x := range all {
		if name := of(x); strings.HasPrefix(strings.ToLower(name), want) {
			at = i
			like = append(like, name)
		}
	}
	switch len(like) {
	case 1:
		return at, nil
	case 0:
		return -1, message.NewError("{what}: there is none called {name}; skep catalogue lists what there is", what, strconv.Quote(text))
	}
	return -1, message.NewError("{what}: {name} may be {names}: say more of it", what, strconv.Quote(text), strings.Join(like, ", "))
}
