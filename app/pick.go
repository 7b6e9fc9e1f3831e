package app

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/quantity"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	table "skep/calc/lever"
)

// popUp shows a menu under an object.
func (b *bench) popUp(under fyne.CanvasObject, items ...*fyne.MenuItem) {
	at := b.app.Driver().AbsolutePositionForObject(under)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), b.window.Canvas(), at.AddXY(0, under.Size().Height))
}

// mostInMenu strains fit a screen; the others are found in Brew and Yeasts, by
// searching.
const mostInMenu = 24

// chooseYeast offers the design's other strains, one's own and the catalogue's
// families.
func (l *levers) chooseYeast() {
	d := l.b.editor.Design()
	var items []*fyne.MenuItem
	item := func(y design.Yeast) *fyne.MenuItem {
		m := fyne.NewMenuItem(words.T("{{.Name}}   {{.Range}}", map[string]any{
			"Name": y.Name, "Range": l.b.say.FormatRange(quantity.Percent, y.AttenuationLowPct, y.AttenuationHighPct)}),
			func() { l.takeYeast(y) })
		m.Checked = y.Name == d.Yeast[0].Name
		return m
	}
	for _, y := range d.Yeast {
		items = append(items, item(y))
	}
	items = append(items, fyne.NewMenuItemSeparator())
	for _, o := range l.b.yeasts.offersSaid() {
		known := slices.ContainsFunc(d.Yeast, func(own design.Yeast) bool { return own.Name == o.strain.Name })
		if !known && len(items) < mostInMenu {
			items = append(items, item(o.strain))
		}
	}
	l.b.popUp(l.yeastName, items...)
}

// takeYeast makes a strain the brew's own: its range comes with it.
func (l *levers) takeYeast(y design.Yeast) {
	l.b.edit(words.T("yeast {{.Name}}", map[string]any{"Name": y.Name}), "", func(d *design.Design) {
		for i := range d.Yeast {
			if i > 0 && d.Yeast[i] == y { // it stands beside the other: change places
				d.Yeast[0], d.Yeast[i] = d.Yeast[i], d.Yeast[0]
				return
			}
		}
		d.Yeast[0] = y
	})
	l.yeast.SetDefaults(y.AttenuationLowPct, y.AttenuationHighPct)
}

// chooseHoney offers the design's honeys, when there are several, and the
// catalogue's kinds.
func (l *levers) chooseHoney() {
	d := l.b.editor.Design()
	var items []*fyne.MenuItem
	if len(d.Honey) > 1 {
		for i, h := range d.Honey {
			m := fyne.NewMenuItem(words.T("{{.Name}}, {{.Mass}}, {{.Moment}}", map[string]any{
				"Name": h.Name, "Mass": l.b.say.Format(quantity.MassG, 1000*h.MassKg), "Moment": l.momentText(&h)}),
				func() { l.at.Honey = i; l.b.changed() })
			m.Checked = i == l.at.Honey
			items = append(items, m)
		}
		items = append(items, fyne.NewMenuItemSeparator())
	}
	for _, h := range l.b.catalogue.Honey {
		m := fyne.NewMenuItem(words.T("{{.Name}}   {{.Moisture}} water", map[string]any{
			"Name": h.Name, "Moisture": l.b.say.Format(quantity.Percent, h.MoisturePct)}), func() {
			l.b.edit(words.T("honey {{.Name}}", map[string]any{"Name": h.Name}), "", func(d *design.Design) {
				l.at.Change(d, table.Honey, func(*calc.Setting) {}) // makes one where there is none
				own := &d.Honey[l.at.In(d).Honey]
				own.Name, own.MoisturePct = h.Name, h.MoisturePct
			})
		})
		m.Checked = h.Name == l.at.HoneyOf(&d).Name
		items = append(items, m)
	}
	l.b.popUp(l.honeyName, items...)
}

// chooseRest says which of several rests the levers move.
func (l *levers) chooseRest() {
	d := l.b.editor.Design()
	var items []*fyne.MenuItem
	for i, r := range d.Mash.Rest {
		m := fyne.NewMenuItem(words.T("rest {{.N}}: {{.Temperature}}, {{.Minutes}}", map[string]any{
			"N": fmt.Sprint(i + 1), "Temperature": l.b.say.Format(quantity.Temperature, r.TemperatureC),
			"Minutes": l.b.say.Format(quantity.Minutes, r.Minutes)}), func() { l.at.Rest = i; l.b.changed() })
		m.Checked = i == l.at.In(&d).Rest
		items = append(items, m)
	}
	l.b.popUp(l.restName, items...)
}

// momentText says when a honey goes in.
func (l *levers) momentText(h *design.Honey) string {
	if h.Moment == design.MomentFermenting {
		return l.b.say.FormatSigned(quantity.Hours, h.HoursAfterHeight)
	}
	return l.placeText(table.MomentPlace(h.Moment, 0))
}

// placeText names a place of the honey's time line.
func (l *levers) placeText(place float64) string {
	for _, s := range table.Stops() {
		if place <= s.Place {
			return l.b.said(s.Word)
		}
	}
	return l.b.say.FormatSigned(quantity.Hours, place)
}

// parseMoment reads a place before the fermentation by its word, or hours.
func (l *levers) parseMoment(text string) (float64, string, error) {
	word := strings.ToLower(strings.TrimSpace(text))
	read := func(place float64, name string) (float64, string, bool) {
		if len(word) < 3 || !strings.HasPrefix(name, word) {
			return 0, "", false
		}
		return place, words.T("read as {{.Value}}", map[string]any{"Value": name}), true
	}
	for _, s := range table.Stops() {
		if place, echo, ok := read(s.Place, l.b.said(s.Word)); ok {
			return place, echo, nil
		}
	}
	if place, echo, ok := read(0, words.T("height")); ok {
		return place, echo, nil
	}
	r, err := l.b.read.Parse(quantity.Hours, text, quantity.Limits{Low: table.FirstHour, High: table.LastHour})
	return r.Value, r.Echo, err
}
