package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
	"skep/app/ui/picker"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/quantity"
)

// newPicker offers a list of the catalogue. What is typed and is not in it can be
// added all the same, in one's own words.
func (p *Place) newPicker(title string, all []picker.Item, own func(name string) picker.Item) *picker.Picker {
	k := picker.New(p.host, title, words.T("search, or type a name of your own"), all)
	k.Own = own
	return k
}

// ownWords offers what was typed as a thing of one's own.
func ownWords(name string, take func()) picker.Item {
	return picker.Item{
		Name:    words.T("Add “{name}”", name),
		Figures: words.T("your own"),
		Note:    words.T("with usual figures; put yours in the row"),
		Take:    take,
	}
}

// added tells what was added and gives the keyboard to the amount of it.
func (p *Place) added(name, path string, alter func(*design.Design)) {
	if !ui.Change(p.host, words.T("add {name}", name), alter) {
		return
	}
	p.focusPath(path)
	p.host.ShowMessage(words.T("{name} is in; type how much", name))
}

// Usual amounts of a new line, to be typed over.
const (
	newGrainKg = 0.5
	newHopG    = 10
	newHoneyKg = 0.25
)

func (p *Place) grainPicker(shelf userfile.Shelf) *picker.Picker {
	add := func(g design.Grain) func() {
		return func() {
			g.MassKg = newGrainKg
			p.added(ui.OrUnnamed(g.Name), itemPath("grain", len(p.host.Design().Grain), "mass_kg"),
				func(d *design.Design) { d.Grain = append(d.Grain, g) })
		}
	}
	var all []picker.Item
	item := func(g design.Grain, note string) {
		all = append(all, picker.Item{Name: g.Name, Figures: words.T("{extract}, {colour}", p.host.Say().Format(quantity.Percent, g.ExtractPct), p.host.Say().Format(quantity.Colour, g.ColourEBC)), Note: note, Take: add(g)})
	}
	for _, g := range shelf.Grain {
		item(g.Grain, ownNote(g.About))
	}
	for _, g := range p.host.Catalogue().Grain {
		item(g.Grain, g.Note)
	}
	brewed, folder := p.host.Design().Grain, p.host.ShelfFolder()
	return p.keeper(len(brewed), func(i int) string { return brewed[i].Name }, func(i int) error {
		return userfile.AddGrain(folder, brewed[i], design.About{})
	}, words.T("Add grain or sugar"), all, func(name string) picker.Item {
		g := design.NewGrain()
		g.Name = name
		return ownWords(name, add(g))
	})
}

func (p *Place) pickGrain() {
	p.shelf(func(s userfile.Shelf) { p.grainPicker(s).Show() })
}

func (p *Place) hopPicker(when string, shelf userfile.Shelf) *picker.Picker {
	add := func(h design.Hop) func() {
		return func() {
			h.MassG, h.When = newHopG, when
			h.Minutes = design.NewHop().Minutes
			if boil := p.host.Design().Boil.Minutes; when == "boil" {
				h.Minutes = min(h.Minutes, boil)
			}
			p.added(ui.OrUnnamed(h.Name), itemPath("hop", len(p.host.Design().Hop), "mass_g"),
				func(d *design.Design) { d.Hop = append(d.Hop, h) })
		}
	}
	var all []picker.Item
	item := func(h design.Hop, note string) {
		all = append(all, picker.Item{Name: h.Name, Figures: words.T("{alpha} alpha", p.host.Say().Format(quantity.Percent, h.AlphaPct)), Note: note, Take: add(h)})
	}
	for _, h := range shelf.Hop {
		item(h.Hop, ownNote(h.About))
	}
	for _, h := range p.host.Catalogue().Hop {
		item(h.Hop, h.Note)
	}
	brewed, folder := p.host.Design().Hop, p.host.ShelfFolder()
	return p.keeper(len(brewed), func(i int) string { return brewed[i].Name }, func(i int) error {
		return userfile.AddHop(folder, brewed[i], design.About{})
	}, words.T("Add a hop"), all, func(name string) picker.Item {
		h := design.NewHop()
		h.Name = name
		return ownWords(name, add(h))
	})
}

func (p *Place) pickHop(when string) {
	p.shelf(func(s userfile.Shelf) { p.hopPicker(when, s).Show() })
}

func (p *Place) honeyPicker(moment string, shelf userfile.Shelf) *picker.Picker {
	add := func(h design.Honey) func() {
		return func() {
			h.MassKg, h.Moment, h.HoursAfterHeight = newHoneyKg, moment, design.NewHoney().HoursAfterHeight
			p.added(ui.OrUnnamed(h.Name), itemPath("honey", len(p.host.Design().Honey), "mass_kg"),
				func(d *design.Design) { d.Honey = append(d.Honey, h) })
		}
	}
	var all []picker.Item
	item := func(h design.Honey, note string) {
		all = append(all, picker.Item{Name: h.Name, Figures: words.T("{moisture} water", p.host.Say().Format(quantity.Percent, h.MoisturePct)), Note: note, Take: add(h)})
	}
	for _, h := range shelf.Honey {
		item(h.Honey, ownNote(h.About))
	}
	for _, h := range p.host.Catalogue().Honey {
		item(h.Honey, h.Note)
	}
	brewed, folder := p.host.Design().Honey, p.host.ShelfFolder()
	return p.keeper(len(brewed), func(i int) string { return brewed[i].Name }, func(i int) error {
		return userfile.AddHoney(folder, brewed[i], design.About{})
	}, words.T("Add honey"), all, func(name string) picker.Item {
		h := design.NewHoney()
		h.Name = name
		return ownWords(name, add(h))
	})
}

func (p *Place) pickHoney(moment string) {
	p.shelf(func(s userfile.Shelf) { p.honeyPicker(moment, s).Show() })
}

// chooseSalt offers what is not in the liquor yet.
func (p *Place) chooseSalt(under fyne.CanvasObject) {
	d := p.host.Design()
	var items []*fyne.MenuItem
	for _, s := range salts() {
		if d.Water == nil || *s.amount(d.Water) > 0 {
			continue
		}
		items = append(items, fyne.NewMenuItem(s.name, func() {
			p.added(s.name, s.key, func(d *design.Design) { _ = d.Set(s.key, s.usual) })
		}))
	}
	if len(items) == 0 {
		p.host.ShowMessage(words.T("All that Skep knows is in already"))
		return
	}
	ui.PopUp(p.host, under, items...)
}

// choosePitched offers one's own strains and the catalogue's for the one brewed
// with.
func (p *Place) choosePitched() {
	wanted := ui.Wanted(p.host)
	p.host.Offers(func(offers []userfile.Offer, err error) {
		if err != nil {
			p.host.Warn(p.host.Say().Why(err))
		}
		if wanted() {
			p.pitchedPicker(offers).Show()
		}
	})
}

func (p *Place) pitchedPicker(offers []userfile.Offer) *picker.Picker {
	var all []picker.Item
	for _, o := range offers {
		y := &o.Strain
		takes := p.host.Say().FormatRange(quantity.Percent, y.AttenuationLowPct, y.AttenuationHighPct)
		all = append(all, picker.Item{Name: y.Name, Figures: takes + ", " + p.host.Say().Format(quantity.Temperature, y.TemperatureC),
			Note: o.Note, Take: func() { ui.BrewWith(p.host, o.Strain) }})
	}
	return p.newPicker(words.T("Brew with another yeast"), all, func(name string) picker.Item {
		return ownWords(name, func() {
			ui.Change(p.host, words.T("yeast {name}", name), func(d *design.Design) { d.Yeast[0].Name = name })
		})
	})
}
