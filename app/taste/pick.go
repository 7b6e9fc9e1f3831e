package taste

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"skep/app/ui"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/calc/quantity"
)

// mostInMenu strains fit a screen; the others are found in Brew and Yeasts, by
// searching.
const mostInMenu = 24

// ChooseYeast offers the design's other strains, one's own and the catalogue's
// families.
func (l *levers) ChooseYeast() {
	wanted := ui.Wanted(l.b)
	l.b.Offers(func(offers []userfile.Offer, err error) {
		if err != nil {
			l.b.Warn(l.b.Say().Why(err))
		}
		if wanted() {
			l.popUpYeasts(offers)
		}
	})
}

func (l *levers) popUpYeasts(offers []userfile.Offer) {
	d := l.b.Design()
	var items []*fyne.MenuItem
	item := func(y design.Yeast) *fyne.MenuItem {
		m := fyne.NewMenuItem(words.T("{name}   {range}", y.Name, l.b.Say().FormatRange(quantity.Percent, y.AttenuationLowPct, y.AttenuationHighPct)),
			func() { ui.BrewWith(l.b, y) })
		m.Checked = y.Name == d.Yeast[0].Name
		return m
	}
	for _, y := range d.Yeast {
		items = append(items, item(y))
	}
	items = append(items, fyne.NewMenuItemSeparator())
	for _, o := range offers {
		known := slices.ContainsFunc(d.Yeast, func(own design.Yeast) bool { return own.Name == o.Strain.Name })
		if !known && len(items) < mostInMenu {
			items = append(items, item(o.Strain))
		}
	}
	ui.PopUp(l.b, l.YeastName, items...)
}

// ChooseHoney offers the design's honeys, when there are several, and the
// catalogue's kinds.
func (l *levers) ChooseHoney() {
	d := l.b.Design()
	var items []*fyne.MenuItem
	if len(d.Honey) > 1 {
		for i, h := range d.Honey {
			m := fyne.NewMenuItem(words.T("{name}, {mass}, {moment}", h.Name, l.b.Say().Format(quantity.MassG, 1000*h.MassKg), l.momentText(&h)),
				func() {
					at := l.b.At()
					at.Honey = i
					l.b.SetAt(at)
					l.b.Changed()
				})
			m.Checked = i == l.b.At().Honey
			items = append(items, m)
		}
		items = append(items, fyne.NewMenuItemSeparator())
	}
	c := l.b.Conditioned()
	_, in := l.spent(&c, table.Honey)
	for _, h := range l.b.Catalogue().Honey {
		if in {
			break // what is in the beer stays what it is
		}
		m := fyne.NewMenuItem(words.T("{name}   {moisture} water", h.Name, l.b.Say().Format(quantity.Percent, h.MoisturePct)), func() {
			ui.Change(l.b, words.T("honey {name}", h.Name), func(d *design.Design) {
				l.b.At().Change(d, table.Honey, func(*table.Setting) {}) // makes one where there is none
				own := &d.Honey[l.b.At().In(d).Honey]
				own.Name, own.MoisturePct = h.Name, h.MoisturePct
			})
		})
		m.Checked = h.Name == l.b.At().HoneyOf(&d).Name
		items = append(items, m)
	}
	ui.PopUp(l.b, l.honeyName, items...)
}

// ChooseRest says which of several rests the levers move.
func (l *levers) ChooseRest() {
	d := l.b.Design()
	var items []*fyne.MenuItem
	for i, r := range d.Mash.Rest {
		m := fyne.NewMenuItem(words.T("rest {n}: {temperature}, {minutes}", fmt.Sprint(i+1), l.b.Say().Format(quantity.Temperature, r.TemperatureC), l.b.Say().Format(quantity.Minutes, r.Minutes)), func() {
			at := l.b.At()
			at.Rest = i
			l.b.SetAt(at)
			l.b.Changed()
		})
		m.Checked = i == l.b.At().In(&d).Rest
		items = append(items, m)
	}
	ui.PopUp(l.b, l.restName, items...)
}

// momentText says when a honey goes in.
func (l *levers) momentText(h *design.Honey) string {
	if h.Moment == design.MomentFermenting {
		return l.b.Say().FormatSigned(quantity.Hours, h.HoursAfterHeight)
	}
	return l.placeText(table.MomentPlace(h.Moment, 0))
}

// placeText names a place of the honey's time line.
func (l *levers) placeText(place float64) string {
	for _, s := range table.Stops() {
		if place <= s.Place {
			return l.b.Say().Sentence(s.Word)
		}
	}
	return l.b.Say().FormatSigned(quantity.Hours, place)
}

// parseMoment reads a place before the fermentation by its word, or hours.
func (l *levers) parseMoment(text string) (float64, string, error) {
	word := strings.ToLower(strings.TrimSpace(text))
	read := func(place float64, name string) (float64, string, bool) {
		if len(word) < 3 || !strings.HasPrefix(name, word) {
			return 0, "", false
		}
		return place, words.T("read as {value}", name), true
	}
	for _, s := range table.Stops() {
		if place, echo, ok := read(s.Place, l.b.Say().Sentence(s.Word)); ok {
			return place, echo, nil
		}
	}
	if place, echo, ok := read(0, words.T("height")); ok {
		return place, echo, nil
	}
	r, err := l.b.Read().Parse(quantity.Hours, text, quantity.Limits{Low: table.FirstHour, High: table.LastHour})
	return r.Value, r.Echo, err
}
