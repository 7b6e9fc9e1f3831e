package app

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/quantity"
	"skep/app/words"
	"skep/calc/design"
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
				func() { l.honeyAt = i; l.b.changed() })
			m.Checked = i == l.honeyAt
			items = append(items, m)
		}
		items = append(items, fyne.NewMenuItemSeparator())
	}
	for _, h := range l.b.catalogue.Honey {
		m := fyne.NewMenuItem(words.T("{{.Name}}   {{.Moisture}} water", map[string]any{
			"Name": h.Name, "Moisture": l.b.say.Format(quantity.Percent, h.MoisturePct)}), func() {
			l.b.edit(words.T("honey {{.Name}}", map[string]any{"Name": h.Name}), "", func(d *design.Design) {
				own := l.theHoney(d)
				own.Name, own.MoisturePct = h.Name, h.MoisturePct
			})
		})
		m.Checked = h.Name == l.honeyOf(&d).Name
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
			"Minutes": l.b.say.Format(quantity.Minutes, r.Minutes)}), func() { l.restAt = i; l.b.changed() })
		m.Checked = i == l.restIndex(&d)
		items = append(items, m)
	}
	l.b.popUp(l.restName, items...)
}

// momentText says when a honey goes in.
func (l *levers) momentText(h *design.Honey) string {
	switch h.Moment {
	case design.MomentBoil:
		return words.T("boil")
	case design.MomentWhirlpool:
		return words.T("whirlpool")
	case design.MomentPitching:
		return words.T("pitching")
	}
	return l.b.say.FormatSigned(quantity.Hours, h.HoursAfterHeight)
}

// parseMoment reads a place before the fermentation by its word, or hours.
func (l *levers) parseMoment(text string) (float64, string, error) {
	word := strings.ToLower(strings.TrimSpace(text))
	for _, place := range []struct {
		word  string
		value float64
	}{
		{words.T("boil"), momentBoil}, {words.T("whirlpool"), momentWhirlpool}, {words.T("whirl"), momentWhirlpool},
		{words.T("pitching"), momentPitching}, {words.T("pitch"), momentPitching}, {words.T("height"), 0},
	} {
		if word != "" && strings.HasPrefix(place.word, word) && len(word) >= 3 {
			return place.value, words.T("read as {{.Value}}", map[string]any{"Value": place.word}), nil
		}
	}
	return l.parse(quantity.Hours, text, quantity.Limits{Low: momentFirstHour, High: momentLastHour})
}
