package yeasts

import (
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/mash"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/yeast"
)

// strainForm is the small form for a strain of one's own, or for the figures
// of one that stands there.
type strainForm struct {
	y  *Place
	at int // the strain to change; -1: a new one
	of design.Yeast

	name, attenuation, temperature, cells *ui.Entry
	dextrin, keep                         *ui.Check
	follows, wrong                        *widget.Label
	dialog                                *dialog.CustomDialog
}

// OpenForm asks for a strain's figures: of strain i, or of a new one with -1.
func (y *Place) OpenForm(i int) {
	f := y.newForm(i)
	ui.ShowModal(y.host, f.dialog, f.dialog.Hide)
	y.host.Window().Canvas().Focus(f.name)
}

func (y *Place) newForm(i int) *strainForm {
	f := &strainForm{y: y, at: i, of: design.NewYeast()}
	if d := y.host.Design(); i >= 0 && i < len(d.Yeast) {
		f.of = d.Yeast[i]
	}
	say := y.host.Say()
	field := func(text, hint string) *ui.Entry {
		e := ui.NewEntry(y.host)
		e.SetText(text)
		e.Rest = text
		e.SetPlaceHolder(hint)
		e.OnChanged = func(string) { f.check() }
		e.OnSubmitted = func(string) { f.done() }
		return e
	}
	f.name = field(f.of.Name, words.T("what is on the packet or the jar"))
	f.attenuation = field(say.FormatRange(quantity.Percent, f.of.AttenuationLowPct, f.of.AttenuationHighPct), "73–78 %")
	f.temperature = field(say.Format(quantity.Temperature, f.of.TemperatureC), "")
	f.cells = field(strconv.FormatFloat(f.of.CellsBillionPerL, 'f', -1, 64), "9")
	f.dextrin = ui.NewCheck(words.T("eats dextrin (diastatic)"), func(bool) { f.check() })
	f.dextrin.Checked = f.of.EatsDextrin
	f.keep = ui.NewCheck(words.T("keep it among your own strains, for other designs"), nil)
	f.keep.Checked = i < 0
	f.follows, f.wrong = widget.NewLabel(""), widget.NewLabel("")
	f.follows.Wrapping, f.wrong.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
	f.wrong.Importance = widget.DangerImportance

	rows := container.New(layout.NewFormLayout(),
		widget.NewLabel(words.T("Name")), f.name,
		widget.NewLabel(words.T("Attenuation, low to high")), f.attenuation,
		widget.NewLabel(words.T("Ferments at")), f.temperature,
		widget.NewLabel(words.T("Cells pitched, billion a litre")), f.cells,
		widget.NewLabel(""), f.dextrin)
	body := container.NewVBox(rows, f.follows, f.keep, f.wrong)
	title, verb := words.T("A strain of your own"), words.T("Add")
	if i >= 0 {
		title, verb = words.T("Figures of {name}", nameOf(f.of)), words.T("Change")
	}
	f.dialog = dialog.NewCustomWithoutButtons(title, body, y.host.Window())
	ok := ui.NewButton(verb, f.done)
	ok.Importance = widget.HighImportance
	f.dialog.SetButtons([]fyne.CanvasObject{ui.NewButton(words.T("Cancel"), func() { f.dialog.Hide() }), ok})
	f.dialog.Resize(fyne.NewSize(560, 400))
	f.check()
	return f
}

