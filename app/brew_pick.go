package app

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/quantity"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// goods is something that can be added: what it is and how.
type goods struct {
	name, figures, note string
	take                func()
}

// goodsPicker is the small drawer that offers the catalogue. What is typed and
// is not in it can be added all the same, in one's own words.
type goodsPicker struct {
	b      *bench
	pop    *widget.PopUp
	search *searchEntry
	list   *offerList
	all    []goods
	found  []goods
	own    func(name string) goods
}

func (b *bench) newGoodsPicker(title string, all []goods, own func(name string) goods) *goodsPicker {
	p := &goodsPicker{b: b, all: all, own: own}
	p.search = newSearchEntry()
	p.search.SetPlaceHolder(words.T("search, or type a name of your own"))
	p.search.OnChanged = p.narrow
	p.search.OnSubmitted = func(string) { p.take(0) }
	p.search.down = func() { b.window.Canvas().Focus(p.list) }
	p.search.escape = func() { p.pop.Hide() }
	p.list = &offerList{escape: func() { p.pop.Hide() }}
	p.list.Length = func() int { return len(p.found) }
	p.list.CreateItem = func() fyne.CanvasObject { return newOfferLine() }
	p.list.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		l, g := o.(*offerLine), &p.found[i]
		l.name.SetText(g.name)
		l.figures.SetText(g.figures)
		l.note.SetText(g.note)
		l.Refresh()
	}
	p.list.OnSelected = p.take
	p.list.ExtendBaseWidget(p.list)
	p.narrow("")
	head := container.NewVBox(ui.NewCaption(title, look.TitleSize, true, ui.InkFull), p.search)
	content := container.NewBorder(head, nil, nil, nil, p.list)
	p.pop = widget.NewPopUp(container.New(layout.NewCustomPaddedLayout(10, 10, 14, 14), content), b.window.Canvas())
	return p
}

func (p *goodsPicker) show() {
	canvas := p.b.window.Canvas().Size()
	size := fyne.NewSize(460, min(canvas.Height-120, 520))
	p.pop.Resize(size)
	p.pop.ShowAtPosition(fyne.NewPos((canvas.Width-size.Width)/2, (canvas.Height-size.Height)/2))
	p.pop.Resize(size)
	p.b.window.Canvas().Focus(p.search)
}

// narrow keeps what fits the words typed, and offers them as a name.
func (p *goodsPicker) narrow(text string) {
	p.found = p.found[:0:0]
	typed := strings.Fields(strings.ToLower(text))
next:
	for _, g := range p.all {
		in := strings.ToLower(g.name + " " + g.note)
		for _, w := range typed {
			if !strings.Contains(in, w) {
				continue next
			}
		}
		p.found = append(p.found, g)
	}
	if name := strings.TrimSpace(text); name != "" {
		p.found = append(p.found, p.own(name))
	}
	p.list.UnselectAll()
	p.list.Refresh()
	p.list.ScrollToTop()
}

func (p *goodsPicker) take(i widget.ListItemID) {
	if i < 0 || i >= len(p.found) {
		return
	}
	p.pop.Hide()
	p.found[i].take()
}

// ownWords offers what was typed as a thing of one's own.
func ownWords(name string, take func()) goods {
	return goods{
		name:    words.T("Add “{{.Name}}”", map[string]any{"Name": name}),
		figures: words.T("your own"),
		note:    words.T("with usual figures; put yours in the row"),
		take:    take,
	}
}

// added tells what was added and gives the keyboard to the amount of it.
func (p *brewPlace) added(name, path string, alter func(*design.Design)) {
	if !p.b.edit(words.T("add {{.Name}}", map[string]any{"Name": name}), "", alter) {
		return
	}
	p.focusPath(path)
	p.b.status.tell(words.T("{{.Name}} is in; type how much", map[string]any{"Name": name}))
}

// Usual amounts of a new line, to be typed over.
const (
	newGrainKg = 0.5
	newHopG    = 10
	newHoneyKg = 0.25
)

