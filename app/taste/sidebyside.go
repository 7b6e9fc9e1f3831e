package taste

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/ghost"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/quantity"
)

// sideRow is one thing that differs between the earlier state and now.
type sideRow struct{ name, before, now string }

// sideBySide lists only what differs: first what the levers hold, then what
// comes of it.
func (b *Place) sideBySide() []sideRow {
	d := b.Design()
	g, ok := ghost.Design(d)
	if !ok {
		return nil
	}
	var rows []sideRow
	add := func(name, before, now string) {
		if before != now {
			rows = append(rows, sideRow{name, before, now})
		}
	}
	for i := range min(len(d.Mash.Rest), len(g.Mash.Rest)) {
		was, is := g.Mash.Rest[i], d.Mash.Rest[i]
		add(words.T("mash rest"), b.Say().Format(quantity.Temperature, was.TemperatureC), b.Say().Format(quantity.Temperature, is.TemperatureC))
		add(words.T("rest time"), b.Say().Format(quantity.Minutes, was.Minutes), b.Say().Format(quantity.Minutes, is.Minutes))
	}
	was, is := g.Yeast[0], d.Yeast[0]
	add(words.T("yeast"), ui.OrUnnamed(was.Name), ui.OrUnnamed(is.Name))
	add(words.T("attenuation"), b.Say().FormatRange(quantity.Percent, was.AttenuationLowPct, was.AttenuationHighPct),
		b.Say().FormatRange(quantity.Percent, is.AttenuationLowPct, is.AttenuationHighPct))
	add(words.T("fermentation temperature"), b.Say().Format(quantity.Temperature, was.TemperatureC), b.Say().Format(quantity.Temperature, is.TemperatureC))
	for i := range min(len(d.Honey), len(g.Honey)) {
		was, is := g.Honey[i], d.Honey[i]
		add(words.T("honey"), b.Say().Format(quantity.MassG, 1000*was.MassKg), b.Say().Format(quantity.MassG, 1000*is.MassKg))
		add(words.T("honey goes in"), b.Levers.momentText(&was), b.Levers.momentText(&is))
	}
	if b.Shown.Ghost == nil {
		return rows
	}
	before, now := b.Shown.Ghost, &b.Shown.Prediction
	outcome := func(name string, k quantity.Kind, of func(p *calc.Prediction) calc.Band) {
		was, is := ui.Whole(k, of(before)), ui.Whole(k, of(now))
		add(name, b.Say().Band(k, was), b.Say().Band(k, is))
	}
	outcome(words.T("final gravity"), quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.FinalGravitySG })
	outcome(words.T("strength"), quantity.Strength, func(p *calc.Prediction) calc.Band { return p.StrengthPct })
	outcome(words.T("dryness"), quantity.Index, func(p *calc.Prediction) calc.Band { return p.Dryness })
	outcome(words.T("body"), quantity.Index, func(p *calc.Prediction) calc.Band { return p.Body })
	if before.FinishedHours.High == 0 || !b.Shown.finish { // a lever still moves
		return rows
	}
	outcome(words.T("honey character"), quantity.Index, func(p *calc.Prediction) calc.Band { return p.HoneyCharacter })
	outcome(words.T("finished"), quantity.Hours, func(p *calc.Prediction) calc.Band { return p.FinishedHours })
	return rows
}

// ShowSideBySide opens the list, where the earlier state can be named too.
func (b *Place) ShowSideBySide() {
	d := b.Design()
	if d.Ghost == nil {
		return
	}
	cells := []fyne.CanvasObject{ui.Cell("", false), ui.Cell(words.T("before"), true), ui.Cell(words.T("now"), true)}
	rows := b.sideBySide()
	for _, r := range rows {
		cells = append(cells, ui.Cell(ui.FirstUpper(r.name), false), ui.Cell(r.before, true), ui.Cell(r.now, true))
	}
	var list fyne.CanvasObject = container.New(&layouts.Table{Columns: 3}, cells...)
	if len(rows) == 0 {
		list = widget.NewLabel(words.T("Nothing differs: the levers stand as they did."))
	}
	name := ui.NewEntry(b)
	name.SetText(d.Ghost.Name)
	name.Rest = d.Ghost.Name
	name.Name = words.T("name of the earlier state")
	name.SetPlaceHolder(words.T("name"))
	content := container.NewVBox(
		container.NewBorder(nil, nil, ui.NewCaption(words.T("Kept as"), look.CaptionSize+1, false, ui.InkQuiet), nil, name), list)
	dl := dialog.NewCustomWithoutButtons(words.T("Before and after"), content, b.Window())
	swap := ui.NewButton(words.T("Swap"), func() {
		dl.Hide()
		ui.Change(b, words.T("swap with the earlier state"), ghost.Swap)
	})
	done := ui.NewButton(words.T("Done"), func() {
		dl.Hide()
		title := strings.TrimSpace(name.Text)
		ui.Change(b, words.T("name of the earlier state"), func(d *design.Design) {
			if d.Ghost != nil {
				g := *d.Ghost
				g.Name = title
				d.Ghost = &g
			}
		})
	})
	done.Importance = widget.HighImportance
	dl.SetButtons([]fyne.CanvasObject{swap, done})
	dl.Resize(fyne.NewSize(620, float32(math.Max(260, float64(len(rows))*layouts.PairHeight+190))))
	ui.ShowModal(b, dl, dl.Hide)
	ui.Focus(b, done)
}