// strain reads the fields. The first that can't be read is the error.
func (f *strainForm) strain() (design.Yeast, error) {
	s := f.of
	s.Name = strings.TrimSpace(f.name.Text)
	s.EatsDextrin = f.dextrin.Checked
	if s.Name == "" {
		return s, message.NewError("a strain needs a name")
	}
	read := f.y.host.Read()
	limits := func(path string) quantity.Limits {
		k, _ := design.KeyOf(path)
		return quantity.Limits{Low: k.Min, High: k.Max}
	}
	r, err := read.ParseRange(quantity.Percent, f.attenuation.Text, limits("yeast.0.attenuation_low_pct"))
	if err != nil {
		return s, ui.Named(words.T("attenuation"), err)
	}
	s.AttenuationLowPct, s.AttenuationHighPct = r.Low, r.High
	t, err := read.Parse(quantity.Temperature, f.temperature.Text, limits("yeast.0.temperature_c"))
	if err != nil {
		return s, ui.Named(words.T("temperature"), err)
	}
	s.TemperatureC = t.Value
	cells := limits("yeast.0.cells_billion_per_l")
	n, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(f.cells.Text), ",", ".", 1), 64)
	if err != nil || !(n >= cells.Low && n <= cells.High) {
		return s, message.NewError("cells: “{text}” is no number from {low} to {high} billion a litre", f.cells.Text, strconv.FormatFloat(cells.Low, 'f', -1, 64), strconv.FormatFloat(cells.High, 'f', -1, 64))
	}
	s.CellsBillionPerL = n
	return s, nil
}

// check says while one types what follows from the figures. What is only half
// typed is no fault yet, so nothing turns red before it is asked for.
func (f *strainForm) check() {
	f.wrong.SetText("")
	s, err := f.strain()
	if err != nil && s.Name != "" {
		f.follows.SetText(words.T("What it does with maltotriose and dextrin follows from its range."))
		return
	}
	f.follows.SetText(takesInWords(s))
}

// takesInWords says what a strain's range means for maltotriose and dextrin on
// the reference wort.
func takesInWords(s design.Yeast) string {
	low := yeast.FromAttenuation(s.AttenuationLowPct, mash.Reference())
	high := yeast.FromAttenuation(s.AttenuationHighPct, mash.Reference())
	text := words.T("On an all-malt wort mashed at 66 °C this range means: it takes {maltotriose} of the maltotriose and {dextrin} of the dextrin.",
		shareInWords(low.Maltotriose, high.Maltotriose), shareInWords(low.Dextrin, high.Dextrin))
	if _, past := yeast.Diastatic(s.AttenuationHighPct, mash.Reference()); past && !s.EatsDextrin {
		text += " " + words.T("Only a strain that eats dextrin gets so far: check the figure, or tick the box.")
	}
	return text
}

func shareInWords(low, high float64) string {
	l, h := math.Round(100*low), math.Round(100*high)
	text := func(v float64) string { return strconv.Itoa(int(v)) }
	switch {
	case h <= 0:
		return words.T("none")
	case l >= 100:
		return words.T("all")
	case l == h:
		return words.T("{share} %", text(l))
	}
	return words.T("{low} to {high} %", text(l), text(h))
}

// done takes the strain, and keeps it among one's own if that was asked for.
func (f *strainForm) done() {
	s, err := f.strain()
	if err == nil && f.keep.Checked {
		wanted := ui.Wanted(f.y.host)
		f.y.host.AddOwn(s, func(err error) {
			switch {
			case wanted():
				f.take(s, err)
			case err != nil:
				f.y.host.Warn(f.y.host.Say().Why(err))
			}
		})
		return
	}
	f.take(s, err)
}

func (f *strainForm) take(s design.Yeast, err error) {
	if err != nil {
		f.wrong.SetText(f.y.host.Say().Why(err))
		return
	}
	f.dialog.Hide()
	if f.at >= 0 {
		if f.y.change(f.at, s) {
			f.y.focusRow(f.at)
		}
		return
	}
	if f.y.add(s) {
		f.y.focusRow(len(f.y.Shown) - 1)
	}
}

// keepOwn writes a strain of this design to the person's own file.
func (y *Place) keepOwn(s design.Yeast) {
	y.host.AddOwn(s, func(err error) {
		if err != nil {
			y.host.Warn(y.host.Say().Why(err))
			return
		}
		y.host.ShowMessage(words.T("{name} is among your own strains now, in {path}", ui.OrUnnamed(s.Name), y.host.OwnPath()))
	})
}
