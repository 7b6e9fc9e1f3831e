package app

import (
	"slices"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/shell"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/quantity"
)

// showPreferences opens the small drawer with a person's units and appearance.
// What is chosen holds at once, and at the next start.
func (b *bench) showPreferences() {
	p := b.Prefs
	rows := container.New(layout.NewFormLayout())
	pick := func(name string, at int, choices []string, take func(i int)) {
		rows.Add(widget.NewLabel(name))
		rows.Add(ui.NewRadio(choices, at, true, func(i int) {
			take(i)
			b.chosen()
		}).Box)
	}
	tags := words.Tags()
	names, codes, at := []string{words.T("as the system")}, []string{""}, 0
	for i, tag := range tags {
		names, codes = append(names, words.NameOf(tag)), append(codes, tag.String())
		if tag.String() == p.Language {
			at = i + 1
		}
	}
	pick(words.T("language, from the next start"), at, names, func(i int) { p.Language = codes[i] })
	second := func(on bool) int {
		if on {
			return 1
		}
		return 0
	}
	u := &p.Units
	pick(words.T("temperature"), int(u.Temperature), []string{"°C", "°F"}, func(i int) { u.Temperature = quantity.TemperatureUnit(i) })
	pick(words.T("gravity"), int(u.Gravity), []string{words.T("SG"), "°P"}, func(i int) { u.Gravity = quantity.GravityUnit(i) })
	pick(words.T("volume"), int(u.Volume), []string{words.T("litres"), words.T("US gallons")}, func(i int) { u.Volume = quantity.VolumeUnit(i) })
	pick(words.T("mass"), int(u.Mass), []string{words.T("kg, g"), words.T("lb, oz")}, func(i int) { u.Mass = quantity.MassUnit(i) })
	pick(words.T("colour"), int(u.Colour), []string{"EBC", "SRM"}, func(i int) { u.Colour = quantity.ColourUnit(i) })
	pick(words.T("decimals"), second(u.DecimalComma), []string{words.T("66.5"), words.T("66,5")}, func(i int) { u.DecimalComma = i == 1 })
	pick(words.T("appearance"), int(p.Mode), []string{words.T("as the desktop"), words.T("light colours"), words.T("dark colours")}, func(i int) { p.Mode = look.Mode(i) })
	pick(words.T("contrast"), second(p.Strong), []string{words.T("usual"), words.T("high")}, func(i int) { p.Strong = i == 1 })
	pick(words.T("motion"), second(p.ReducedMotion), []string{words.T("axes glide"), words.T("nothing glides")}, func(i int) { p.ReducedMotion = i == 1 })
	sizes := []int{0, 125, 150, shell.MostSizePct}
	pick(words.T("size, from the next start"), max(slices.Index(sizes, p.SizePct), 0), []string{"100 %", "125 %", "150 %", "200 %"}, func(i int) { p.SizePct = sizes[i] })
	ui.NewDrawer(b, words.T("Language, units and appearance"), 700, rows)
}

// chosen takes changed preferences up everywhere.
func (b *bench) chosen() {
	b.SavePrefs()
	b.SetUnits()
	b.App.Settings().SetTheme(b.Prefs.Theme())
	b.taste.UnitsChanged()
	b.Changed()
}
