package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/words"
	"skep/calc/crush"
	"skep/calc/design"
)

// publishedSieving is the grist of the trade that a pumped bed wants, to be
// typed over.
func publishedSieving() []float64 {
	pct := crush.Published()[1].Pct
	return pct[:]
}

// drawer puts a small popup at the right edge, under the bar.
func (b *bench) drawer(content fyne.CanvasObject, width float32) *widget.PopUp {
	pop := widget.NewPopUp(container.New(layout.NewCustomPaddedLayout(12, 12, 16, 16), content), b.window.Canvas())
	window := b.window.Canvas().Size()
	size := pop.MinSize().Max(fyne.NewSize(width, 0))
	size.Height = min(size.Height, window.Height-barHeight-24)
	at := fyne.NewPos(window.Width-size.Width-16, barHeight+8)
	pop.Resize(size)
	pop.ShowAtPosition(at)
	pop.Resize(size)
	return pop
}

// note is a label that wraps.
func wrapped(text string, importance widget.Importance) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping, l.Importance = fyne.TextWrapWord, importance
	return l
}

// openCrush asks what a handful of grist shows and says what it means.
func (p *brewPlace) openCrush() {
	var pop *widget.PopUp
	var seen crush.Look
	means := wrapped("", widget.MediumImportance)
	tell := func() {
		word := seen.Word()
		a := crush.AdviceFor(word)
		text := words.T("That is {{.Word}}: {{.Means}}.", map[string]any{"Word": wordText("by_eye", word), "Means": a.Means})
		if a.Do != "" {
			text += " " + words.T("What to do: {{.Do}}.", map[string]any{"Do": a.Do})
		}
		means.SetText(text)
	}
	ask := func(question string, answers []string, take func(i int)) fyne.CanvasObject {
		r := widget.NewRadioGroup(answers, nil)
		r.Required = true
		r.SetSelected(answers[0])
		r.OnChanged = func(s string) {
			for i, a := range answers {
				if a == s {
					take(i)
				}
			}
			tell()
		}
		return container.NewVBox(heading(question), r)
	}
	questions := container.NewVBox(
		ask(words.T("Whole kernels in a handful?"), []string{words.T("hardly one"), words.T("one in twenty or so"), words.T("one in ten, or more")},
			func(i int) { seen.Kernels = crush.Kernels(i) }),
		ask(words.T("The husks?"), []string{words.T("split along, mostly in one piece"), words.T("in two or three pieces"), words.T("shreds")},
			func(i int) { seen.Husks = crush.Husks(i) }),
		ask(words.T("White flour?"), []string{words.T("a dusting"), words.T("hardly any"), words.T("a quarter or more; the hand is white")},
			func(i int) { seen.Flour = crush.Flour(i) }))
	use := widget.NewButton(words.T("Take it"), func() {
		c := design.NewCrush()
		c.ByEye = seen.Word()
		p.b.edit(words.T("crush by eye: {{.Word}}", map[string]any{"Word": wordText("by_eye", c.ByEye)}), "", func(d *design.Design) { d.Crush = c })
		pop.Hide()
	})
	use.Importance = widget.HighImportance
	inspect := container.NewVBox(heading(words.T("Milled by someone else: look before you pay")))
	for _, s := range crush.Inspect() {
		inspect.Add(wrapped("• "+s, widget.LowImportance))
	}
	tell()
	pop = p.b.drawer(container.NewVScroll(container.NewVBox(
		newCaption(words.T("The crush by eye"), look.TitleSize, true, inkFull),
		wrapped(words.T("Spread a handful on dark paper."), widget.LowImportance),
		questions, means, use, inspect)), 420)
	tall := fyne.NewSize(420, p.b.window.Canvas().Size().Height-barHeight-24)
	pop.Resize(tall)
	pop.ShowAtPosition(fyne.NewPos(p.b.window.Canvas().Size().Width-tall.Width-16, barHeight+8))
	pop.Resize(tall)
}