func (p *brewPlace) grainPicker() *goodsPicker {
	add := func(g design.Grain) func() {
		return func() {
			g.MassKg = newGrainKg
			p.added(orUnnamed(g.Name), itemPath("grain", len(p.b.editor.Design().Grain), "mass_kg"),
				func(d *design.Design) { d.Grain = append(d.Grain, g) })
		}
	}
	var all []goods
	for _, g := range p.b.catalogue.Grain {
		all = append(all, goods{g.Name, words.T("{{.Extract}}, {{.Colour}}", map[string]any{
			"Extract": p.b.say.Format(quantity.Percent, g.ExtractPct), "Colour": p.b.say.Format(quantity.Colour, g.ColourEBC)}), g.Note, add(g.Grain)})
	}
	return p.b.newGoodsPicker(words.T("Add grain or sugar"), all, func(name string) goods {
		g := design.NewGrain()
		g.Name = name
		return ownWords(name, add(g))
	})
}

func (p *brewPlace) pickGrain() { p.grainPicker().show() }

func (p *brewPlace) hopPicker(when string) *goodsPicker {
	add := func(h design.Hop) func() {
		return func() {
			h.MassG, h.When = newHopG, when
			h.Minutes = design.NewHop().Minutes
			if boil := p.b.editor.Design().Boil.Minutes; when == "boil" {
				h.Minutes = min(h.Minutes, boil)
			}
			p.added(orUnnamed(h.Name), itemPath("hop", len(p.b.editor.Design().Hop), "mass_g"),
				func(d *design.Design) { d.Hop = append(d.Hop, h) })
		}
	}
	var all []goods
	for _, h := range p.b.catalogue.Hop {
		all = append(all, goods{h.Name, words.T("{{.Alpha}} alpha", map[string]any{"Alpha": p.b.say.Format(quantity.Percent, h.AlphaPct)}), h.Note, add(h.Hop)})
	}
	return p.b.newGoodsPicker(words.T("Add a hop"), all, func(name string) goods {
		h := design.NewHop()
		h.Name = name
		return ownWords(name, add(h))
	})
}

func (p *brewPlace) pickHop(when string) { p.hopPicker(when).show() }

func (p *brewPlace) honeyPicker(moment string) *goodsPicker {
	add := func(h design.Honey) func() {
		return func() {
			h.MassKg, h.Moment, h.HoursAfterHeight = newHoneyKg, moment, design.NewHoney().HoursAfterHeight
			p.added(orUnnamed(h.Name), itemPath("honey", len(p.b.editor.Design().Honey), "mass_kg"),
				func(d *design.Design) { d.Honey = append(d.Honey, h) })
		}
	}
	var all []goods
	for _, h := range p.b.catalogue.Honey {
		all = append(all, goods{h.Name, words.T("{{.Moisture}} water", map[string]any{"Moisture": p.b.say.Format(quantity.Percent, h.MoisturePct)}), h.Note, add(h.Honey)})
	}
	return p.b.newGoodsPicker(words.T("Add honey"), all, func(name string) goods {
		h := design.NewHoney()
		h.Name = name
		return ownWords(name, add(h))
	})
}

func (p *brewPlace) pickHoney(moment string) { p.honeyPicker(moment).show() }

// chooseSalt offers what is not in the liquor yet.
func (p *brewPlace) chooseSalt(under fyne.CanvasObject) {
	d := p.b.editor.Design()
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
		p.b.status.tell(words.T("All that Skep knows is in already"))
		return
	}
	p.b.popUp(under, items...)
}

// choosePitched offers one's own strains and the catalogue's for the one brewed
// with.
func (p *brewPlace) choosePitched() {
	var all []goods
	for _, o := range p.b.yeasts.offersSaid() {
		all = append(all, goods{o.strain.Name, p.b.yeasts.figures(&o.strain), o.note, func() { p.b.taste.levers.takeYeast(o.strain) }})
	}
	p.b.newGoodsPicker(words.T("Brew with another yeast"), all, func(name string) goods {
		return ownWords(name, func() {
			p.b.edit(words.T("yeast {{.Name}}", map[string]any{"Name": name}), "", func(d *design.Design) { d.Yeast[0].Name = name })
		})
	}).show()
}
