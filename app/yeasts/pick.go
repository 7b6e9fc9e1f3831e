package yeasts

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/ui/picker"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/quantity"
)

// openPicker offers the strains that can be set beside the others.
func (y *Place) openPicker() {
	wanted := ui.Wanted(y.host)
	y.host.Offers(func(offers []userfile.Offer, err error) {
		if wanted() {
			y.newPicker(offers, err).Show()
		}
	})
}

func (y *Place) newPicker(offers []userfile.Offer, err error) *picker.Picker {
	beside := y.host.Design().Yeast
	var items []picker.Item
	for _, o := range offers {
		var notes []string
		if o.Own {
			notes = append(notes, words.T("your own"))
		}
		if slices.Contains(beside, o.Strain) {
			notes = append(notes, words.T("stands there already"))
		}
		if o.Note != "" {
			notes = append(notes, o.Note)
		}
		items = append(items, picker.Item{
			Name: ui.OrUnnamed(o.Strain.Name), Figures: strainFigures(y.host, &o.Strain), Note: strings.Join(notes, "; "),
			Take: func() {
				if y.add(o.Strain) {
					y.focusRow(len(y.Shown) - 1)
				}
			},
		})
	}
	p := picker.New(y.host, words.T("Add a strain"), words.T("name or what it is like"), items)
	define := ui.NewButton(words.T("Define one of your own…"), func() {
		p.Hide()
		y.OpenForm(-1)
	})
	foot := container.NewVBox()
	if err != nil {
		warning := widget.NewLabel(y.host.Say().Why(err))
		warning.Wrapping = fyne.TextWrapWord
		warning.Importance = widget.WarningImportance
		foot.Add(warning)
	}
	foot.Add(container.NewBorder(nil, nil, define, nil, nil))
	p.Foot = foot
	return p
}

// figures are a strain's range and temperature in few words.
func strainFigures(h ui.Host, s *design.Yeast) string {
	return h.Say().FormatRange(quantity.Percent, s.AttenuationLowPct, s.AttenuationHighPct) + ", " +
		h.Say().Format(quantity.Temperature, s.TemperatureC)
}
