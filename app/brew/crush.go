package brew

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
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

// OpenCrush asks what a handful of grist shows and says what it means.
func (p *Place) OpenCrush() {
	var pop *ui.Drawer
	var seen crush.Look
	means := ui.NewParagraph("", 13, ui.InkFull)
	show := func() {
		word := seen.Word()
		a := crush.AdviceFor(word)
		text := words.T("That is {word}: {means}.", ui.WordText("by_eye", word), a.Means)
		if !a.Do.Empty() {
			text += " " + words.T("What to do: {do}.", a.Do)
		}
		means.SetText(text)
		if pop != nil {
			pop.Fit()
		}
	}
	ask := func(question string, answers []string, take func(i int)) fyne.CanvasObject {
		return container.NewVBox(ui.Heading(question), ui.NewRadio(answers, 0, false, func(i int) {
			take(i)
			show()
		}).Box)
	}
	questions := container.NewVBox(
		ask(words.T("Whole kernels in a handful?"), []string{words.T("hardly one"), words.T("one in twenty or so"), words.T("one in ten, or more")},
			func(i int) { seen.Kernels = crush.Kernels(i) }),
		ask(words.T("The husks?"), []string{words.T("split along, mostly in one piece"), words.T("in two or three pieces"), words.T("shreds")},
			func(i int) { seen.Husks = crush.Husks(i) }),
		ask(words.T("White flour?"), []string{words.T("a dusting"), words.T("hardly any"), words.T("a quarter or more; the hand is white")},
			func(i int) { seen.Flour = crush.Flour(i) }))
	use := ui.NewButton(words.T("Take it"), func() {
		c := design.NewCrush()
		c.ByEye = seen.Word()
		ui.Change(p.host, words.T("crush by eye: {word}", ui.WordText("by_eye", c.ByEye)), func(d *design.Design) { d.Crush = c })
		pop.Close()
	})
	use.Importance = widget.HighImportance
	parts := []fyne.CanvasObject{ui.NewParagraph(words.T("Spread a handful on dark paper."), 13, ui.InkQuiet), questions, means, container.NewHBox(use),
		ui.Heading(words.T("Milled by someone else: look before you pay"))}
	for _, s := range crush.Inspect() {
		line := ui.NewParagraph(words.Print(s), 13, ui.InkQuiet)
		line.Mark = "•"
		parts = append(parts, line)
	}
	show()
	pop = ui.NewDrawer(p.host, words.T("The crush by eye"), 420, parts...)
}
